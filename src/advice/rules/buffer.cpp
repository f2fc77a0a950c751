// Too little alkalinity to hold pH: bicarbonate in small steps, never while ammonia is high.

#include "advice/rule.h"
#include "chemistry/dosing.h"
#include "chemistry/limits.h"

namespace redd::advice::rules {

std::vector<Action> buffer(const Situation& s) {
  const Assessment& kh = s.of(WaterKey::alkalinity);
  if (s.belief.brood.animals == inference::Animals::released) return {};
  if (!kh.value || kh.stale || kh.value->mid >= chemistry::limits::alkalinity_for_nitrification.meq_per_l()) return {};
  const bool animals = inference::has_animals(s.belief.brood.animals);
  // With animals one German degree a day at most, so that pH moves little. Assumed, common practice.
  const double wanted = 1.2 * chemistry::limits::alkalinity_for_nitrification.meq_per_l() - kh.value->mid;
  const double one_degree = Alkalinity::from_german_degrees(1.0).meq_per_l();
  const auto raise = Alkalinity::from_meq_per_l(animals ? std::min(wanted, one_degree) : wanted);
  Action a;
  a.rule = "buffer";
  a.deeds = {Deed::dose};
  a.again = Days(2);
  a.concern = {"KH is low: pH has little to hold it."};
  a.tone = std::max(kh.tone, Tone::watch);
  a.what = {"Add sodium bicarbonate to lift KH by {0}.", {raise}};
  a.how_much = {"{0}, dissolved in a litre of tank water and added slowly.", {chemistry::sodium_bicarbonate_for(s.season.volume, raise)}};
  const Date day = kh.tone >= Tone::act ? s.today() : next_school_day(s);
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.effort_minutes = 10;
  // Two equivalents of alkalinity for each mole of ammonia nitrogen oxidised (stoichiometry).
  constexpr double meq_per_mg_n = 2.0 / 14.007;
  a.benefit = {"Keeps pH from falling: the filter uses up {0} of KH for every mg/L of ammonia nitrogen it turns over, and {1} is left.",
               {Alkalinity::from_meq_per_l(meq_per_mg_n), Alkalinity::from_meq_per_l(kh.value->mid)}};
  a.because.push_back({{"KH is between {0} and {1}; the filter needs {2}, and fresh-water life {3}.",
                        {Alkalinity::from_meq_per_l(kh.value->low), Alkalinity::from_meq_per_l(kh.value->high),
                         chemistry::limits::alkalinity_for_nitrification, chemistry::limits::alkalinity_least}}, kh.records});
  a.would_change_if.push_back({{"A repeat KH test that counts more drops."}, kh.records});
  if (animals && s.of(WaterKey::un_ionized_ammonia).tone >= Tone::act) {
    a.tone = Tone::watch;
    a.deeds = {Deed::wait};
    a.how_much = {"Then lift KH by {0}: {1} sodium bicarbonate, dissolved in a litre of tank water and added slowly.", {raise, chemistry::sodium_bicarbonate_for(s.season.volume, raise)}};
    a.what = {"Wait with bicarbonate until ammonia is back below its mark."};
    a.because.push_back({{"Bicarbonate raises pH, and pH makes the same ammonia more harmful."}, s.of(WaterKey::un_ionized_ammonia).records});
  }
  a.cautions.push_back({"Eye protection when handling powders; wash hands."});
  a.sources = {"US EPA 1975, 40 mg/L as CaCO3 for nitrification, as quoted", "stoichiometry"};
  return {a};
}

}  // namespace redd::advice::rules
