#pragma once
// The temperature plan with something moved in it: other set-points, another egg day, a wished day of hatch or swim-up, another time for
// the release. Nothing is kept of it. Start at try_plan().

#include <optional>
#include <vector>

#include "season/season.h"

namespace redd::season {

struct PlanTrial {
  struct Step {
    Date day;
    Temperature temperature;
  };
  /// From each day on that temperature is set, in order of days; before the first it stays as it is. Absent: the best plan is searched for.
  std::optional<std::vector<Step>> steps{};
  std::optional<Date> egg_day{};  ///< while the eggs are to come
  std::optional<Date> hatch{};    ///< wished day on which half have hatched; within two days of it counts
  std::optional<Date> swim_up{};
  std::optional<Date> release_from{};
  std::optional<Date> release_until{};
};

/// In      view: of the moment in which something is moved.
/// Shape   some milliseconds with steps; without them as planning::plan_season().
/// Errors  eggs_have_come; out_of_range when a wished day is not among the days planned; those of planning::season_asked(). Limits that the
///         steps break are told in the answer.
Result<planning::PlanAnswer> try_plan(const PlanView& view, const PlanTrial& trial);

}  // namespace redd::season
