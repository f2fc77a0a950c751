// GH creeping up because evaporation leaves its salts behind: softer water for topping up, and a change where it is far off already.

#include <algorithm>

#include "advice/rule.h"
#include "planning/water_programme.h"

namespace redd::advice::rules {

std::vector<Action> hardness(const Situation& s) {
  const planning::WaterProgramme* p = s.looks.water;
  const Assessment& gh = s.of(WaterKey::hardness);
  if (!p || !inference::has_animals(s.belief.brood.animals) || !gh.value || gh.stale || !p->limits.hardness_high_meq_per_l) return {};
  const auto meq = [](double v) { return Hardness::from_meq_per_l(v); };
  const double high = *p->limits.hardness_high_meq_per_l, normal = 0.5 * (*p->limits.hardness_low_meq_per_l + high);
  const bool beyond = gh.value->mid > high;
  // Judged by the season's chart, or by having gone more than half-way to its limit.
  const bool creeps = (gh.baseline && gh.baseline->drifts && gh.baseline->upwards) || gh.value->low > 0.5 * (normal + high);
  if (!beyond && !creeps) return {};
  Action a;
  a.rule = "hardness";
  a.aim = Aim::animals;
  a.tone = Tone::watch;
  a.concern = {"GH creeps up: water evaporates and its salts stay."};
  const Date day = next_school_day(s);
  if (beyond && p->source.hardness_meq_per_l && p->source.hardness_meq_per_l->mid < gh.value->mid && p->largest_fraction > 0.0) {
    const double fraction = std::clamp((gh.value->mid - normal) / std::max(0.01, gh.value->mid - p->source.hardness_meq_per_l->mid), 0.1, std::max(0.1, p->largest_fraction));
    a = water_change_action(s, planning::predict_change(s.season, s.belief, std::min(fraction, p->largest_fraction)), Tone::watch, day);
    a.rule = "hardness";
    a.aim = Aim::animals;
    a.deeds = {Deed::change_water};
    a.concern = {"GH has crept up: water evaporates and its salts stay."};
    a.cautions.push_back({"From now on top up with distilled or other soft water; use the usual water for changes only."});
  } else {
    a.deeds = {Deed::mend};
    a.what = {"Top up with distilled or other soft water from now on."};
    a.how_much = {"About {0} to {1} a day evaporate. Use the usual water for changes only.",
                  {Volume::from_l(p->evaporation.l_per_day.low), Volume::from_l(p->evaporation.l_per_day.high)}};
    a.by = s.end_of(day);
    a.by_text = by_text(s, day);
    a.cautions.push_back({"Never change water with distilled water alone: eggs and fry need its salts."});
  }
  a.benefit = {"Keeps GH near the {0} the brood came into: it stands at about {1}, and every litre that evaporates leaves its salts.", {meq(normal), meq(gh.value->mid)}};
  a.because.push_back({{"GH is between {0} and {1}; the brood came into about {2}, and more than {3} is too far from it.", {meq(gh.value->low), meq(gh.value->high), meq(normal), meq(high)}}, gh.records});
  a.because.push_back({{"Topping up with the source's own water is not a water change: it adds salts and takes none out."}, p->evaporation.records});
  a.would_change_if.push_back({{"A repeat GH test that counts fewer drops, or a source water whose GH has risen itself."}, gh.records});
  a.sources = {"half more than the water the brood came into: assumed", "common practice, no source (soft water for topping up)"};
  return {a};
}

}  // namespace redd::advice::rules
