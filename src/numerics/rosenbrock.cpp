#include "numerics/rosenbrock.h"

#include <algorithm>
#include <cmath>

namespace redd::numerics {
namespace {

/// LU factors of a small matrix with row pivoting, kept for several right sides.
class Factors {
 public:
  explicit Factors(std::size_t n) : n_(n), lu_(n * n), row_(n), work_(n) {}

  std::vector<double>& matrix() { return lu_; }

  bool factor() {
    for (std::size_t i = 0; i < n_; ++i) row_[i] = i;
    for (std::size_t k = 0; k < n_; ++k) {
      std::size_t best = k;
      for (std::size_t i = k + 1; i < n_; ++i)
        if (std::fabs(at(i, k)) > std::fabs(at(best, k))) best = i;
      std::swap(row_[k], row_[best]);
      const double pivot = at(k, k);
      if (!(std::fabs(pivot) > 0.0) || !std::isfinite(pivot)) return false;
      for (std::size_t i = k + 1; i < n_; ++i) {
        const double factor = at(i, k) / pivot;
        at(i, k) = factor;
        for (std::size_t j = k + 1; j < n_; ++j) at(i, j) -= factor * at(k, j);
      }
    }
    return true;
  }

  void solve(std::span<double> b) {
    for (std::size_t i = 0; i < n_; ++i) {
      double sum = b[row_[i]];
      for (std::size_t j = 0; j < i; ++j) sum -= at(i, j) * work_[j];
      work_[i] = sum;
    }
    for (std::size_t i = n_; i-- > 0;) {
      double sum = work_[i];
      for (std::size_t j = i + 1; j < n_; ++j) sum -= at(i, j) * b[j];
      b[i] = sum / at(i, i);
    }
  }

 private:
  double& at(std::size_t i, std::size_t j) { return lu_[row_[i] * n_ + j]; }
  std::size_t n_;
  std::vector<double> lu_;
  std::vector<std::size_t> row_;
  std::vector<double> work_;
};

class Stepper {
 public:
  Stepper(const RosenbrockMethod& method, const StiffSystem& system)
      : method_(method), system_(system), n_(system.size), factors_(n_), jacobian_(n_ * n_), f_(n_), trial_(n_),
        k_(static_cast<std::size_t>(method.stages), std::vector<double>(n_)), next_(n_), error_(n_) {}

  void take_jacobian(std::span<const double> y) {
    if (system_.jacobian) {
      system_.jacobian(y, jacobian_);
      return;
    }
    system_.f(y, f_);
    for (std::size_t j = 0; j < n_; ++j) {
      std::copy(y.begin(), y.end(), trial_.begin());
      const double step = 1.5e-8 * std::max(std::fabs(y[j]), 1e-5);
      trial_[j] += step;
      system_.f(trial_, next_);
      for (std::size_t i = 0; i < n_; ++i) jacobian_[i * n_ + j] = (next_[i] - f_[i]) / (trial_[j] - y[j]);
    }
  }

  /// One step of length h from y; next() and error() hold the outcome. False when the linear system has no answer.
  bool step(std::span<const double> y, double h) {
    const double diagonal = 1.0 / (h * method_.gamma);
    auto& matrix = factors_.matrix();
    for (std::size_t i = 0; i < n_ * n_; ++i) matrix[i] = -jacobian_[i];
    for (std::size_t i = 0; i < n_; ++i) matrix[i * n_ + i] += diagonal;
    if (!factors_.factor()) return false;
    for (std::size_t s = 0; s < k_.size(); ++s) {
      if (method_.new_evaluation[s]) {
        std::copy(y.begin(), y.end(), trial_.begin());
        for (std::size_t j = 0; j < s; ++j)
          for (std::size_t i = 0; i < n_; ++i) trial_[i] += method_.a[s][j] * k_[j][i];
        system_.f(trial_, f_);
      }
      k_[s] = f_;
      for (std::size_t j = 0; j < s; ++j)
        for (std::size_t i = 0; i < n_; ++i) k_[s][i] += method_.c[s][j] / h * k_[j][i];
      factors_.solve(k_[s]);
    }
    std::copy(y.begin(), y.end(), next_.begin());
    std::fill(error_.begin(), error_.end(), 0.0);
    for (std::size_t s = 0; s < k_.size(); ++s)
      for (std::size_t i = 0; i < n_; ++i) {
        next_[i] += method_.m[s] * k_[s][i];
        error_[i] += method_.e[s] * k_[s][i];
      }
    return true;
  }

  const std::vector<double>& next() const { return next_; }

  double error_over(std::span<const double> y, SolveTolerance tolerance) const {
    double largest = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
      const double allowed = tolerance.absolute + tolerance.relative * std::max(std::fabs(y[i]), std::fabs(next_[i]));
      const double ratio = std::fabs(error_[i]) / allowed;
      if (!(ratio <= largest)) largest = ratio;  // keeps a value that is not a number
    }
    return largest;
  }

 private:
  const RosenbrockMethod& method_;
  const StiffSystem& system_;
  std::size_t n_;
  Factors factors_;
  std::vector<double> jacobian_, f_, trial_;
  std::vector<std::vector<double>> k_;
  std::vector<double> next_, error_;
};

}  // namespace

SolveReport solve_stiff(const RosenbrockMethod& method, const StiffSystem& system, std::span<double> y, double from, double to,
                        SolveTolerance tolerance) {
  SolveReport report;
  Stepper stepper(method, system);
  double t = from;
  double h = std::min(to - from, 1e-6 * std::max(1.0, to - from));
  bool fresh = true;
  while (t < to) {
    if (fresh) stepper.take_jacobian(y);
    const bool last = t + h >= to;
    const double step = last ? to - t : h;
    const bool solved = stepper.step(y, step);
    const double error = solved ? stepper.error_over(y, tolerance) : 1e9;
    if (error <= 1.0) {
      std::copy(stepper.next().begin(), stepper.next().end(), y.begin());
      t = last ? to : t + step;
      ++report.steps;
      fresh = true;
    } else {
      ++report.rejected;
      fresh = false;
    }
    const double factor = std::isfinite(error) ? 0.9 * std::pow(std::max(error, 1e-10), -1.0 / method.order) : 0.1;
    h = step * std::clamp(factor, 0.1, error <= 1.0 ? 5.0 : 1.0);
    if (!(h > 1e-15 * std::max(std::fabs(t), 1e-6 * (to - from))) || report.steps + report.rejected > 50'000'000) return report;
  }
  report.reached = true;
  return report;
}

SolveReport solve_stiff_in_equal_steps(const RosenbrockMethod& method, const StiffSystem& system, std::span<double> y, double from,
                                       double to, std::int64_t count) {
  SolveReport report;
  Stepper stepper(method, system);
  const double h = (to - from) / static_cast<double>(count);
  for (; report.steps < count; ++report.steps) {
    stepper.take_jacobian(y);
    if (!stepper.step(y, h)) return report;
    std::copy(stepper.next().begin(), stepper.next().end(), y.begin());
  }
  report.reached = true;
  return report;
}

}  // namespace redd::numerics
