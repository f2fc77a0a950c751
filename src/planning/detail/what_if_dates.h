#pragma once
// Dates of hatch and swim-up over the worlds of a what-if.

#include "planning/detail/what_if_heat.h"

namespace redd::planning::detail {

/// Every lot in every world: 5 %, middle and 95 % of the weight.
void foretell_dates(const WhatIfDates& dates, const WorldPaths& paths, WhatIfWindow& hatch, WhatIfWindow& swim_up);

}  // namespace redd::planning::detail
