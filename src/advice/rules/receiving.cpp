// Receiving eggs: what to have ready the day before, and how to bring them from the box to the tank.

#include <cmath>

#include "advice/assess_filter.h"
#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

using std::chrono::days;

constexpr const char* tempering_source = "Hinshaw 1990 and 2000, SRAC 220 (30 to 60 minutes, shipping water thrown away)";

Action get_ready(const Situation& s, Date egg_day) {
  Action a;
  a.rule = "receiving";
  a.beside_calm = true;
  a.key = "receiving/ready";
  a.aim = Aim::deadline;
  a.deeds = {Deed::plan};
  a.again = Days(2);
  a.tone = Tone::watch;
  a.concern = {"The eggs come tomorrow or today."};
  a.what = {"Get ready to receive the eggs."};
  a.how_much = {"A clean bucket, a thermometer, the dark cover, somebody at the door. Bring the eggs to the tank's temperature over 30 to 60 minutes, away from the tank; water and packing of the box are thrown away."};
  a.by = s.end_of(egg_day);
  a.by_text = by_text(s, egg_day);
  a.effort_minutes = 30;
  a.benefit = {"Eggs set straight into other water may be shocked, and the water they came in brings whatever it carries."};
  a.because.push_back({{"The eggs are due on {0}.", {egg_day}}, setup_records(s)});
  a.would_change_if.push_back({{"Another egg day in the season's set-up."}, setup_records(s)});
  a.cautions.push_back({"Read the temperature in the box before opening further; count white eggs and log them apart: they died on the way."});
  a.cautions.push_back({"Disinfect eggs only if the supplier or the permit office asks for it, by an adult, and never eggs that are hatching."});
  a.sources = {tempering_source};
  return a;
}

/// Where the rule raise_the_odds would ask for a later date.
bool filter_is_late(const Situation& s) { return s.filter && s.filter->by_day && s.filter->by_probability < likely_probability && capacity_tone(*s.filter) != Tone::good; }

/// Nobody knows the day: what is only assumed is no reason to stand ready with a bucket.
Action ask_for_the_day(const Situation& s, const Sentence& assumed) {
  Action a;
  a.rule = "receiving";
  a.beside_calm = true;
  a.key = "receiving/ask_day";
  a.aim = Aim::deadline;
  a.deeds = {Deed::plan};
  a.again = Days(7);
  a.tone = Tone::watch;
  a.concern = {"The day the eggs arrive is not known."};
  a.what = {"Ask when the eggs come, and write the day into the set-up; if they have come, log them."};
  a.how_much = {"One call or message to the hatchery or the permit office."};
  a.by = s.end_of(s.today() + days(3));
  a.by_text = by_text(s, s.today() + days(3));
  a.effort_minutes = 10;
  if (filter_is_late(s) && s.filter->outlook.ready.high_50)
    a.how_much = joined(a.how_much, {"Say that no eggs should come before {0}: by then the filter is ready with 3 chances in 4.", {local_day(s.zone, after_days(s.filter->begin, *s.filter->outlook.ready.high_50))}});
  else if (filter_is_late(s))
    a.how_much = joined(a.how_much, "Say that the filter is not ready yet, and that this forecast sees no day on which it is sure enough.");
  a.benefit = {"Filter, chilling and every date of the plan stand on that day."};
  a.because.push_back({assumed, setup_records(s)});
  if (filter_is_late(s)) a.because.push_back({{"As things are planned the filter passes its test on {0} with {1}.", {*s.filter->by_day, Chance{s.filter->by_probability}}}, filter_readings(s)});
  a.would_change_if.push_back({{"Another egg day in the season's set-up."}, setup_records(s)});
  a.sources = {"common practice, no source"};
  return a;
}

/// Right after they came, while something can still be done about it.
std::vector<Action> temper(const Situation& s) {
  constexpr double still_days = 2.0 / 24.0, step_c = 2.0;  // Assumed: two hours; and a step no tempering is needed for
  const auto found = std::ranges::find(s.records, s.belief.brood.receipt.value_or(0), &records::Record::id);
  if (found == s.records.end() || !s.belief.temperature.latest) return {};
  const auto& receipt = std::get<records::EggReceipt>(found->entry.body);
  if (!receipt.box || days_between(found->entry.at, s.now).count() > still_days) return {};
  const TemperatureChange step = *s.belief.temperature.latest - *receipt.box;
  if (std::abs(step.c()) < step_c) return {};
  Action a;
  a.rule = "receiving";
  a.beside_calm = true;
  a.key = "receiving/temper";
  a.deeds = {Deed::wait};
  a.tone = Tone::act;
  a.concern = {"The eggs are not at the tank's temperature."};
  a.what = {"Bring the eggs to {0} over 30 to 60 minutes before they go into the tank.", {*s.belief.temperature.latest}};
  a.how_much = {"In a clean bucket away from the tank: a little tank water every few minutes. Throw away the water they came in."};
  a.by = s.now + std::chrono::hours(1);
  a.by_text = {"now"};
  a.effort_minutes = 45;
  a.benefit = {"They are spared a step of {0} at once.", {step.c() < 0 ? *receipt.box - *s.belief.temperature.latest : step}};
  a.because.push_back({{"The box was at {0}, the tank is at {1}.", {*receipt.box, *s.belief.temperature.latest}}, {found->id, s.belief.temperature.record}});
  a.would_change_if.push_back({{"If they are in the tank already: leave them there and look at them tomorrow."}, {found->id}});
  a.cautions.push_back({"Count white eggs now and log them: they died on the way, not here."});
  a.sources = {tempering_source, "Peterson et al. 1977 (sudden cooling of eyed eggs)"};
  return {a};
}

}  // namespace

std::vector<Action> receiving(const Situation& s) {
  if (inference::has_animals(s.belief.brood.animals)) return temper(s);
  if (s.belief.brood.animals != inference::Animals::none || !s.season.egg_day) return {};
  const Date egg_day = *s.season.egg_day;
  constexpr days ask_before{28};  // Assumed: chilling and a last proof of the filter want some three weeks
  if (const auto assumed = inference::egg_day_assumed(s.season, s.belief.brood)) {
    if (s.today() < egg_day - ask_before && !filter_is_late(s)) return {};
    return {ask_for_the_day(s, *assumed)};
  }
  if (s.today() < egg_day - days(1) || s.today() > egg_day) return {};
  return {get_ready(s, egg_day)};
}

}  // namespace redd::advice::rules
