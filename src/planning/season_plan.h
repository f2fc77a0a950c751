#pragma once
// The temperature plan of a season: a set-point for every day, chosen so that the wishes are most probably met, with few changes and little
// energy, and never outside what animals and equipment bear. Start at plan_season(). How it searches and why its gap is proven:
// docs/decisions/0009-season-planner.md; what its numbers mean: docs/science/planning.md.

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planning/season_plan_question.h"

namespace redd::planning {

struct SetPointChange {
  Date day;
  Temperature from;
  Temperature to;
  Days spread_over;  ///< take at least so long over it, from the limit a hour
};

struct WishOutcome {
  std::string key;
  Sentence name;
  double weight = 1.0;
  double probability = 0.0;  ///< that the stage falls on a good day, given that it is still to come
  bool over = false;         ///< the stage has passed already in nearly all lots; the wish was left out
};

/// What a plan is worth. score = sum of weight times probability - costs.
struct PlanScore {
  double score = 0.0;
  double fulfilment = 0.0;   ///< sum of weight times probability
  int changes = 0;
  double amber_c_days = 0.0; ///< expected: degrees outside the green band, days, share of the animals
  double kwh = 0.0;
  std::vector<WishOutcome> wishes;
};

/// When the middle animal of the lot passes a stage under a plan; `probability_by_end` < 0.95 makes the window open-ended.
struct MilestoneWindow {
  PlanStage stage = PlanStage::hatch;
  biology::MomentWindow lot;
  double already_probability = 0.0;  ///< that it has passed before the first day
  double probability_by_end = 0.0;
};

struct SeasonPlan {
  std::vector<Date> days;
  std::vector<Temperature> set_points;  ///< one a day
  int recovery_days = 0;                ///< first days on which water found outside the limits is led back as fast as is allowed
  std::vector<SetPointChange> changes;
  PlanScore score;
  std::vector<MilestoneWindow> milestones;  ///< hatch, swim-up, release size (if any lot has one)
  /// No plan on the same grid of set-points can score more than score + gap_bound. Nothing for a plan that was not searched for.
  std::optional<double> gap_bound{};
};

/// A plan, or everything that stands in its way.
struct PlanAnswer {
  std::optional<SeasonPlan> plan{};
  std::vector<PlanObstacle> obstacles{};
};

/// The best plan.
///
/// Out     no plan when obstacles_of() finds any, or limits_cannot_be_kept when no set-points keep all limits on all days.
/// Shape   240 days in some 50 ms for species with one clock, some 100 ms for the Pacific salmons, whose hatch and swim-up
///         curves bend differently; about 30 MB of working memory.
/// Errors  by value, in the answer.
PlanAnswer plan_season(const SeasonQuestion& question);

/// Given set-points, scored the same way (no search, no gap).
/// Errors  limits_broken naming the first day on which they leave a limit; set_points_days when they are not one a day.
PlanAnswer score_plan(const SeasonQuestion& question, std::span<const Temperature> set_points);

/// Plans side by side.
struct PlanAlternatives {
  PlanAnswer best;
  PlanAnswer calmest;  ///< each change must earn a tenth of all wishes; scored with the question's own costs
  PlanAnswer keep;     ///< today's water temperature held; obstacles say why it cannot be
};
PlanAlternatives alternatives(const SeasonQuestion& question);

}  // namespace redd::planning
