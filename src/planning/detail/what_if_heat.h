#pragma once
// The water's temperature day by day in each world of a what-if.

#include <vector>

#include "planning/what_if.h"

namespace redd::planning::detail {

/// Temperatures when each day begins: one row a world, as long as heat.plan_c.
using WorldPaths = std::vector<std::vector<double>>;

/// The water goes to the set-point as far and as fast as chiller, room and heater let it: a day is one step between where the water would settle with the
/// chiller running without pause and where it would settle with it off (heat::settles_at), each approached with its own time constant.
/// Assumed: within a day the room counts with its mean; the water's own heat smooths the hours.
WorldPaths temperature_paths(const WhatIfHeat& heat, const WhatIfSliders& sliders);

/// The set-point as the sliders put it, when each day begins.
std::vector<double> wished_path(const WhatIfHeat& heat, const WhatIfSliders& sliders);

}  // namespace redd::planning::detail
