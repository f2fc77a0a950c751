// The lid is off, or was: jumped fish, lost water, warmth and damp.

#include "emergency/holds.h"

namespace redd::emergency::kinds {

Emergency lid_off(const Case& now) {
  Emergency e;
  e.key = "lid_off", e.rank = 8;
  e.name = "Lid off";
  e.sign = "The tank stood open, over night or a weekend.";
  if (has_animals(now) && !are_eggs(now)) e.hold.push_back(out_of_water(now));
  e.hold.push_back({"open water against a lid", std::nullopt, "Open cold water takes in warmth and damp from the room: expect a degree or two within a day, and wet sockets below."});
  e.steps = {"Look on the floor, behind and under the stand. A moist fish goes back into the water at once, gently.", "Put the lid back and weigh it down.",
             "Top up slowly with dechlorinated water of the tank's temperature to the mark."};
  e.measure = {"Temperature now.", "Count the animals you can see.", "Water level: how much was lost?"};
  e.call = {"Ring the permit office when fish are missing and the permit asks for it."};
  e.cautions = {pull_the_plug(), "Wet floors are slippery: wipe before anybody carries water."};
  e.sources = {"out of water: Becker, Neitzel and Fickeisen 1982"};
  return e;
}

}  // namespace redd::emergency::kinds
