#include "calc/heat_inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  const auto conductance = conductance_of(in, found);
  const Temperature room = temperature(in, "room_temperature_c");
  const Temperature water = temperature(in, "water_temperature_c"), limit = temperature(in, "limit_temperature_c");
  const heat::TankHeat tank{.capacity = heat::heat_capacity(Volume::from_l(in.number("volume_l"))), .conductance = conductance.mid,
                            .pump = Power::from_w(in.number("pump_w"))};
  const auto times = heat::outage_times(tank, conductance, heat::LimitSide::too_warm, water, room, std::vector{limit}).front();
  const auto drift = heat::relaxation(tank.capacity, tank.conductance, room, tank.pump);
  found.add("reached", times.soonest ? "true" : "false");
  if (times.soonest) found.add("hours_soonest", times.soonest->count());
  if (times.likely) found.add("hours", times.likely->count());
  if (times.latest) found.add("hours_latest", times.latest->count());
  found.add("settles_at_c", drift.settles_at.c());
  found.add("first_hour_change_c", (drift.after(water, Hours(1.0)) - water).c());
  if (!times.soonest) found.notes.push_back("In this room the water settles below the limit; a warmer room may still cross it.");
  else found.notes.push_back("Plan by hours_soonest. Without power flow and air fail first: eggs and fry may run out of oxygen long before the limit.");
  return found;
}

}  // namespace

Formula warming_in_outage() {
  return {.name = "warming_in_outage",
          .summary = "How long a tank without chiller stays below a temperature limit.",
          .inputs = {tank_volume_l(), optional(conductance_w_per_k()), room_temperature_c(),
                     tank_temperature_c("water_temperature_c", "water when the chiller stops"),
                     tank_temperature_c("limit_temperature_c", "temperature it must not reach"),
                     optional(pump_w("heat of pumps that go on running; none in a power cut"), "0")},
          .outputs = {{"reached", "", "false when the water settles below the limit even at the worst conductance"},
                      {"hours_soonest", "h", "time to the limit at the worst end of the conductance's doubt"},
                      {"hours", "h", "most likely time; missing when never"},
                      {"hours_latest", "h", "time at the best end; missing when never"},
                      {"settles_at_c", "C", "water in the end"},
                      {"first_hour_change_c", "C", "warming in the first hour"}},
          .source = heat_source,
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
