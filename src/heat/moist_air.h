#pragma once
// Damp air beside cold water: dew point, sweating glass, and whether the open surface gives water away or collects it.
// Start at dew_point() and surface_exchange(). A chilled tank in a damp room is WARMED by its surface: never count on evaporation to cool it.
// Humidity is a fraction, 0-1. Pressures are partial pressures of water vapour in Pa.

#include "heat/walls.h"
#include "quantities/heat.h"
#include "quantities/temperature.h"

namespace redd::heat {

inline constexpr double standard_pressure_pa = 101325.0;

/// Air of a room.
struct RoomAir {
  Temperature temperature;
  double humidity_fraction;  ///< relative humidity, above 0 and at most 1
};

/// Vapour pressure of water at saturation.
///
/// In      -40 to 50 C.
/// Source  [lawrence2005], eq. 6 (constants of [alduchov1996]; 610.94 Pa from memory). Within 0.25 % of [ashrae2017] at 5-50 C.
double saturation_pressure_pa(Temperature temperature);

double vapor_pressure_pa(const RoomAir& air);

/// Temperature at which this air, cooled, begins to drop its water.
/// Source  [lawrence2005], eq. 8.
Temperature dew_point(const RoomAir& air);

/// Water vapour per dry air, kg/kg, at this partial pressure. Source  ideal gases, 0.62198 of [ashrae2017] (from memory).
double humidity_ratio_kg_per_kg(double vapor_pa, double pressure_pa = standard_pressure_pa);

/// Mass of vapour in a volume, kg/m3. Source  ideal gas, 461.5 J/(kg K) for water vapour.
double vapor_density_kg_per_m3(double vapor_pa, Temperature temperature);

/// Heat set free by a kilogram of vapour that condenses. Source  2501 - 2.36 T kJ/kg, from memory (2430 at 37 C in [openstax_physics2012]).
double condensing_heat_j_per_kg(Temperature temperature);

/// True when a surface of this temperature collects water.
bool sweats(Temperature surface, const RoomAir& air);

/// Relative humidity above which a surface of this temperature sweats in this room; above 1 it never does.
double sweating_humidity_fraction(Temperature surface, Temperature room);

/// Water collecting on a cold wall.
///
/// Out     kg/(m2 h), >= 0; zero when the surface is above the dew point.
/// Source  heat-mass analogy, h_c / (cp Le^(2/3)) with h_c 3.5 W/(m2 K), cp 1006 J/(kg K), Le^(2/3) 0.9: from memory.
double condensation_kg_per_m2_h(Temperature surface, const RoomAir& air);

/// Heat that sweat on the outside of a face brings into the water; the rest of it goes back to the room through the film of air.
/// Differs: the surface is taken as cold as a dry one, though its own sweat warms it a little: errs to the side of more heat.
Power condensation_on(const Face& face, Temperature water, const RoomAir& air);

/// The same for all bare walls.
Power condensation_on_walls(const TankWalls& walls, Temperature water, const RoomAir& air);

/// What passes between an open water surface and the room.
struct SurfaceExchange {
  double evaporation_kg_per_m2_h;  ///< negative: the surface collects water
  double heat_w_per_m2;            ///< into the water: positive when vapour condenses on it, negative when evaporation cools it
};

/// Exchange of an open surface in still air.
///
/// Out     zero when the vapour pressures are equal; the sign is that of p_s(water) - p_room.
/// Source  [shah2014], the larger of forced exchange, 5e-5 (p_w - p_r), and natural convection, 35 rho_w (rho_r - rho_w)^(1/3) (w_w - w_r) (40
///         where the difference of densities is below 0.02 kg/m3); all constants from memory.
///         Collecting water: the larger of the forced rate and condensation_kg_per_m2_h(), which errs to the side of more heat.
SurfaceExchange surface_exchange(Temperature water, const RoomAir& air);

/// Heat to plan with: what condensation brings, and zero, never a cooling, where the surface evaporates. A lid keeps both out.
Power surface_gain(double area_m2, bool lidded, Temperature water, const RoomAir& air);

/// Evaporation by the engineers' rule (25 + 19 v)(w_s - w), kg/(m2 h): about three times the rate above over quiet water. Shown for comparison.
/// In      air speed v over the surface, m/s; humidity ratios at saturation and in the room, kg/kg.
double evaporation_by_engineers_rule_kg_per_m2_h(double air_speed_m_per_s, double saturated_kg_per_kg, double room_kg_per_kg);

}  // namespace redd::heat
