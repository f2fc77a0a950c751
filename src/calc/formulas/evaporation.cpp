#include "calc/heat_inputs.h"
#include "heat/moist_air.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const Temperature water = temperature(in, "water_temperature_c");
  const heat::RoomAir air{temperature(in, "air_temperature_c"), in.number("humidity_fraction")};
  const double area_m2 = in.number("area_m2");
  const auto exchange = heat::surface_exchange(water, air);
  const double room_pa = heat::vapor_pressure_pa(air), water_pa = heat::saturation_pressure_pa(water);
  Findings found;
  found.add("evaporation_kg_per_m2_h", exchange.evaporation_kg_per_m2_h);
  found.add("heat_w_per_m2", exchange.heat_w_per_m2);
  found.add("evaporation_l_per_day", 24.0 * area_m2 * exchange.evaporation_kg_per_m2_h);
  found.add("heat_w", area_m2 * exchange.heat_w_per_m2);
  found.add("turning_humidity_fraction", heat::sweating_humidity_fraction(water, air.temperature));
  const double water_ratio = heat::humidity_ratio_kg_per_kg(water_pa), room_ratio = heat::humidity_ratio_kg_per_kg(room_pa);
  found.add("engineers_rule_kg_per_m2_h", heat::evaporation_by_engineers_rule_kg_per_m2_h(in.number("air_speed_m_per_s"), water_ratio, room_ratio));
  if (exchange.evaporation_kg_per_m2_h < 0.0) found.notes.push_back("The surface collects water from the room and is warmed by it.");
  else found.notes.push_back("Do not count on this cooling: a damp day turns it round. A lid stops both.");
  return found;
}

}  // namespace

Formula evaporation() {
  return {.name = "evaporation",
          .summary = "Water and heat that pass through an open surface; cold water may collect both from a damp room.",
          .inputs = {tank_temperature_c("water_temperature_c", "water in the tank", {5, 40}),
                     {.name = "air_temperature_c", .unit = "C", .meaning = "room air", .fitted = Range{5, 40}, .possible = Range{-40, 50}}, humidity_fraction(),
                     optional(amount("area_m2", "m2", "open surface", {0, 1e6}), "1"),
                     optional(amount("air_speed_m_per_s", "m/s", "air over the surface, for the engineers' rule only", {0, 100}), "0")},
          .outputs = {{"evaporation_kg_per_m2_h", "kg/(m2 h)", "water lost; negative: collected"},
                      {"heat_w_per_m2", "W/m2", "heat into the water; negative: it is cooled"},
                      {"evaporation_l_per_day", "L/d", "water lost from the whole surface"},
                      {"heat_w", "W", "heat into the water through the whole surface"},
                      {"turning_humidity_fraction", "", "relative humidity at which the sign turns; above 1 it always evaporates"},
                      {"engineers_rule_kg_per_m2_h", "kg/(m2 h)", "for comparison: (25 + 19 v)(w_s - w), about three times too much over quiet water"}},
          .source = "Shah 2014, ASHRAE Trans. 120 (constants from memory); Magnus form of Lawrence 2005; latent heat from memory",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
