// Nitrite above what this chloride allows: dilute it, and know how much chloride would shield.

#include "advice/rule.h"
#include "chemistry/limits.h"
#include "chemistry/nitrite.h"

namespace redd::advice::rules {

std::vector<Action> nitrite(const Situation& s) {
  const Assessment& no2 = s.of(WaterKey::nitrite);
  if (!inference::has_animals(s.belief.brood.animals) || !no2.value || no2.tone < Tone::watch) return {};
  const chemistry::NitriteLimit limit = chemistry::nitrite_limit(s.belief.chloride_mg_per_l);
  const auto n = [&](double v) { return s.on_card(inference::Quantity::nitrite, v); };
  std::vector<Reason> because{{{"Nitrite is between {0} and {1}; with this chloride the month's mean should stay below {2} and nothing above {3}.",
                                {n(no2.value->low), n(no2.value->high), n(limit.mean.mg_n_per_l()), n(limit.maximum.mg_n_per_l())}}, no2.records}};
  if (!s.belief.chloride_mg_per_l)
    because.push_back({{"Chloride is not known, so the strictest limit is used: it is on the water supplier's report."}, {}});
  if (no2.tone == Tone::watch) {
    Action a;
    a.rule = "nitrite";
    a.key = "nitrite/retest";
    a.deeds = {Deed::test};
    a.again = Days(2);
    a.effort_minutes = 10;
    a.benefit = {"Nitrite keeps the blood from carrying oxygen. A test in two days finds a rise towards {0} while one water change still answers it.", {n(limit.maximum.mg_n_per_l())}};
    a.tone = Tone::watch;
    a.concern = {"Nitrite is near its limit."};
    a.what = {"Test nitrite again."};
    a.how_much = {"One test, read by two people."};
    const Date in_two = s.today() + std::chrono::days(2), day = s.school.is_open(in_two) ? in_two : next_school_day(s);
    a.by = s.end_of(day);
    a.by_text = by_text(s, day);
    a.because = std::move(because);
    a.would_change_if.push_back({{"A reading below the first mark ends this; a higher one calls for a water change."}, no2.records});
    a.sources = {"British Columbia nitrite guideline by chloride (2009)"};
    return {a};
  }
  const bool source_known = s.belief.source && s.belief.source->nitrite;
  const auto below = [&](const planning::WaterChange& c) {
    const auto& after = c.after.at(inference::Quantity::nitrite);
    return source_known ? after.high < limit.maximum.mg_n_per_l() : after.mid < limit.maximum.mg_n_per_l();
  };
  auto change = planning::smallest_change(s.season, s.belief, below);
  const bool enough = change.has_value();
  if (!change) change = planning::predict_change(s.season, s.belief, planning::largest_fraction);
  // Of water that nobody has tested no more than a quarter at once: it may bring ammonia, or a pH that makes what is there more harmful. Assumed.
  constexpr double untested_fraction = 0.25;
  const bool tap_known = source_known && s.belief.source->ph && s.belief.source->alkalinity && s.belief.source->total_ammonia;
  if (!tap_known && change->fraction > untested_fraction) change = planning::predict_change(s.season, s.belief, untested_fraction);
  const bool lowers = change->after.at(inference::Quantity::nitrite).high < 0.98 * no2.value->high;
  Action a = water_change_action(s, *change, no2.tone, s.today());
  if (!tap_known) a.cautions.insert(a.cautions.begin(), {"What this water brings is not on record: test its ammonia, nitrite, pH and KH before it goes in, and change the next part after the next test."});
  a.rule = "nitrite";
  a.stake = 0.3;  // Assumed
  if (!lowers && !no2.open_above) a.benefit = {"Thins the nitrite by {0}, as far as the new water brings none of its own; with this chloride nothing should be above {1}.", {Share{a.water_change->fraction}, n(limit.maximum.mg_n_per_l())}};
  else a.benefit = no2.open_above ? Sentence{"Takes out {0} of a nitrite that has no known upper bound; with this chloride nothing should be above {1}.", {Share{a.water_change->fraction}, n(limit.maximum.mg_n_per_l())}}
                             : Sentence{"Takes nitrite from at most {0} to at most {1}; with this chloride nothing should be above {2}.",
                                        {n(no2.value->high), n(a.water_change->after.at(inference::Quantity::nitrite).high), n(limit.maximum.mg_n_per_l())}};
  a.concern = no2.value->mid >= limit.maximum.mg_n_per_l() || no2.open_above ? Sentence{"Nitrite is too high for the animals."} : Sentence{"Nitrite may be too high for the animals."};
  a.because = std::move(because);
  if (!enough && tap_known) a.because.push_back({{"Half the water at once is the most that is safe and it is not enough: repeat tomorrow after testing."}, no2.records});
  const double shield = chemistry::limits::protective_chloride_mg_per_mg_n * no2.value->high;
  a.because.push_back({{"Chloride shields the gills: trout growers keep about {0} for this much nitrite (common practice).", {Measured{shield, "mg/L chloride"}}}, no2.records});
  a.would_change_if.push_back({{"A repeat test that reads lower, or a chloride test that allows more."}, no2.records});
  a.sources = {"British Columbia nitrite guideline by chloride (2009)"};
  if (needs_repeat(s, inference::Quantity::nitrite) && no2.value->low < limit.maximum.mg_n_per_l()) await_repeat(s, a);
  return {a};
}

}  // namespace redd::advice::rules
