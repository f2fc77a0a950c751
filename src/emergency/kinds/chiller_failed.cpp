// The chiller stands still, pumps run: the water warms.

#include "emergency/holds.h"

namespace redd::emergency::kinds {

Emergency chiller_failed(const Case& now) {
  Emergency e;
  e.key = "chiller_failed", e.rank = 2;
  e.name = "Chiller failed";
  e.sign = "The water warms, and the chiller is silent, hot to the touch or shows a fault.";
  e.now = now.heat.model.chiller_down && !now.heat.model.power_down;
  e.hold = temperature_times(now.heat.chiller_dead, now, "The tank is not described.", since_failure(now, {Equipment::chiller}, true));
  e.steps = {"Read the water's temperature now and every hour, and log it.",
             "Check plug, switch, set-point and the pump through the chiller; clear its air grille. Wait ten minutes before switching it on again.",
             {"Hang in closed bottles of ice, away from the animals: 1 kg takes a hundred litres down by about a degree. No more than {0} kg an hour.", {Measured{now.heat.most_ice_an_hour.g() / 1000.0}}},
             "Lid on, lights off, blankets round the tank; cool the room if you can. Do not feed."};
  if (!has_animals(now)) e.steps[2] = "Leave it warm: without animals nothing is lost, and the filter ripens faster. Bottles of ice can wait until eggs are near.";
  e.measure = {"Temperature every hour, near the animals, with a second thermometer once.", test_of(now, records::Quantity::total_ammonia), test_of(now, records::Quantity::ph)};
  if (has_animals(now)) e.measure.push_back("Warm water holds less oxygen and turns more ammonia harmful: look at both before the evening.");
  e.call = {supplier_by_temperature(now), "Ring whoever services the chiller today, not after the weekend."};
  if (has_animals(now)) e.call.push_back(moving_needs_the_permit());
  e.cautions = {pull_the_plug(), "Nobody opens the chiller: it holds mains voltage and refrigerant.", "Cool back by no more than a degree an hour."};
  e.sources = {"heat balance of this tank (docs/science/heat.md)", "ice: heat of melting, OpenStax College Physics 2012", "a degree an hour: common practice, no source"};
  return e;
}

}  // namespace redd::emergency::kinds
