// Cold tap water, full of air, warms in the tank and fizzes out: in blood and fins too.

#include <algorithm>
#include <cmath>

#include "chemistry/oxygen.h"
#include "emergency/holds.h"

namespace redd::emergency::kinds {
namespace {

struct Mixed {
  double new_fraction;  ///< gas in the new water at the tank's temperature, as a share of what it then can hold
  double tank_fraction; ///< of the tank after the change
  double changed_fraction;
  bool logged;
};

/// By oxygen's solubility: nitrogen's falls with warmth almost alike. Nothing without the new water's temperature.
std::optional<Mixed> mixed(const Case& now) {
  const auto* change = recent_change(now);
  std::optional<Temperature> source = change ? change->new_water : std::nullopt;
  if (!source && now.belief.source) source = now.belief.source->temperature;
  if (!source) return std::nullopt;
  const double share = chemistry::oxygen_saturation(*source).mg_o2_per_l() / chemistry::oxygen_saturation(now.heat.water).mg_o2_per_l();
  const double changed = change ? std::clamp(change->volume.l() / std::max(1.0, now.season.volume.l()), 0.0, 1.0) : now.season.usual_change_fraction.value_or(0.2);
  return Mixed{share, 1.0 + changed * (share - 1.0), changed, change != nullptr};
}

/// When groups of salmon parr had to be ended, by total gas; nothing below what was found.
/// Source  [plosone_gas2026], 110 % in 10 days, 115 % in 48 h, 120 % in 24 h; between them on a straight line of ln(time). Assumed beyond: half for every 5 %.
std::optional<Hours> time_at(double fraction) {
  const double percent = 100.0 * fraction;
  if (percent < 110.0) return std::nullopt;
  if (percent < 115.0) return Hours(240.0 * std::pow(48.0 / 240.0, (percent - 110.0) / 5.0));
  return Hours(48.0 * std::pow(0.5, (percent - 115.0) / 5.0));
}

HoldTime harm(const Case& now) {
  HoldTime time{"gas harms small fish", std::nullopt,
                "Published: a threat above 100 %, act above 110 % of total gas (Piper and others 1982); parr had to be ended at 110 % after 10 days, at 115 % within two, at 120 % within one (trial, 2026)."};
  const auto gas = mixed(now);
  if (!gas || gas->new_fraction <= 1.0) {
    time.basis = joined(time.basis, "The new water's temperature on record does not explain it, or is not there: look for a pump that draws in air, and ask whether the mains are under high pressure.");
    return time;
  }
  // The pressure of the mains adds gas that nobody measured: 5 % either way is taken.
  constexpr double doubt = 0.05;
  const planning::HoldSpan span{time_at(gas->tank_fraction + doubt), time_at(gas->tank_fraction), time_at(gas->tank_fraction - doubt)};
  if (span.soonest) time.span = span;
  const Sentence mix{gas->logged ? "By temperature alone the new water holds {0} of what it can in the tank, and the tank after a change of {1} {2}; the mains' pressure may add to it."
                                 : "By temperature alone the new water holds {0} of what it can in the tank, and the tank after a change of {1} {2} (the usual change is taken); the mains' pressure may add to it.",
                     {Share{gas->new_fraction}, Share{gas->changed_fraction}, Share{gas->tank_fraction}}};
  time.basis = joined(mix, time.basis);
  if (are_eggs(life_of(now))) time.basis = joined(time.basis, "Eggs bear more than what has hatched (Alderdice and Jensen 1985).");
  return time;
}

}  // namespace

Emergency gas_supersaturated(const Case& now) {
  Emergency e;
  e.key = "gas_supersaturated", e.rank = 6;
  e.name = "Too much gas in new water";
  e.sign = "After a change with cold tap water: fine bubbles on glass, eggs, fins or eyes; milky water that clears from below.";
  e.hold = {harm(now)};
  e.steps = {"Stop adding water.", "Strong air, a spray or a fall: bubbles and splashing drive surplus gas out. Point no air stone at eggs or fry.",
             "From now on let new water stand open and aerated for a day, at the tank's temperature, before it goes in."};
  e.measure = {"Temperature of the new water and of the tank.", test_of(now, records::Quantity::oxygen), "Look at fins and eyes with a lens: bubbles?"};
  e.call = {"Ring the egg supplier when animals show bubbles, float or die."};
  e.cautions = {pull_the_plug()};
  e.sources = {"Piper and others 1982", "trial with Atlantic salmon parr, PLOS ONE 2026", "Alderdice and Jensen 1985 (eggs)", "Benson and Krause 1984 (oxygen by temperature)"};
  return e;
}

}  // namespace redd::emergency::kinds
