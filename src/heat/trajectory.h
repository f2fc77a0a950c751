#pragma once
// Water temperature hour by hour under a changing room, with chiller and heater on their thermostat or stuck. Start at trajectory().
// Between two switchings the water follows an exact exponential; switchings are found in closed form, so the step may be an hour.

#include <optional>
#include <span>
#include <vector>

#include "heat/balance.h"

namespace redd::heat {

/// Part of the water changed at the start of a step.
struct WaterChangeAt {
  std::size_t step;
  double fraction;  ///< 0-1
  Temperature source;
};

/// Where a run begins; the end of one run is the beginning of the next.
struct WaterState {
  Temperature water;
  bool chiller_on = false;
  bool heater_on = false;
};

/// Steps of equal length, first to last.
struct Trajectory {
  std::vector<Temperature> water;   ///< at the start, then at the end of each step: one more than there are steps
  std::vector<double> duty;         ///< share of each step the chiller ran, 0-1
  Hours step;
  Temperature coldest, warmest;     ///< between the steps too. Below 0 C the tank freezes: read it as that warning
  Energy removed;                   ///< from the water by the chiller
  Energy gained;                    ///< through walls and from pump, light and damp (negative: lost)
  Energy from_heater;
  Energy from_changes;              ///< by water changes
  Energy electric;                  ///< of chiller and heater
  WaterState end;
};

/// Temperature under control.
///
/// In      rooms: the room over each step (hours when step is one hour). set_points: one for all steps, or one each.
///         first_hour: hour of the day, 0-23, at the start (lights go by it).  step: > 0, at most a few hours.
/// Out     capacity * (water.back() - water.front()) = gained - removed + from_heater + from_changes, to rounding.
/// Shape   one pass over the steps; a few exponentials for each switching. A band so narrow that the machine would switch more than 500
///         times in a step is held at its present temperature for the rest of that step.
/// Errors  set_points of another length, band <= 0: broken promise.
Trajectory trajectory(const TankHeat& tank, const Equipment& equipment, const WaterState& start, std::span<const Temperature> rooms,
                      std::span<const Temperature> set_points, TemperatureChange band, int first_hour = 0, Hours step = Hours(1.0),
                      std::span<const WaterChangeAt> changes = {});

/// Time from the start until the water first stands at or above (below) a limit, straight between the ends of steps; nothing when never.
std::optional<Hours> first_at_or_above(const Trajectory& run, Temperature limit);
std::optional<Hours> first_at_or_below(const Trajectory& run, Temperature limit);

}  // namespace redd::heat
