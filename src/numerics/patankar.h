#pragma once
// A second-order step for systems of production and destruction that keeps every value positive and every sum exact, whatever
// the step: modified Patankar-Runge-Kutta. Start at solve_positive(). Kept as the measured alternative to rosenbrock.h and as a check on it.

#include <cstddef>
#include <functional>
#include <span>

#include "numerics/rosenbrock.h"

namespace redd::numerics {

/// y_i' = inflow_i + sum_j flow_ij - sum_j flow_ji - outflow_i, all terms >= 0; outflow_i and flow_ij are zero where what they draw on is.
struct FlowSystem {
  std::size_t size;
  /// flow: size x size, row by row, flow[i * size + j] is what goes from j to i; the diagonal is not used.
  std::function<void(std::span<const double> y, std::span<double> flow, std::span<double> inflow, std::span<double> outflow)> flows;
};

/// Moves y from one time to another with error control (against the first-order step within).
///
/// In      y: size() values > 0 (a value of zero is kept at the smallest positive number), overwritten.
/// Source  MPRK22 with alpha = 1, the modified Patankar scheme of [burchard2003].
SolveReport solve_positive(const FlowSystem& system, std::span<double> y, double from, double to, SolveTolerance tolerance = {});

/// The same with equal steps and no error control.
SolveReport solve_positive_in_equal_steps(const FlowSystem& system, std::span<double> y, double from, double to, std::int64_t count);

}  // namespace redd::numerics
