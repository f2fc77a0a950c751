// pH, KH or GH leaving the season's own normal: find the cause before treating the number.

#include "advice/rule.h"

namespace redd::advice::rules {

std::vector<Action> drift(const Situation& s) {
  std::vector<Action> actions;
  // While the filter ripens pH and KH are meant to move; a normal belongs to the animals' water.
  if (!inference::has_animals(s.belief.brood.animals)) return actions;
  for (const auto& [key, quantity] : {std::pair(WaterKey::ph, inference::Quantity::ph), std::pair(WaterKey::alkalinity, inference::Quantity::alkalinity),
                                      std::pair(WaterKey::hardness, inference::Quantity::hardness)}) {
    const Assessment& now = s.of(key);
    if (!now.baseline || !now.baseline->drifts || now.stale || now.tone != Tone::watch) continue;
    if (key == WaterKey::hardness && now.baseline->upwards && s.looks.water) continue;  // the rule of hardness knows the cause and says more
    const auto shown = [k = key](double v) -> Shown {
      if (k == WaterKey::ph) return Ph::from_ph(v);
      if (k == WaterKey::alkalinity) return Alkalinity::from_meq_per_l(v);
      return Hardness::from_meq_per_l(v);
    };
    Action a;
    a.rule = "drift";
    a.beside_calm = true;
    a.key = "drift/" + key_word(quantity);
    a.deeds = {Deed::test, Deed::mend};
    a.effort_minutes = 15;
    a.concern = {"The water has left this season's normal."};
    a.tone = Tone::watch;
    const Word name{records::quantity_text(quantity)};
    a.what = {"Find out why {0} is drifting.", {name}};
    a.how_much = key == WaterKey::hardness ? Sentence{"Test the source water's hardness; top up evaporation with purer water."}
                 : key == WaterKey::alkalinity ? Sentence{"Test the source water's KH; a water change brings it back towards the tap's."}
                                               : Sentence{"Test KH and the source water's pH; look at the air pump."};
    const Date day = next_school_day(s);
    a.by = s.end_of(day);
    a.by_text = by_text(s, day);
    a.benefit = {"It has moved from {0} to about {1}: found now it takes one water change, left alone it goes on, and animals bear steady water best.",
                 {shown(now.baseline->mean), shown(now.value->mid)}};
    a.because.push_back({{"The season's normal is {0} (first {1} tests); the chart's limits are {2} to {3}, and the latest tests are {4} them.",
                          {shown(now.baseline->mean), Number{now.baseline->tests}, shown(now.baseline->lower), shown(now.baseline->upper),
                           Word{now.baseline->upwards ? "above" : "below"}}}, now.records});
    a.would_change_if.push_back({{"The next test back at the normal; the chart gives a false signal about once in 500 tests."}, now.records});
    a.sources = {"EWMA chart: Crowder 1987; CUSUM: Lucas & Crosier 1982; ISO 7870"};
    actions.push_back(std::move(a));
  }
  return actions;
}

}  // namespace redd::advice::rules
