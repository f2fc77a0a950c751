#pragma once
// Wishes that the school's calendar or the permit leave no room for, in the keeper's terms: which closure or which window, and what to change.
// Start at wishes_without_days().

#include <vector>

#include "planning/season_plan.h"
#include "planning/season_plan_collisions.h"
#include "records/school_calendar.h"

namespace redd::planning {

/// An obstacle for each of the usual wishes without a single good day among the question's.
///
/// Out     codes holiday_covers_season, release_window_past, release_window_far; `field` is the wish's key.
std::vector<PlanObstacle> wishes_without_days(const SeasonQuestion& question, const records::SchoolCalendar& calendar, const records::SeasonSetup& season);

/// Says what general words say of those wishes in these terms instead, and of a permit that ends before the fry swim up, or begins too long
/// after, by how much.
///
/// In      swim_up: under the best plan; nothing without one.
void explain(WishConflicts& conflicts, const std::vector<PlanObstacle>& without_days, const records::SeasonSetup& season, const std::optional<MilestoneWindow>& swim_up);

}  // namespace redd::planning
