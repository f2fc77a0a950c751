#include "numerics/poisson_chart.h"

#include <algorithm>
#include <cmath>

#include "numerics/linear.h"

namespace redd::numerics {
namespace {

/// Chances of 0, 1, 2, … events, until what is left is below 1e-14 of the whole.
std::vector<double> poisson_chances(double mean) {
  const auto last = static_cast<std::size_t>(std::ceil(mean + 9.0 * std::sqrt(mean) + 16.0));
  std::vector<double> chance(last + 1);
  for (std::size_t n = 0; n <= last; ++n) {
    const double k = static_cast<double>(n);
    chance[n] = std::exp(k * std::log(mean) - mean - std::lgamma(k + 1.0));
  }
  return chance;
}

}  // namespace

double poisson_allowance(double expected, double ratio) { return expected * (ratio - 1.0) / std::log(ratio); }

std::optional<double> poisson_cusum_run_length(double mean, double allowance, double limit, int steps) {
  constexpr double longest = 1e12;
  const long take = std::lround(allowance * steps), top = std::lround(limit * steps);
  if (!(mean > 0.0 && mean < 1e6) || steps < 1 || take < 0 || top < 1 || top > 1500) return std::nullopt;
  const auto chance = poisson_chances(mean);
  const auto size = static_cast<std::size_t>(top + 1);
  SquareMatrix matrix(size);
  for (std::size_t from = 0; from < size; ++from) {
    matrix(from, from) += 1.0;
    for (std::size_t n = 0; n < chance.size(); ++n) {
      const long to = std::max(0L, static_cast<long>(from) + static_cast<long>(n) * steps - take);
      if (to > top) break;
      matrix(from, static_cast<std::size_t>(to)) -= chance[n];
    }
  }
  const auto lengths = solved(std::move(matrix), std::vector<double>(size, 1.0));
  if (!lengths || !std::isfinite(lengths->front()) || lengths->front() > longest || lengths->front() < 1.0) return std::nullopt;
  return lengths->front();
}

CountWatch::CountWatch(double false_alarm_per_day, double ratio, double largest_expected)
    : false_alarm_per_day_(false_alarm_per_day), ratio_(ratio) {
  // Far enough that a limit is never cut off; steps of an eighth of a count, coarser only for broods of very many thousands.
  const double reach = 24.0 + 8.0 * std::sqrt(std::max(1.0, largest_expected));
  constexpr double finest = 0.125;
  constexpr std::size_t most_cells = 1024;
  step_ = std::max(finest, reach / static_cast<double>(most_cells));
  cells_ = static_cast<std::size_t>(std::ceil(reach / step_)) + 1;
  chance_.assign(cells_, 0.0);
  chance_[0] = 1.0;
}

long CountWatch::steps_of(double count) const { return std::lround(count / step_); }

std::vector<double> CountWatch::carried(double expected, long take, double& beyond) const {
  const auto counts = poisson_chances(expected);
  std::vector<double> after(cells_, 0.0);
  beyond = 0.0;
  std::size_t last = cells_;
  while (last > 1 && chance_[last - 1] <= 0.0) --last;
  for (std::size_t n = 0; n < counts.size(); ++n) {
    if (counts[n] < 1e-18) continue;
    const long shift = steps_of(static_cast<double>(n)) - take;
    for (std::size_t i = 0; i < last; ++i) {
      const auto to = static_cast<std::size_t>(std::max(0L, static_cast<long>(i) + shift));
      (to < cells_ ? after[to] : beyond) += chance_[i] * counts[n];
    }
  }
  return after;
}

CountWatch::Point CountWatch::next(double count, double expected, double days) {
  // Whole steps are taken and the rest is owed to the next day, so that even an allowance of a fraction of a step wears the sum down.
  owed_ += poisson_allowance(expected, ratio_) / step_;
  const long take = static_cast<long>(owed_);
  owed_ -= static_cast<double>(take);
  double tail = 0.0;
  std::vector<double> after = carried(expected, take, tail);
  const double wished = 1.0 - std::pow(1.0 - false_alarm_per_day_, days);
  std::size_t limit = cells_ - 1;
  while (limit > 0 && tail + after[limit] <= wished) tail += after[limit--];

  const bool began = sum_ == 0;
  sum_ = std::max(0L, sum_ + steps_of(count) - take);
  const Point point{static_cast<double>(sum_) * step_, static_cast<double>(limit) * step_, began, sum_ > static_cast<long>(limit)};
  if (point.signals) {
    sum_ = static_cast<long>((limit + 1) / 2);
    std::fill(chance_.begin(), chance_.end(), 0.0);
    chance_[static_cast<std::size_t>(sum_)] = 1.0;
    return point;
  }
  std::fill(after.begin() + static_cast<std::ptrdiff_t>(limit) + 1, after.end(), 0.0);
  double kept = 0.0;
  for (const double chance : after) kept += chance;
  for (double& chance : after) chance /= kept;
  chance_ = std::move(after);
  return point;
}

}  // namespace redd::numerics
