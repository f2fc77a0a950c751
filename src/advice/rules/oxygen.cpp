// Too little oxygen: air first, everything else after.

#include "advice/rule.h"

namespace redd::advice::rules {

namespace {

using inference::Animals;

/// More oxygen than balance with air allows means more of every gas: bubbles form inside small fish.
Action too_much_gas(const Situation& s, const Assessment& o2) {
  const bool hatched = s.belief.brood.animals == Animals::alevin || s.belief.brood.animals == Animals::fry;
  const auto mg = [](double v) { return OxygenConc::from_mg_o2_per_l(v); };
  Action a;
  a.rule = "oxygen";
  a.key = "oxygen/gas";
  a.deeds = {Deed::mend, Deed::test};
  a.tone = hatched ? Tone::act : Tone::watch;
  a.concern = {"The water may hold more gas than it can keep."};
  a.what = {"Drive the extra gas off: break the surface and bubble it hard, then repeat the oxygen test."};
  a.how_much = {"Look for bubbles on glass, gravel and animals. Put in no more new water until it has stood and bubbled for a day at the tank's temperature."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 15;
  a.benefit = {"Gas trouble in small fish begins at about 110 % of balance; this water reads {0} of {1}.", {mg(o2.value->mid), mg(o2.limits[2].value)}};
  a.because.push_back({{"Oxygen is between {0} and {1}; in full balance with air this water holds {2}.", {mg(o2.value->low), mg(o2.value->high), mg(o2.limits[2].value)}}, o2.records});
  a.would_change_if.push_back({{"A repeat test near the balance value: then it was a slip of the test."}, o2.records});
  a.cautions.push_back({"Cold tap water warmed in the tank, or air drawn in at a pump, does this. Eggs bear it better than hatched fish."});
  a.sources = {"Piper et al. 1982 (110 % total gas)", "Benson & Krause 1984"};
  return a;
}

}  // namespace

std::vector<Action> oxygen(const Situation& s) {
  const Assessment& o2 = s.of(WaterKey::oxygen);
  if (!inference::has_animals(s.belief.brood.animals) || !o2.value || o2.stale || o2.tone < Tone::watch) return {};
  if (o2.value->low > 1.1 * o2.limits[2].value) return {too_much_gas(s, o2)};
  Action a;
  a.rule = "oxygen";
  a.concern = {"Oxygen is low."};
  a.tone = o2.tone;
  a.what = {"Give the water more air."};
  a.how_much = {"Check that air and flow reach the eggs or fish; add a second air stone; take dead eggs and waste out."};
  a.by = s.end_of(s.today());
  a.by_text = a.tone == Tone::alarm ? Sentence{"now"} : Sentence{"today"};
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
