#pragma once
// What the equipment can do with the water on each day of a season: the question of a planner. Start at holdable_range().
// Every bound is the cautious one over the doubt of tank and chiller, so that a plan inside it holds.

#include <span>
#include <vector>

#include "heat/balance.h"
#include "heat/trajectory.h"

namespace redd::heat {

/// What is not known exactly, as factors on the conductance and on the chiller's power (90 % intervals about 1).
struct HeatDoubt {
  Estimate<double> conductance{1.0, 1.0, 1.0};
  Estimate<double> chiller{1.0, 1.0, 1.0};
};

/// Doubt before any log was read. Assumed: factor 1.5 on the conductance; a chiller 30 % weaker to 10 % stronger than its plate at these slopes.
inline constexpr HeatDoubt doubt_without_log{{1.0 / 1.5, 1.0, 1.5, Support::assumed}, {0.7, 1.0, 1.1, Support::assumed}};

/// One day.
struct DayAbility {
  Temperature coldest;                 ///< held through the day's warmest hour at no more than the duty allowed
  Temperature warmest;                 ///< held through the day's coldest hour by room, own heat and heater
  TemperatureChange largest_cooling;   ///< fall from the set-point in 24 h, chiller running without pause; >= 0
  TemperatureChange largest_warming;   ///< rise from the set-point in 24 h, chiller off and heater on; >= 0
  Holding holding;                     ///< of the set-point in the warmest hour
  double duty_fraction;                ///< mean over the day; above 1 when never reached, 1e9 without any chiller
  double warmest_hour_duty_fraction;
  Energy electric;                     ///< of chiller and heater at the set-point, most likely tank and chiller
};

/// The ability of tank and equipment, day by day.
///
/// In      rooms: one entry a day. set_points: one for all days, or one a day.  largest_duty: 0-1.
/// Out     Damp is reckoned with where it makes cooling harder, and never counted on to keep the water warm.
///         coldest and warmest of steady state: a passing warm hour is borne longer than that by the water's own heat capacity.
///         Without a chiller, coldest is where the warmest hour leaves the water. A stuck machine counts as it is.
/// Shape   one entry a day; each stands alone (no day waits for the one before).
/// Errors  set_points of another length: broken promise.
std::vector<DayAbility> holdable_range(const TankHeat& tank, const Equipment& equipment, const HeatDoubt& doubt, std::span<const RoomDay> rooms,
                                       std::span<const Temperature> set_points, double largest_duty = refused_duty);

}  // namespace redd::heat
