#pragma once
// From the warmth that ripens the filter down to the water the eggs will meet: the latest start of cooling that is safe, so that the bacteria
// stay warm longest. Start at plan_chill_down().

#include <optional>
#include <vector>

#include "planning/season_plan_question.h"

namespace redd::planning {

struct ChillQuestion {
  std::vector<PlanDay> days;             ///< from the first that can still be planned to the day before the eggs at least
  Temperature water_now;                 ///< daily mean before the first day
  Temperature warm;                      ///< what the filter ripens at; held as long as possible
  Temperature target;                    ///< what the eggs are to meet
  Date egg_day;
  int settle_days = 3;                   ///< whole days at the target before the eggs come
  TemperatureChange most_cooling_a_day = TemperatureChange::from_c(3.0);  ///< the chiller's pace or the filter's, whichever is slower
  TemperatureChange most_warming_a_day = TemperatureChange::from_c(6.0);  ///< no animals yet
  /// Probability that the filter is ready by the egg day if cooling starts on day d of `days` (0-1); empty: the later the better.
  std::vector<double> ready_by_start{};
};

struct ChillPlan {
  std::vector<Date> days;
  std::vector<Temperature> set_points;   ///< one a day, to the day before the eggs
  Date start;                            ///< first day colder than the day before; the egg day when nothing needs cooling
  Date latest_start;                     ///< beyond it the target cannot be reached in time
  Date settled;                          ///< first day at the target
  std::optional<double> ready_probability{};
};

struct ChillAnswer {
  std::optional<ChillPlan> plan{};
  std::vector<PlanObstacle> obstacles{};
};

/// Out     set-points as warm as they can be on every single day, given the start: no other plan that keeps the limits is warmer on any day.
/// Errors  egg_day_past, chill_too_late (with the earliest possible egg day), chiller_too_small, out_of_range, ready_days.
ChillAnswer plan_chill_down(const ChillQuestion& question);

}  // namespace redd::planning
