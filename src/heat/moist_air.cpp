#include "heat/moist_air.h"

#include <algorithm>
#include <cmath>

namespace redd::heat {
namespace {

constexpr double magnus_a = 17.625;
constexpr double magnus_b_c = 243.04;
constexpr double magnus_pa = 610.94;

/// kg/m3 of moist air at one atmosphere.
double air_density_kg_per_m3(double vapor_pa, Temperature temperature) {
  return (standard_pressure_pa - vapor_pa) / (287.05 * temperature.k()) + vapor_density_kg_per_m3(vapor_pa, temperature);
}

double dry_air_density_kg_per_m3(double vapor_pa, Temperature temperature) { return (standard_pressure_pa - vapor_pa) / (287.05 * temperature.k()); }

double natural_evaporation_kg_per_m2_h(Temperature water, double water_pa, Temperature room, double room_pa) {
  const double lighter_kg_per_m3 = air_density_kg_per_m3(room_pa, room) - air_density_kg_per_m3(water_pa, water);
  if (lighter_kg_per_m3 <= 0.0) return 0.0;  // cold, heavy air lies on the water: nothing lifts it away
  const double k = lighter_kg_per_m3 < 0.02 ? 40.0 : 35.0;
  // The paper's density is that of the dry air in saturated air at the surface.
  return k * dry_air_density_kg_per_m3(water_pa, water) * std::cbrt(lighter_kg_per_m3) *
         (humidity_ratio_kg_per_kg(water_pa) - humidity_ratio_kg_per_kg(room_pa));
}

}  // namespace

double saturation_pressure_pa(Temperature temperature) {
  return magnus_pa * std::exp(magnus_a * temperature.c() / (magnus_b_c + temperature.c()));
}

double vapor_pressure_pa(const RoomAir& air) { return air.humidity_fraction * saturation_pressure_pa(air.temperature); }

Temperature dew_point(const RoomAir& air) {
  const double g = std::log(air.humidity_fraction) + magnus_a * air.temperature.c() / (magnus_b_c + air.temperature.c());
  return Temperature::from_c(magnus_b_c * g / (magnus_a - g));
}

double humidity_ratio_kg_per_kg(double vapor_pa, double pressure_pa) { return 0.62198 * vapor_pa / (pressure_pa - vapor_pa); }

double vapor_density_kg_per_m3(double vapor_pa, Temperature temperature) { return vapor_pa / (461.5 * temperature.k()); }

double condensing_heat_j_per_kg(Temperature temperature) { return 2.501e6 - 2360.0 * temperature.c(); }

bool sweats(Temperature surface, const RoomAir& air) { return surface < dew_point(air); }

double sweating_humidity_fraction(Temperature surface, Temperature room) { return saturation_pressure_pa(surface) / saturation_pressure_pa(room); }

double condensation_kg_per_m2_h(Temperature surface, const RoomAir& air) {
  constexpr double per_s = 3.5 / (1006.0 * 0.9);
  const double excess = humidity_ratio_kg_per_kg(vapor_pressure_pa(air)) - humidity_ratio_kg_per_kg(saturation_pressure_pa(surface));
  return 3600.0 * per_s * std::max(0.0, excess);
}

Power condensation_on(const Face& face, Temperature water, const RoomAir& air) {
  const Temperature surface = outer_surface(face.u_w_per_m2_k, face.kind, water, air.temperature);
  // Resistances in series: what is set free at the outer surface divides as the conductances to either side.
  const double into_water = std::min(1.0, face.u_w_per_m2_k * air_film_m2_k_per_w(face.kind));
  return Power::from_w(into_water * face.area_m2 * condensation_kg_per_m2_h(surface, air) / 3600.0 * condensing_heat_j_per_kg(surface));
}

Power condensation_on_walls(const TankWalls& walls, Temperature water, const RoomAir& air) {
  Power sum = Power::from_w(0.0);
  for (const Face& face : faces(walls))
    if (face.bare) sum = sum + condensation_on(face, water, air);
  return sum;
}

SurfaceExchange surface_exchange(Temperature water, const RoomAir& air) {
  const double water_pa = saturation_pressure_pa(water), room_pa = vapor_pressure_pa(air);
  const double forced = 5e-5 * (water_pa - room_pa);
  const double evaporation = forced >= 0.0 ? std::max(forced, natural_evaporation_kg_per_m2_h(water, water_pa, air.temperature, room_pa))
                                           : std::min(forced, -condensation_kg_per_m2_h(water, air));
  return {evaporation, -evaporation / 3600.0 * condensing_heat_j_per_kg(water)};
}

Power surface_gain(double area_m2, bool lidded, Temperature water, const RoomAir& air) {
  if (lidded) return Power::from_w(0.0);
  return Power::from_w(area_m2 * std::max(0.0, surface_exchange(water, air).heat_w_per_m2));
}

double evaporation_by_engineers_rule_kg_per_m2_h(double air_speed_m_per_s, double saturated_kg_per_kg, double room_kg_per_kg) {
  return (25.0 + 19.0 * air_speed_m_per_s) * (saturated_kg_per_kg - room_kg_per_kg);
}

}  // namespace redd::heat
