#pragma once
// What is said of food and growth, shared by page, JSON and terminal. All sentences in the order of show.

#include <string>
#include <vector>

#include "report/numbers.h"
#include "season/feed_look.h"

namespace redd::report {

/// The one thing to know first, and the line below it.
struct FeedHeadline {
  std::string sentence;
  std::string detail;
};
FeedHeadline feed_headline(const season::FeedLook& look, const Reader& reader);

std::vector<std::string> start_texts(const planning::FeedPlan& plan, const Reader& reader);
std::vector<std::string> hold_texts(const season::FeedLook& look, const Reader& reader);
/// A ration in grams, or in spoons with the grams behind; "no food" when the share is nought.
std::string ration_text(const planning::Ration& ration, double share, const Reader& reader);
/// Tomorrow's ration as long as what holds food back lasts, and what it returns to.
std::string coming_ration_text(const planning::Ration& ration, double share, const Reader& reader);
std::vector<std::string> ration_texts(const planning::FeedPlan& plan, const planning::Ration& ration, const Reader& reader);
std::vector<std::string> cost_texts(const season::FeedLook& look, const Reader& reader);
std::vector<std::string> growth_texts(const planning::FeedPlan& plan, const Reader& reader);
std::string sample_text(const inference::WeighedSample& sample, const Reader& reader);
std::string gap_text(const planning::FeedGap& gap, const Reader& reader);
/// In      share: of a usual day's food that what holds food back leaves.
std::vector<std::string> gap_do(const planning::FeedGap& gap, double share, const Reader& reader);
std::vector<std::string> gap_do_not(const Reader& reader);
std::string gap_water_text(const planning::FeedGap& gap, double share, const Reader& reader);
std::vector<std::string> break_texts(const planning::BreakRisk& risk, const Reader& reader);
std::vector<std::string> overfed_texts(const planning::Overfed& overfed, const Reader& reader);
std::vector<std::string> feed_sources(const Reader& reader);

}  // namespace redd::report
