#include "numerics/control_charts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>

#include "numerics/linear.h"
#include "numerics/normal.h"
#include "numerics/roots.h"

namespace redd::numerics {
namespace {

/// Beyond this the linear system has lost the digits that make a run length.
constexpr double longest_run_length = 1e12;

std::optional<double> sensible(double run_length) {
  if (!std::isfinite(run_length) || run_length > longest_run_length || run_length < 1.0 - 1e-9) return std::nullopt;
  return std::max(1.0, run_length);
}

/// Nodes for an interval this many kernel widths long: a Gaussian seen through a Gauss-Legendre rule is resolved to about
/// 1e-9 with five nodes a width (found by doubling them, see control_charts_test).
std::size_t nodes_for(double widths) { return 40 + static_cast<std::size_t>(std::ceil(5.0 * widths)); }

/// A chart whose statistic follows s' = pull s + gain x in [floor, ceiling] and signals above the ceiling; below the floor it
/// either signals too or is put back on the floor. x is normal with mean `mean`, sd 1. Returns the run length from `start`.
struct MarkovChart {
  double pull;
  double gain;
  double offset;  ///< added each step
  double floor;
  double ceiling;
  bool reflects_at_floor;
};

std::optional<double> run_length_of(const MarkovChart& chart, double mean, double start) {
  const std::size_t n = nodes_for((chart.ceiling - chart.floor) / chart.gain);
  const Quadrature rule = gauss_legendre(n, chart.floor, chart.ceiling);
  // Unknowns: the run length from each node and, if reflecting, from the floor itself (index n).
  const std::size_t size = chart.reflects_at_floor ? n + 1 : n;
  const auto from_node = [&](std::size_t i) { return i < n ? rule.nodes[i] : chart.floor; };
  const auto needed_x = [&](double from, double to) { return (to - chart.pull * from - chart.offset) / chart.gain - mean; };
  SquareMatrix matrix(size);
  for (std::size_t i = 0; i < size; ++i) {
    const double from = from_node(i);
    for (std::size_t j = 0; j < n; ++j)
      matrix(i, j) = -rule.weights[j] * normal_density(needed_x(from, rule.nodes[j])) / chart.gain;
    if (chart.reflects_at_floor) matrix(i, n) -= normal_cdf(needed_x(from, chart.floor));
    matrix(i, i) += 1.0;
  }
  const auto lengths = solved(std::move(matrix), std::vector<double>(size, 1.0));
  if (!lengths) return std::nullopt;
  // Nystrom's interpolation: the equation itself carries the solution from the nodes to the start.
  double length = 1.0;
  for (std::size_t j = 0; j < n; ++j)
    length += rule.weights[j] * normal_density(needed_x(start, rule.nodes[j])) / chart.gain * (*lengths)[j];
  if (chart.reflects_at_floor) length += normal_cdf(needed_x(start, chart.floor)) * (*lengths)[n];
  return sensible(length);
}

/// What the runs rules remember of the past, newest reading in the lowest bit of each.
struct RulesMemory {
  std::uint8_t beyond_two_above = 0, beyond_two_below = 0;  ///< last 2 readings
  std::uint8_t beyond_one_above = 0, beyond_one_below = 0;  ///< last 4 readings
  std::int8_t same_side = 0;                                ///< length of the run, negative below
  friend auto operator<=>(const RulesMemory&, const RulesMemory&) = default;
};

int bits_set(unsigned word) {
  int count = 0;
  for (; word != 0; word >>= 1) count += static_cast<int>(word & 1u);
  return count;
}

/// The memory after a reading in one of the zones -3 (below -2 sd) ... -1, 1 ... 3 (above 2 sd); nothing when a rule signals.
std::optional<RulesMemory> after_reading(const RunsRules& rules, RulesMemory memory, int zone) {
  const auto shifted = [](std::uint8_t past, bool hit, unsigned keep) {
    return static_cast<std::uint8_t>(((static_cast<unsigned>(past) << 1) | (hit ? 1u : 0u)) & keep);
  };
  if (rules.two_of_three_beyond_two) {
    const auto above = shifted(memory.beyond_two_above, zone == 3, 7u), below = shifted(memory.beyond_two_below, zone == -3, 7u);
    if (bits_set(above) >= 2 || bits_set(below) >= 2) return std::nullopt;
    memory.beyond_two_above = above & 3u;
    memory.beyond_two_below = below & 3u;
  }
  if (rules.four_of_five_beyond_one) {
    const auto above = shifted(memory.beyond_one_above, zone >= 2, 31u), below = shifted(memory.beyond_one_below, zone <= -2, 31u);
    if (bits_set(above) >= 4 || bits_set(below) >= 4) return std::nullopt;
    memory.beyond_one_above = above & 15u;
    memory.beyond_one_below = below & 15u;
  }
  if (rules.eight_on_one_side) {
    const int side = zone > 0 ? 1 : -1;
    const int run = memory.same_side * side > 0 ? memory.same_side + side : side;
    if (std::abs(run) >= 8) return std::nullopt;
    memory.same_side = static_cast<std::int8_t>(run);
  }
  return memory;
}

}  // namespace

std::optional<double> ewma_run_length(double lambda, double limit, double shift, Sides sides) {
  if (!(lambda >= 0.001 && lambda <= 1.0) || !(limit > 0.0 && limit <= 10.0) || !std::isfinite(shift)) return std::nullopt;
  const double half_width = limit * std::sqrt(lambda / (2.0 - lambda));
  const bool reflects = sides == Sides::one;
  return run_length_of({1.0 - lambda, lambda, 0.0, reflects ? 0.0 : -half_width, half_width, reflects}, shift, 0.0);
}

std::optional<double> cusum_run_length(double k, double h, double shift, Sides sides, double head_start) {
  if (!(k >= 0.0 && k <= 10.0) || !(h > 0.0 && h <= 100.0) || !std::isfinite(shift) || !(head_start >= 0.0 && head_start <= h))
    return std::nullopt;
  const MarkovChart chart{1.0, 1.0, -k, 0.0, h, true};
  const auto upper = run_length_of(chart, shift, head_start);
  if (sides == Sides::one) return upper;
  const auto lower = run_length_of(chart, -shift, head_start);
  const auto upper_from_zero = head_start > 0.0 ? run_length_of(chart, shift, 0.0) : upper;
  const auto lower_from_zero = head_start > 0.0 ? run_length_of(chart, -shift, 0.0) : lower;
  // A side too long to compute hardly ever signals; the other side alone is then the answer to all digits.
  if (upper && !lower) return upper;
  if (lower && !upper) return lower;
  if (!upper || !lower || !upper_from_zero || !lower_from_zero) return std::nullopt;
  const double numerator = *upper * *lower_from_zero + *lower * *upper_from_zero - *upper_from_zero * *lower_from_zero;
  return sensible(numerator / (*upper_from_zero + *lower_from_zero));
}

std::optional<double> shewhart_run_length(double limit, double shift, Sides sides) {
  if (!(limit > 0.0) || !std::isfinite(shift)) return std::nullopt;
  const double signal = normal_cdf(shift - limit) + (sides == Sides::two ? normal_cdf(-shift - limit) : 0.0);
  return sensible(1.0 / signal);
}

std::optional<double> shewhart_rules_run_length(RunsRules rules, double shift) {
  if (!std::isfinite(shift)) return std::nullopt;
  constexpr std::array<int, 6> zones{-3, -2, -1, 1, 2, 3};
  std::array<double, 6> chance{};
  for (std::size_t i = 0; i < zones.size(); ++i)
    chance[i] = normal_probability_between(static_cast<double>(i) - 3.0 - shift, static_cast<double>(i) - 2.0 - shift);
  std::map<RulesMemory, std::size_t> index{{RulesMemory{}, 0}};
  std::vector<RulesMemory> states{RulesMemory{}};
  std::vector<std::array<std::size_t, 6>> next;  // states.size() would mean "signals"; marked by npos
  constexpr auto signals = static_cast<std::size_t>(-1);
  for (std::size_t s = 0; s < states.size(); ++s) {
    next.emplace_back();
    for (std::size_t i = 0; i < zones.size(); ++i) {
      const auto after = after_reading(rules, states[s], zones[i]);
      next[s][i] = signals;
      if (!after) continue;
      const auto [found, is_new] = index.emplace(*after, states.size());
      if (is_new) states.push_back(*after);
      next[s][i] = found->second;
    }
  }
  SquareMatrix matrix(states.size());
  for (std::size_t s = 0; s < states.size(); ++s) {
    matrix(s, s) += 1.0;
    for (std::size_t i = 0; i < zones.size(); ++i)
      if (next[s][i] != signals) matrix(s, next[s][i]) -= chance[i];
  }
  const auto lengths = solved(std::move(matrix), std::vector<double>(states.size(), 1.0));
  return lengths ? sensible(lengths->front()) : std::nullopt;
}

namespace {

/// Run lengths grow like exp(limit^2/2): the search is on the logarithm, where they are nearly straight.
template <class RunLength>
std::optional<double> limit_for(RunLength&& run_length, double wanted, double low, double high) {
  if (!(wanted > 1.0)) return std::nullopt;
  return root_between(
      [&](double limit) {
        const auto length = run_length(limit);
        return std::log(length.value_or(longest_run_length)) - std::log(wanted);
      },
      low, high, 1e-9);
}

}  // namespace

std::optional<double> ewma_limit_for(double lambda, double run_length, Sides sides) {
  if (!(lambda >= 0.001 && lambda <= 1.0) || !(run_length <= 1e9)) return std::nullopt;
  return limit_for([&](double limit) { return ewma_run_length(lambda, limit, 0.0, sides); }, run_length, 0.1, 7.0);
}

std::optional<double> cusum_limit_for(double k, double run_length, Sides sides) {
  if (!(k >= 0.0 && k <= 10.0) || !(run_length <= 1e9)) return std::nullopt;
  return limit_for([&](double h) { return cusum_run_length(k, h, 0.0, sides); }, run_length, 0.01, 50.0);
}

std::vector<ChartPoint> ewma_of(std::span<const double> values, double target, double sd, double lambda, double limit,
                                bool fixed_limits) {
  std::vector<ChartPoint> points;
  points.reserve(values.size());
  double z = target;
  double forgotten = 1.0;  // (1 - lambda)^(2i)
  for (const double value : values) {
    z = lambda * value + (1.0 - lambda) * z;
    forgotten *= (1.0 - lambda) * (1.0 - lambda);
    const double half_width = limit * sd * std::sqrt(lambda / (2.0 - lambda) * (fixed_limits ? 1.0 : 1.0 - forgotten));
    points.push_back({z, target - half_width, target + half_width, std::fabs(z - target) > half_width});
  }
  return points;
}

std::vector<CusumPoint> cusum_of(std::span<const double> values, double target, double sd, double k, double h) {
  std::vector<CusumPoint> points;
  points.reserve(values.size());
  double high = 0.0, low = 0.0;
  for (const double value : values) {
    high = std::max(0.0, high + value - target - k * sd);
    low = std::max(0.0, low + target - k * sd - value);
    points.push_back({high, low, high > h * sd || low > h * sd});
  }
  return points;
}

std::optional<double> sd_from_moving_range(std::span<const double> values) {
  if (values.size() < 2) return std::nullopt;
  constexpr double mean_range_of_two = 1.128;
  double sum = 0.0;
  for (std::size_t i = 1; i < values.size(); ++i) sum += std::fabs(values[i] - values[i - 1]);
  return sum / static_cast<double>(values.size() - 1) / mean_range_of_two;
}

}  // namespace redd::numerics
