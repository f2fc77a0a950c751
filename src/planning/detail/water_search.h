#pragma once
// The search behind the water programme: rhythms of open days, the smallest change that holds in each, then what can be left out of the best.

#include "planning/water_programme.h"

namespace redd::planning {

/// Shortest time between two planned changes. Assumed: a day's rest between; what needs more than every second day is no programme but an emergency.
inline constexpr int fewest_days_between = 2;
/// Most of the tank that is planned to be changed within seven days. Assumed: all of it once.
inline constexpr double most_a_week = 1.0;

struct FoundProgramme {
  std::vector<WaterDeed> deeds{};
  double broken_probability = 1;
  double exposure = 1;             ///< share of the days beyond a limit
  int runs = 0;
};

/// In      largest: part that may be changed at once. vacuum: changes draw off waste too. none: the forecast without any change.
/// Out     the smallest found that breaks a limit in at most 1 - searched_safe_probability of the tanks; else the smallest of those that bring the water back inside
///         its limits about as soon as the best.
///         Never one that makes any single limit likelier broken than without changes, beyond that share.
FoundProgramme search_programme(const WaterCase& made, double largest, bool vacuum, const WaterForecast& none);

/// Days on which changes may be made, each a candidate. In: open days, in order.
std::vector<std::vector<Date>> change_rhythms(const std::vector<Date>& open);

}  // namespace redd::planning
