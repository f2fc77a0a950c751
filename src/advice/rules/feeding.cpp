// Food when it is due and not before. Amounts need the growth model; this rule only minds the gap.

#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

std::optional<Instant> last_feeding(const Situation& s) {
  std::optional<Instant> last;
  for (const auto& record : s.records)
    if (std::holds_alternative<records::Feeding>(record.entry.body)) last = record.entry.at;
  return last;
}

/// When at least half were seen or are believed to swim up; nothing before.
std::optional<Instant> swum_up_since(const Situation& s) {
  for (const auto& record : s.records)
    if (const auto* m = std::get_if<records::Milestone>(&record.entry.body); m && m->seen && m->which == records::Milestone::Which::half_swim_up) return record.entry.at;
  if (!s.belief.brood.forecast) return std::nullopt;
  const auto& swim_up = s.belief.brood.forecast->stage(biology::Stage::swim_up);
  if (swim_up.past_fraction.mid < 0.9) return std::nullopt;
  return start_of_day(s.zone, biology::day_of(swim_up.lot.median));
}

}  // namespace

std::vector<Action> feeding(const Situation& s) {
  if (!inference::has_animals(s.belief.brood.animals) || !s.belief.brood.forecast) return {};
  const auto since = swum_up_since(s);
  const auto last = last_feeding(s);
  Action a;
  a.rule = "feeding";
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 10;
  if (!since) {
    if (!last || days_between(*last, s.now).count() > 2.0 || s.belief.brood.forecast->stage(biology::Stage::swim_up).past_fraction.high > 0.05) return {};
    a.tone = Tone::act;
    a.concern = {"Food is in the tank before anything can eat it."};
    a.what = {"Take the food out again."};
    a.how_much = {"Vacuum it off the bottom; feed no more until about half swim up."};
    a.because.push_back({{"Food was logged and swim-up is expected around {0}; uneaten food becomes ammonia.", {biology::day_of(s.belief.brood.forecast->stage(biology::Stage::swim_up).lot.median)}}, {}});
    a.would_change_if.push_back({{"Swim-up seen and logged."}, {}});
    a.sources = {"first feeding at 50 to 90 % swim-up: published trout guides"};
    return {a};
  }
  // Unfed salmon fry whose yolk is gone starve in about four days; in the first three weeks no gap longer than a day.
  constexpr double early_days = 21.0, early_gap_days = 1.5, later_gap_days = 4.0;
  const double unfed_days = days_between(last ? std::max(*last, *since) : *since, s.now).count();
  const bool early = days_between(*since, s.now).count() < early_days;
  if (unfed_days < (early ? early_gap_days : later_gap_days)) return {};
  if (s.of(WaterKey::un_ionized_ammonia).tone >= Tone::act || s.of(WaterKey::nitrite).tone >= Tone::act) return {};  // not before the water is right
  a.tone = Tone::act;
  a.concern = last ? Sentence{"No feeding is logged for days."} : Sentence{"They swim up and no feeding is logged."};
  a.what = {"Feed, and log it."};
  a.how_much = {"A pinch of the finest food several times a day; take leftovers out after each."};
  a.because.push_back({{"Nothing has been logged as fed for {0}; in the first three weeks no gap should be longer than a day.", {Days(unfed_days)}}, s.belief.brood.milestone_records});
  a.would_change_if.push_back({{"A feeding that was given and not logged."}, {}});
  a.cautions.push_back({"Food becomes ammonia: test twice a week when feeding starts."});
  a.sources = {"starvation of unfed fry about 4 days after the yolk: published salmon studies", "one-day gap: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
