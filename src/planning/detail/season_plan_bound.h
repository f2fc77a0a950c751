#pragma once
// How much linear interpolation between nodes of progress can cost, at most. Used by the search for its proven gap.

#include <array>
#include <vector>

#include "planning/detail/season_plan_model.h"

namespace redd::planning::detail {

/// One clock, and what is earned along it: sum over days of turns[k][day] x passed[k](clock), and a daily cost by who lives in the tank.
struct ClockCurvature {
  double begin = 0.0, end = 1.0;              ///< where the clock stands at first; beyond `end` nothing changes
  std::vector<double> rate;                   ///< of the clock a day, by set-point
  std::vector<double> variance;               ///< of a day's rounding to nodes, by set-point
  std::vector<double> early_variance{};       ///< the same while the clock may be below rounds_early_until (the larger of both is taken)
  double rounds_early_until = 0.0;
  std::array<std::vector<double>, 2> turns{}; ///< by day, one more than days are searched
  std::array<const Passed*, 2> passed{};
  const Passed* living = nullptr;
  double living_weight = 0.0;                 ///< largest daily cost that turns with the share of `living`
};

struct CurvatureSum {
  double sum = 0.0;   ///< largest sum over a path's days of half the variance times the curvature then ahead
  double most = 0.0;  ///< largest curvature met
};
CurvatureSum curvature_sum(const ClockCurvature& clock);

}  // namespace redd::planning::detail
