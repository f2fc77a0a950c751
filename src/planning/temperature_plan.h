#pragma once
// The season's temperature plan from the log: what the planner is asked for this tank, this brood and this school, and what it answers.
// Start at season_asked(), then temperature_plan(). The planner itself: season_plan.h.

#include <optional>
#include <span>
#include <vector>

#include "inference/belief.h"
#include "planning/season_plan.h"
#include "planning/season_plan_chill.h"
#include "planning/season_plan_collisions.h"
#include "planning/season_plan_compare.h"
#include "records/school_calendar.h"

namespace redd::planning {

/// What the planner is asked, and what had to be taken for granted to ask it.
struct SeasonAsked {
  SeasonQuestion question;
  std::vector<Sentence> assumed{};
  std::vector<PlanObstacle> without_days{};  ///< wishes that calendar or permit leave no day for; they keep nothing else from being planned
};

/// In      abilities: what the equipment can hold, one a day from `first` on; empty when it is not described.
///         first: first day that can still be planned.
/// Out     from `first`, or from egg day while no eggs are in the tank, to two months after the latest likely swim-up (at most 240 days).
/// Errors  unknown_species; egg_day_missing without eggs and without a day for them; released; those of biology::lots_to_go().
Result<SeasonAsked> season_asked(const records::SeasonSetup& season, const inference::Belief& belief,
                                 const records::SchoolCalendar& calendar, std::span<const PlanDay> abilities, Date first);

/// Everything that is said of the plan.
struct TemperaturePlan {
  SeasonAsked asked;
  PlanAlternatives alternatives{};
  std::optional<ChillPlan> chill{};              ///< while eggs are to come and the water is warmer than they need
  std::vector<PlanObstacle> chill_obstacles{};
  WishConflicts conflicts{};                     ///< only looked for when a wish is less than likely
  std::optional<PlanDifference> since_last_week{};
  std::vector<Sentence> cautions{};              ///< of the equipment: down today, or with little to spare; plan_cautions()
};

/// In      last_week: as asked on a day a week ago, from what was known then; nothing when there was nothing to plan.
/// Shape   some tenths of a second; seconds when wishes collide.
TemperaturePlan temperature_plan(SeasonAsked asked, const inference::Belief& belief, const records::SeasonSetup& season,
                                 std::span<const PlanDay> abilities, Date first, const std::optional<SeasonAsked>& last_week);

}  // namespace redd::planning
