#pragma once
// What the chemistry folder says of a day's water and air, as the plain numbers the process model works with. Start at stretches_of().

#include <vector>

#include "tank/detail/kernel.h"
#include "tank/forcing.h"

namespace redd::tank {

/// Entry that acts at this time; the nearest one outside the days given, ordinary days when there are none.
DayForcing forcing_at(const Forcing& forcing, double day);

/// Temperature at this time.
double temperature_c_at(const Forcing& forcing, double day);

/// What this temperature and air make of water.
WaterConstants water_constants(double temperature_c, const DayForcing& air);

/// One stretch of steady loads, temperature going straight from one value to the other.
Stretch stretch_of(const DayForcing& day, double length_days, double from_c, double to_c, double volume_l);

/// The time between two days cut at the borders of the forcing's entries. The volume is carried along. With `join_days` days that hardly
/// differ make one stretch.
std::vector<Stretch> stretches_of(const Forcing& forcing, double from_day, double to_day, double& volume_l, bool join_days = false);

}  // namespace redd::tank
