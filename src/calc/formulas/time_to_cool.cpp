#include "calc/heat_inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  const auto conductance = conductance_of(in, found);
  const heat::Chiller chiller = chiller_of(in, found);
  const Temperature room = temperature(in, "room_temperature_c");
  const Temperature from = temperature(in, "water_temperature_c"), to = temperature(in, "target_temperature_c");
  const heat::TankHeat tank{.capacity = heat::heat_capacity(Volume::from_l(in.number("volume_l"))), .conductance = conductance.mid,
                            .pump = Power::from_w(in.number("pump_w"))};
  const auto times = heat::stuck_on_times(tank, conductance, chiller, from, room, std::vector{to}).front();
  found.add("reached", times.likely ? "true" : "false");
  if (times.soonest) found.add("hours_soonest", times.soonest->count());
  if (times.likely) found.add("hours", times.likely->count());
  if (times.latest) found.add("hours_latest", times.latest->count());
  found.add("settles_at_c", heat::settles_at(tank, chiller, room).c());
  found.add("time_constant_hours", heat::relaxation(tank.capacity, tank.conductance, room, tank.pump).time_constant.count());
  if (!times.likely) found.notes.insert(found.notes.begin(), "Never reached: running without pause the water settles above the target.");
  else if (!times.latest) found.notes.push_back("At the high end of the conductance it is never reached.");
  return found;
}

}  // namespace

Formula time_to_cool() {
  return {.name = "time_to_cool",
          .summary = "Time a chiller running without pause takes to bring the tank down, or that it never will.",
          .inputs = joined({tank_volume_l(), optional(conductance_w_per_k()), room_temperature_c(),
                            tank_temperature_c("water_temperature_c", "water now"), tank_temperature_c("target_temperature_c", "water wanted"), pump_w()},
                           chiller_inputs()),
          .outputs = {{"reached", "", "true or false"},
                      {"hours_soonest", "h", "time at the favourable end of the conductance's doubt"},
                      {"hours", "h", "time; missing when never reached"},
                      {"hours_latest", "h", "time at the unfavourable end; missing when never reached there"},
                      {"settles_at_c", "C", "water with the chiller running without pause"},
                      {"time_constant_hours", "h", "time constant of the tank left to itself"}},
          .source = heat_source,
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
