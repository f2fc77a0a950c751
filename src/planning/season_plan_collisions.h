#pragma once
// Wishes that cannot all be met: which two collide, by how many days, and what could be had if one of them gave way. Start at collisions().

#include <string>
#include <vector>

#include "planning/season_plan.h"

namespace redd::planning {

/// One wish that gives way: its good days reach so many days further on both sides.
struct RelaxedWish {
  std::string key;
  int by_days = 0;
  SeasonPlan plan;  ///< the best one then, for both wishes of the pair alone
};

/// Two wishes of which each could be met well alone, but not both.
struct Collision {
  std::string first, second;
  double first_alone = 0.0, second_alone = 0.0;        ///< probability of each under the plan best for it alone
  double first_together = 0.0, second_together = 0.0;  ///< under the plan best for the two
  std::vector<RelaxedWish> ways_out;                   ///< first gives way, second gives way; only those that help within 60 days
  Sentence sentence;
};

/// A wish that cannot be met well by any plan, even alone.
struct OutOfReach {
  std::string key;
  double best_probability = 0.0;
  int by_days = 0;     ///< its good days would have to reach so much further; 0: not even 60 days help
  Sentence sentence;
};

struct WishConflicts {
  std::vector<OutOfReach> out_of_reach;
  std::vector<Collision> collisions;
  std::vector<PlanObstacle> obstacles;  ///< wishes without a single good day, and whatever keeps plan_season() from a plan
};

/// In      question as for plan_season().
/// Out     pairs that lose at least a quarter of a wish together; wishes below one half alone.
/// Shape   a few dozen searches; some seconds for a season with many conflicts, one search a wish when there are none.
WishConflicts conflicts(const SeasonQuestion& question);

}  // namespace redd::planning
