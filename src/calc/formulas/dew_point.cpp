#include "calc/heat_inputs.h"
#include "heat/moist_air.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const heat::RoomAir air{temperature(in, "air_temperature_c"), in.number("humidity_fraction")};
  Findings found;
  found.add("dew_point_c", heat::dew_point(air).c());
  found.add("vapor_pressure_pa", heat::vapor_pressure_pa(air));
  if (!in.has("water_temperature_c")) return found;
  namespace k = heat::conductivity_w_per_m_k;
  const std::vector<heat::Layer> wall{{in.number("wall_thickness_mm") / 1000.0, in.text("wall") == "glass" ? k::glass : k::acrylic},
                                      {in.number("foam_thickness_mm") / 1000.0, k::foam}};
  const auto side = heat::FaceKind::side;
  const double u_value = heat::u_value_w_per_m2_k(wall, heat::air_film_m2_k_per_w(side));
  const Temperature surface = heat::outer_surface(u_value, side, temperature(in, "water_temperature_c"), air.temperature);
  const bool sweats = heat::sweats(surface, air);
  found.add("surface_temperature_c", surface.c());
  found.add("sweats", sweats ? "true" : "false");
  found.add("sweating_humidity_fraction", heat::sweating_humidity_fraction(surface, air.temperature));
  found.add("condensation_w_per_m2", heat::condensation_kg_per_m2_h(surface, air) / 3600.0 * heat::condensing_heat_j_per_kg(surface));
  if (sweats) found.notes.push_back("The wall sweats: expect water on the stand and floor, keep plugs and sockets off the drip line, and dry the floor.");
  return found;
}

}  // namespace

Formula dew_point() {
  return {.name = "dew_point",
          .summary = "Temperature at which room air drops its water; with the water's temperature, whether a tank wall sweats.",
          .inputs = {{.name = "air_temperature_c", .unit = "C", .meaning = "room air", .fitted = Range{-40, 50}, .possible = possible_air_c},
                     humidity_fraction(),
                     optional(tank_temperature_c("water_temperature_c", "tank water, for the walls")),
                     optional(choice("wall", "material of the wall", {"glass", "acrylic"}), "glass"),
                     optional(measure("wall_thickness_mm", "mm", "thickness of the wall", {3, 25}, {0, 500}), "6"),
                     optional(measure("foam_thickness_mm", "mm", "foam outside it", {0, 100}, {0, 1000}), "0")},
          .outputs = {{"dew_point_c", "C", "dew point"},
                      {"vapor_pressure_pa", "Pa", "partial pressure of water vapour"},
                      {"surface_temperature_c", "C", "outer surface of the wall"},
                      {"sweats", "", "true when the wall collects water"},
                      {"sweating_humidity_fraction", "", "relative humidity above which it does; above 1 never"},
                      {"condensation_w_per_m2", "W/m2", "heat that the sweat brings in"}},
          .source = "Magnus form of Lawrence 2005, Bull. Am. Meteorol. Soc. 86:225; wall by films of ISO 6946; rate of sweating from memory",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
