#pragma once
// The search: dynamic programming backward over days, set-points and the clocks' progress, the value between nodes of progress taken
// linearly. Every value is at least the true optimum less a known sum of curvature terms (docs/decisions/0009-season-planner.md), so that
// the score of the plan read off forward, counted exactly, has a proven gap.

#include <vector>

#include "planning/detail/season_plan_model.h"

namespace redd::planning::detail {

/// The nodes of progress. Hatch clock x swim-up clock's deviation from its share of the hatch clock; after hatch (or where the two clocks
/// keep one ratio) the swim-up clock alone.
struct ProgressNodes {
  double hatch_step = 0.0, swim_up_step = 0.0;
  bool one_clock = true;      ///< no deviation: swim-up = ratio x hatch at every temperature
  double ratio = 1.0;         ///< swim-up over hatch
  double deviation_step = 0.0, deviation_low = 0.0;
  int deviations = 1;
};

struct SearchOutcome {
  std::vector<double> water_c;  ///< one a day, recovery days included; empty when no set-points keep every limit
  double value = 0.0;           ///< what the search takes the best plan to score
  double upper_bound = 0.0;     ///< no plan scores more, costs of recovery days included
};

/// Nodes for this model by the question's precision.
ProgressNodes usual_nodes(const PlanModel& model, const std::vector<double>& grid_c);
/// Set-points that any day and any stage may allow, coldest first.
std::vector<double> grid_of(const PlanModel& model);

/// In      costs_a_change: in place of the question's own (the calmest plan pays more). exact_limits: stages' limits switch exactly where
///         the node stands; otherwise as much earlier or later as a walk between nodes may stray, which the bound needs.
SearchOutcome search(const PlanModel& model, const std::vector<double>& grid_c, const ProgressNodes& nodes, double cost_a_change, bool exact_limits);

}  // namespace redd::planning::detail
