// The safety socket has tripped, and air or pump hang on it.

#include "emergency/holds.h"

namespace redd::emergency::kinds {

Emergency socket_tripped(const Case& now) {
  Emergency e;
  e.key = "socket_tripped", e.rank = 2;
  e.name = "Safety socket tripped";
  e.sign = "Pump, air or chiller are off, and lights in the room are on.";
  e.hold = without_flow(now);
  e.steps = {"Hands off the water. With dry hands pull every plug of the tank, then wipe floor, cords and sockets dry.",
             "Plug the air pump alone into another protected socket, or use a battery one: air comes back first.",
             "Reset the socket and plug in one thing after the other. What trips it stays out.",
             flow_first(now)};
  e.measure = {"Temperature now and in an hour.", test_of(now, records::Quantity::oxygen)};
  e.call = {"Ring a licensed electrician when the socket trips with everything unplugged, or trips again.", supplier_by_temperature(now)};
  e.cautions = {pull_the_plug(), "Afterwards: air pump and chiller on different protected circuits, drip loops on all cords. Local electrical codes come first."};
  e.sources = {"oxygen use: docs/science/filter.md", "heat balance of this tank (docs/science/heat.md)"};
  return e;
}

}  // namespace redd::emergency::kinds
