// The controller no longer stops the chiller: the tank goes towards freezing.

#include "emergency/holds.h"

namespace redd::emergency::kinds {

Emergency chiller_stuck_on(const Case& now) {
  Emergency e;
  e.key = "chiller_stuck_on", e.rank = 4;
  e.name = "Chiller does not stop";
  e.sign = "The water is colder than the set-point and the chiller still runs.";
  e.hold = temperature_times(now.heat.stuck_on, now,
                             "The chiller's cooling power is not on record. Take a weekend as enough: 250 W bring 200 litres from 8 °C to 1 °C in 28 hours (worked out, room at 21 °C).");
  e.steps = {"Pull the chiller's plug. Leave pumps and air running.",
             {"Let the water warm by itself, no more than a degree an hour, back to {0}. Add no warm water.", {now.heat.target}},
             "Check that the controller's probe hangs in the water and reads right; then set-point and switch.",
             "Leave the chiller off overnight rather than unwatched, unless the room would warm the tank beyond its limits."};
  e.measure = {"Temperature every half hour, with a second thermometer.", "Ice on the chiller's coil or pipes: then flow has stopped there."};
  e.call = {supplier_by_temperature(now), "Ring whoever services the chiller before it runs unwatched again."};
  e.cautions = {pull_the_plug()};
  e.sources = {"heat balance of this tank (docs/science/heat.md)"};
  return e;
}

}  // namespace redd::emergency::kinds
