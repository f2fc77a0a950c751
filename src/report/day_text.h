#pragma once
// The day as plain text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/season.h"

namespace redd::report {

/// Headline, actions with their reasons (the first few, or `all` and what was put aside), water at a glance, milestones and gaps, wrapped to
/// `width` columns (40-200). Numbers of the actions are those `redd done` takes.
std::string day_text(const season::DayView& day, const Reader& reader = {}, int width = 80, bool all = false);

/// What the headline says, with "Act now." before it when it is an alarm.
std::string headline_text(const advice::Headline& headline, const Reader& reader);

/// Only the milestone windows, as text and as JSON {"milestones":[…],"today"}.
std::string milestones_text(const season::DayView& day, const Reader& reader = {});
std::string milestones_json(const season::DayView& day, const Reader& reader = {});

}  // namespace redd::report
