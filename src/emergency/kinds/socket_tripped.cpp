// The safety socket has tripped, and air or pump hang on it; or one of them has stopped by itself.

#include "emergency/holds.h"

namespace redd::emergency::kinds {

Emergency socket_tripped(const Case& now) {
  const auto failed = open_failures(now.records);
  Emergency e;
  e.key = "socket_tripped", e.rank = 1;
  e.name = "Safety socket tripped, or pump or air stopped";
  e.sign = "Pump, air or chiller are off, and lights in the room are on.";
  e.now = !now.heat.model.power_down && (failed.contains(Equipment::pump) || failed.contains(Equipment::air));
  e.hold = without_flow(now, {Equipment::pump, Equipment::air});
  e.steps = {"Hands off the water. With dry hands pull every plug of the tank, then wipe floor, cords and sockets dry.",
             "Plug the air pump alone into another protected socket, or use a battery one: air comes back first.",
             "Reset the socket and plug in one thing after the other. What trips it, or stays still, stays out.",
             flow_first(now)};
  for (Sentence& step : eggs_into_the_damp(now)) e.steps.push_back(std::move(step));
  e.measure = {"Temperature now and in an hour.", test_of(now, records::Quantity::oxygen)};
  e.call = {"Ring a licensed electrician when the socket trips with everything unplugged, or trips again.", supplier_by_temperature(now)};
  if (has_animals(now)) e.call.push_back(moving_needs_the_permit());
  e.cautions = {pull_the_plug(), "Afterwards: air pump and chiller on different protected circuits, drip loops on all cords, the socket's test button once a month. Local electrical codes come first."};
  e.sources = {"oxygen use: docs/science/filter.md", "heat balance of this tank (docs/science/heat.md)", "drip loops, protected circuits: school aquarium bulletin of a teachers' federation"};
  return e;
}

}  // namespace redd::emergency::kinds
