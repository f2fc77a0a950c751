// Cold tap water, full of air under pressure, warms in the tank and fizzes out: in blood and fins too.

#include "chemistry/oxygen.h"
#include "emergency/holds.h"

namespace redd::emergency::kinds {
namespace {

/// Gas in new water once it has the tank's temperature, as a share of what it then can hold; nothing without the source's temperature.
std::optional<double> saturation_fraction(const Case& now) {
  if (!now.belief.source || !now.belief.source->temperature) return std::nullopt;
  return chemistry::oxygen_saturation(*now.belief.source->temperature).mg_o2_per_l() / chemistry::oxygen_saturation(now.heat.water).mg_o2_per_l();
}

}  // namespace

Emergency gas_supersaturated(const Case& now) {
  Emergency e;
  e.key = "gas_supersaturated", e.rank = 6;
  e.name = "Too much gas in new water";
  e.sign = "After a change with cold tap water: fine bubbles on glass, eggs, fins or eyes; milky water that clears from below.";
  const auto share = saturation_fraction(now);
  e.hold.push_back({"gas harms small fish", std::nullopt,
                    share && *share > 1.0 ? Sentence{"Your tap water at its usual temperature would hold {0} of what the tank's water can (oxygen, by temperature alone; pressure adds to it). Published: a threat above "
                                                     "100 %, act above 110 % of total gas (Piper and others 1982); 115 % within two days, 120 % within one (trial, 2026).",
                                                     {Share{*share}}}
                                          : Sentence{"Published: a threat above 100 %, act above 110 % of total gas (Piper and others 1982); 115 % within two days, 120 % within one (trial, 2026). "
                                                     "The tap water's temperature on record does not explain it: look for a pump that draws in air."}});
  e.steps = {"Stop adding water.", "Strong air, a spray or a fall: bubbles and splashing drive surplus gas out. Point no air stone at eggs or fry.",
             "From now on let new water stand open and aerated for a day, at the tank's temperature, before it goes in."};
  e.measure = {"Temperature of the new water and of the tank.", test_of(now, records::Quantity::oxygen), "Look at fins and eyes with a lens: bubbles?"};
  e.call = {"Ring the egg supplier when animals show bubbles, float or die."};
  e.cautions = {pull_the_plug()};
  e.sources = {"Piper and others 1982", "Benson and Krause 1984 (oxygen by temperature)"};
  return e;
}

}  // namespace redd::emergency::kinds
