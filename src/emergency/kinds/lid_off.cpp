// The lid is off, or was: jumped fish, lost water, warmth and damp.

#include <algorithm>

#include "emergency/holds.h"
#include "heat/moist_air.h"

namespace redd::emergency::kinds {
namespace {

double surface_m2(const Case& now) { return now.heat.model.faces.empty() ? 0.0 : now.heat.model.faces.back().area_m2; }

/// Time in which evaporation takes a centimetre; never where the surface collects water from the air instead.
std::optional<Hours> a_centimetre(const Case& now, Temperature room, double humidity_fraction) {
  const double kg_per_m2_h = heat::surface_exchange(now.heat.water, {room, humidity_fraction}).evaporation_kg_per_m2_h;
  if (kg_per_m2_h <= 0.0) return std::nullopt;
  return Hours(10.0 / kg_per_m2_h);  // 10 kg/m2 is a centimetre
}

HoldTime evaporation(const Case& now) {
  constexpr double dry = 0.2, usual = 0.45;  // Assumed: heated winter air, and a lived-in room
  const planning::HoldSpan span{a_centimetre(now, now.heat.rooms.warmest, dry), a_centimetre(now, now.heat.rooms.mean, usual), a_centimetre(now, now.heat.rooms.mean, planning::usual_humidity_fraction)};
  HoldTime time{"open water loses a centimetre of its level to the air", span,
                "Evaporation from still water (Shah 2014) at 20, 45 and 60 % relative humidity: cold water loses little, or gains. A level that falls faster is a leak or a spill: look for it."};
  if (!span.soonest) time.span.reset();
  return time;
}

}  // namespace

Emergency lid_off(const Case& now) {
  Emergency e;
  e.key = "lid_off", e.rank = 8;
  e.name = "Lid off";
  e.sign = "The tank stood open, over night or a weekend.";
  const Life life = life_of(now);
  if (life == Life::fry || life == Life::alevins_near_emergence) e.hold.push_back(out_of_water(now));
  e.hold.push_back(evaporation(now));
  const double gain_w = heat::surface_gain(surface_m2(now), false, now.heat.water, {now.heat.rooms.warmest, planning::usual_humidity_fraction}).w();
  const bool known = now.heat.model.plate.has_value();
  e.hold.push_back({"whether the chiller holds an open tank", std::nullopt,
                    joined({"Damp air settling on the open water brings about {0} at {1} in a room at {2} and {3} humidity, beside what the air itself warms it.",
                            {Measured{gain_w, "W"}, now.heat.water, now.heat.rooms.warmest, Share{planning::usual_humidity_fraction}}},
                           known ? Sentence{"Ask redd heat whether the chiller can bear that."} : Sentence{"The chiller's power is not on record, so whether it holds is not known: read the temperature."})});
  e.steps = {"Look on the floor, behind and under the stand. A moist fish goes back into the water at once, gently.", "Put the lid back and weigh it down.",
             "Top up slowly with dechlorinated water of the tank's temperature to the mark."};
  if (life == Life::none) e.steps[0] = "Look for what may have fallen in, and for water on the floor, behind and under the stand.";
  e.measure = {"Temperature now.", has_animals(now) ? "Count the animals you can see." : "Test the water before the next animals come.", "Water level: how much was lost?"};
  e.call = {"Ring the permit office when fish are missing and the permit asks for it."};
  e.cautions = {pull_the_plug(), "Wet floors are slippery: wipe before anybody carries water. Buckets of no more than 10 litres, 4 for pupils."};
  e.sources = {"out of water: Becker, Neitzel and Fickeisen 1982", "evaporation: Shah 2014 (from memory)"};
  return e;
}

}  // namespace redd::emergency::kinds
