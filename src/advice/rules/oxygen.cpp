// Too little oxygen: air first, everything else after.

#include "advice/rule.h"

namespace redd::advice::rules {

std::vector<Action> oxygen(const Situation& s) {
  const Assessment& o2 = s.of(WaterKey::oxygen);
  if (!inference::has_animals(s.belief.brood.animals) || !o2.value || o2.stale || o2.tone < Tone::watch) return {};
  Action a;
  a.rule = "oxygen";
  a.concern = {"Oxygen is low."};
  a.tone = o2.tone;
  a.what = {"Give the water more air."};
  a.how_much = {"Check that air and flow reach the eggs or fish; add a second air stone; take dead eggs and waste out."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 10;
  const auto mg = [](double v) { return OxygenConc::from_mg_o2_per_l(v); };
  a.because.push_back({{"Oxygen is between {0} and {1}; at least {2} at all times and {3} over a week are asked for.",
                        {mg(o2.value->low), mg(o2.value->high), mg(o2.limits[0].value), mg(o2.limits[1].value)}}, o2.records});
  a.because.push_back({{"In full balance with air this water would hold {0}.", {mg(o2.limits[2].value)}}, {}});
  a.would_change_if.push_back({{"A repeat test nearer the balance value."}, o2.records});
  a.cautions.push_back({"The flow past the eggs matters as much as the number: a still basket runs out long before the tank."});
  a.sources = {"US EPA 1986 (from memory)", "Benson & Krause 1984"};
  return {a};
}

}  // namespace redd::advice::rules
