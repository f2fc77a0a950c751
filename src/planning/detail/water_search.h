#pragma once
// The search behind the water programme: rhythms of open days, the smallest change that holds in each, then what can be left out of the best.

#include "planning/water_programme.h"

namespace redd::planning {

/// Shortest time between two planned changes. Assumed: a day's rest between; what needs more than every second day is no programme but an emergency.
inline constexpr int fewest_days_between = 2;
/// Most of the tank that is planned to be changed within seven days. Assumed: all of it once.
inline constexpr double most_a_week = 1.0;

struct FoundProgramme {
  std::vector<WaterDeed> deeds{};  ///< with `on_list` the first is what today's list asks
  double broken_probability = 1;
  double exposure = 1;             ///< share of the days beyond a limit
  int runs = 0;
  bool on_list = false;
};

struct SearchRoom {
  double largest = 0.5;       ///< part that may be changed at once
  bool vacuum = false;        ///< changes draw off waste too
  bool may_come_earlier = false;  ///< what today's list asks may be made before its day, where that keeps limits that are broken else
};

/// In      none: the forecast without any change.
/// Out     what today's list asks as the first step, if it asks a change (made.asked_today), and on top of it the smallest found that breaks a limit in at most 1 - searched_safe_probability of the tanks; else the smallest of those that bring the water back inside
///         its limits about as soon as the best.
///         Never one that makes any single limit likelier broken than without changes (or with the list's alone), beyond that share; and no change beside work of
///         the list that it has to be kept apart from.
FoundProgramme search_programme(const WaterCase& made, const SearchRoom& room, const WaterForecast& none);

/// Days on which changes may be made, each a candidate. In: open days, in order.
std::vector<std::vector<Date>> change_rhythms(const std::vector<Date>& open);

}  // namespace redd::planning
