// No electricity at all: flow and air stop before the temperature matters.

#include "emergency/holds.h"

namespace redd::emergency::kinds {

Emergency power_cut(const Case& now) {
  Emergency e;
  e.key = "power_cut", e.rank = 0;
  e.name = "Power cut";
  e.sign = "Everything is off.";
  e.now = now.heat.model.power_down;
  e.hold = without_flow(now, {Equipment::power});
  if (are_eggs(life_of(now))) e.hold.push_back(out_of_water(now));
  e.steps = {flow_first(now)};
  if (life_of(now) != Life::fry) e.steps.push_back("Battery air into the tank. Without one, lift water out and pour it back from a hand's height for five minutes an hour.");
  e.steps.push_back("Lid on, blankets round the tank, lights off. Do not feed.");
  for (Sentence& step : eggs_into_the_damp(now)) e.steps.push_back(std::move(step));
  e.steps.push_back("When the power is back: if the filter stood for more than two hours, rinse its stale water out before the pump starts (common practice, no source).");
  e.steps.push_back("Then read the chiller's and controller's displays: some come back switched off, or with another set-point.");
  e.measure = {"Temperature every hour.", test_of(now, records::Quantity::oxygen), "Ammonia and nitrite the day after: the filter may have suffered."};
  e.call = {"Ring the school's caretaker and the power company: how long?", supplier_by_temperature(now)};
  if (has_animals(now)) e.call.push_back(moving_needs_the_permit());
  e.cautions = {pull_the_plug(), "No generator indoors: exhaust kills. Cords away from the drip line."};
  e.sources = {"oxygen use: docs/science/filter.md", "heat balance of this tank (docs/science/heat.md)", "damp eggs: Becker, Neitzel and Fickeisen 1982; flooded every 6 to 10 hours: Colt and White 1991"};
  return e;
}

}  // namespace redd::emergency::kinds
