// Nitrate creeping towards its marks: a planned water change, and the floor the tap water sets.

#include "advice/rule.h"

namespace redd::advice::rules {

std::vector<Action> nitrate(const Situation& s) {
  const Assessment& no3 = s.of(WaterKey::nitrate);
  if (!inference::has_animals(s.belief.brood.animals) || !no3.value || no3.tone < Tone::watch) return {};
  const NitrateMarks marks = nitrate_marks(s.season);
  const auto shown = [&](double v) { return s.on_card(inference::Quantity::nitrate, v); };
  const double goal = marks.guideline.mg_n_per_l();
  auto change = planning::smallest_change(s.season, s.belief, [&](const auto& c) { return c.after.at(inference::Quantity::nitrate).mid < goal; });
  bool reaches = change.has_value();
  if (!change) change = planning::predict_change(s.season, s.belief, planning::largest_fraction / 2);
  const double wanted = change->fraction;
  change = bearable(s, *change);
  reaches = reaches && change->fraction == wanted;
  Date by = no3.tone >= Tone::act ? next_school_day(s) : s.today() + std::chrono::days(7);
  if (s.school.closure_on(by)) {  // rather before a break than in it
    const auto before = s.school.last_open_day_before(by);
    by = before && *before > s.today() ? *before : open_day_from(s, by);
  }
  Action a = water_change_action(s, *change, no3.tone, by);
  a.rule = "nitrate";
  a.again = Days(7);
  const bool lowers = a.water_change->after.at(inference::Quantity::nitrate).high < 0.98 * no3.value->high;
  if (!lowers && !no3.open_above) a.benefit = {"Thins the nitrate by {0}, as far as the new water brings none of its own; the long-term guideline is {1}.", {Share{a.water_change->fraction}, shown(goal)}};
  else a.benefit = no3.open_above ? Sentence{"Takes out {0} of a nitrate that has no known upper bound; the long-term guideline is {1}.", {Share{a.water_change->fraction}, shown(goal)}}
                             : Sentence{"Takes nitrate from at most {0} to at most {1}; the long-term guideline is {2}.",
                                        {shown(no3.value->high), shown(a.water_change->after.at(inference::Quantity::nitrate).high), shown(goal)}};
  a.concern = {"Nitrate is above its mark, or may be."};
  a.because.push_back({{"Nitrate is between {0} and {1}; long-term guideline {2}, act {3}, ceiling {4}.",
                        {shown(no3.value->low), shown(no3.value->high), shown(goal), shown(marks.act.mg_n_per_l()), shown(marks.ceiling.mg_n_per_l())}}, no3.records});
  if (!reaches) {
    if (s.belief.source && s.belief.source->nitrate && s.belief.source->nitrate->mg_n_per_l() >= goal)
      a.because.push_back({{"The source water itself holds {0}: changes alone can't bring the tank below that.", {shown(s.belief.source->nitrate->mg_n_per_l())}}, {s.belief.source_record}});
    else
      a.because.push_back({{"One safe change does not reach the guideline: make this one and another after the next test."}, no3.records});
  }
  a.would_change_if.push_back({{"A repeat test that reads lower; nitrate kits also respond to nitrite."}, no3.records});
  a.sources = {"CCME 2012, 13 mg/L as NO3 (from memory)", "McGurk et al. 2006", "ceiling: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
