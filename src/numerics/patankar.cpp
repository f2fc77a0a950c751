#include "numerics/patankar.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "numerics/linear.h"

namespace redd::numerics {
namespace {

struct Flows {
  explicit Flows(std::size_t n) : flow(n * n), inflow(n), outflow(n) {}
  std::vector<double> flow, inflow, outflow;
};

class PositiveStepper {
 public:
  explicit PositiveStepper(const FlowSystem& system) : system_(system), n_(system.size), first_(n_), second_(n_), mean_(n_) {}

  /// next() after a step h, lower() the first-order result. False when a system had no answer.
  bool step(std::span<const double> y, double h) {
    system_.flows(y, first_.flow, first_.inflow, first_.outflow);
    if (!weighted(y, h, first_, y, lower_)) return false;
    system_.flows(lower_, second_.flow, second_.inflow, second_.outflow);
    for (std::size_t i = 0; i < n_ * n_; ++i) mean_.flow[i] = 0.5 * (first_.flow[i] + second_.flow[i]);
    for (std::size_t i = 0; i < n_; ++i) {
      mean_.inflow[i] = 0.5 * (first_.inflow[i] + second_.inflow[i]);
      mean_.outflow[i] = 0.5 * (first_.outflow[i] + second_.outflow[i]);
    }
    return weighted(y, h, mean_, lower_, next_);
  }
  const std::vector<double>& next() const { return next_; }
  const std::vector<double>& lower() const { return lower_; }

 private:
  /// y_new with every flow out of j weighted by y_new_j / weight_j: a linear system whose inverse has no negative entry.
  bool weighted(std::span<const double> y, double h, const Flows& f, std::span<const double> weight, std::vector<double>& result) {
    SquareMatrix matrix(n_);
    std::vector<double> right(n_);
    for (std::size_t i = 0; i < n_; ++i) {
      right[i] = y[i] + h * f.inflow[i];
      matrix(i, i) += 1.0;
      for (std::size_t j = 0; j < n_; ++j) {
        const double per = h / std::max(weight[j], std::numeric_limits<double>::min());
        if (i == j) matrix(j, j) += per * f.outflow[j];
        else {
          matrix(i, j) -= per * f.flow[i * n_ + j];
          matrix(j, j) += per * f.flow[i * n_ + j];
        }
      }
    }
    const auto solution = solved(std::move(matrix), std::move(right));
    if (!solution) return false;
    result = *solution;
    return true;
  }

  const FlowSystem& system_;
  std::size_t n_;
  Flows first_, second_, mean_;
  std::vector<double> lower_, next_;
};

}  // namespace

SolveReport solve_positive(const FlowSystem& system, std::span<double> y, double from, double to, SolveTolerance tolerance) {
  SolveReport report;
  PositiveStepper stepper(system);
  double t = from;
  double h = 1e-6 * (to - from);
  while (t < to) {
    const bool last = t + h >= to;
    const double step = last ? to - t : h;
    double error = 1e9;
    if (stepper.step(y, step)) {
      error = 0.0;
      for (std::size_t i = 0; i < y.size(); ++i) {
        const double allowed = tolerance.absolute + tolerance.relative * std::max(y[i], stepper.next()[i]);
        const double ratio = std::fabs(stepper.next()[i] - stepper.lower()[i]) / allowed;
        if (!(ratio <= error)) error = ratio;
      }
    }
    if (error <= 1.0) {
      std::copy(stepper.next().begin(), stepper.next().end(), y.begin());
      t = last ? to : t + step;
      ++report.steps;
    } else {
      ++report.rejected;
    }
    const double factor = std::isfinite(error) ? 0.9 / std::sqrt(std::max(error, 1e-10)) : 0.1;
    h = step * std::clamp(factor, 0.1, 5.0);
    if (!(h > 1e-15 * std::max(std::fabs(t), 1e-6 * (to - from))) || report.steps + report.rejected > 50'000'000) return report;
  }
  report.reached = true;
  return report;
}

SolveReport solve_positive_in_equal_steps(const FlowSystem& system, std::span<double> y, double from, double to, std::int64_t count) {
  SolveReport report;
  PositiveStepper stepper(system);
  const double h = (to - from) / static_cast<double>(count);
  for (; report.steps < count; ++report.steps) {
    if (!stepper.step(y, h)) return report;
    std::copy(stepper.next().begin(), stepper.next().end(), y.begin());
  }
  report.reached = true;
  return report;
}

}  // namespace redd::numerics
