#pragma once
// Water that drifts to a settling temperature: Newton's law of cooling, in closed form. Everything else in this folder is built on it.
// Start at relaxation(): C dT/dt = UA (T_room - T) + P gives a settling temperature and a time constant.

#include <optional>

#include "quantities/heat.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::heat {

/// Heat that warms a litre of fresh water by a degree, 5-20 C, within 0.3 %.
/// Source  density and specific heat of water, standard tables: 999.7 kg/m3 and 4.192 kJ/(kg K) at 10 C.
inline constexpr double water_j_per_l_k = 4190.0;
/// Source  [openstax_physics2012], table of specific heats (glass; granite).
inline constexpr double glass_j_per_kg_k = 840.0;
inline constexpr double gravel_j_per_kg_k = 800.0;

/// Heat capacity of water with the glass and gravel that follow it (they add 3-6 %; leaving them out errs to the fast side).
HeatCapacity heat_capacity(Volume water, Mass glass = Mass::from_g(0.0), Mass gravel = Mass::from_g(0.0));

/// The temperature two bodies come to when only they exchange heat; also of a water change.
Temperature equalised(HeatCapacity a, Temperature a_at, HeatCapacity b, Temperature b_at);

/// An exponential drift from wherever the water is to where it settles.
struct Relaxation {
  Temperature settles_at;
  Hours time_constant;  ///< > 0; after so long 63 % of the way is done

  /// Temperature after a span (>= 0).
  Temperature after(Temperature start, Hours span) const;
  /// Mean temperature over the span.
  Temperature mean_over(Temperature start, Hours span) const;
  /// Time from start to target; nothing when the drift never gets there, or only in endless time (it settles within 0.001 C of it).
  std::optional<Hours> time_to(Temperature start, Temperature target) const;
};

/// Drift of water between constant surroundings and a constant heat source (cooling is negative).
///
/// In      conductance > 0.
Relaxation relaxation(HeatCapacity capacity, Conductance conductance, Temperature surroundings, Power source);

/// Time constant from two readings of water left to itself in steady surroundings; nothing when the readings do not move towards them.
std::optional<Hours> time_constant_from(Temperature start, Temperature later, Hours span, Temperature surroundings);

/// Mean power that changes the water's temperature by so much in a span (> 0).
Power mean_power(HeatCapacity capacity, TemperatureChange change, Hours span);

}  // namespace redd::heat
