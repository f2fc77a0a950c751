#include "planning/detail/season_plan_bound.h"

#include <algorithm>
#include <cmath>

namespace redd::planning::detail {
namespace {

constexpr double cell = 1.0 / 256.0;  // wide cells: every value stands for the largest in its cell, so width costs tightness only

struct CellRange {
  std::vector<double> most, least;  // of the second derivative in each cell and a node to either side
};

CellRange second_derivatives(const Passed& passed, double begin, std::size_t cells) {
  CellRange range{std::vector<double>(cells, 0.0), std::vector<double>(cells, 0.0)};
  if (passed.empty()) return range;
  const double node = passed.node();
  const auto second = [&](double x) { return (passed.at(x + node) - 2.0 * passed.at(x) + passed.at(x - node)) / (node * node); };
  const auto steps = static_cast<std::size_t>(std::ceil(cell / node));
  for (std::size_t j = 0; j < cells; ++j)
    for (std::size_t k = 0; k <= steps + 4; ++k) {
      // The table's nodes are what carries the derivative: look at every one of them in and around the cell.
      const double x = (std::floor((begin + static_cast<double>(j) * cell) / node) - 2.0 + static_cast<double>(k)) * node;
      const double value = second(x);
      range.most[j] = std::max(range.most[j], value);
      range.least[j] = std::min(range.least[j], value);
    }
  return range;
}

}  // namespace

CurvatureSum curvature_sum(const ClockCurvature& clock) {
  const std::size_t days = clock.turns[0].size();
  const auto cells = static_cast<std::size_t>(std::ceil(std::max(0.0, clock.end - clock.begin) / cell)) + 2;
  std::array<CellRange, 2> bends;
  for (std::size_t k = 0; k < 2; ++k)
    if (clock.passed[k]) bends[k] = second_derivatives(*clock.passed[k], clock.begin, cells);
  const CellRange living = second_derivatives(*clock.living, clock.begin, cells);
  // curve[j]: largest -(second derivative) of what a path earns from the start of the day, starting in cell j. sum[j]: the answer so far.
  std::vector<double> curve(cells, 0.0), sum(cells, 0.0), next_curve(cells, 0.0), next_sum(cells, 0.0);
  const auto last = cells - 1;
  double slowest = 1e9, fastest = 0.0;
  for (const double r : clock.rate) {
    slowest = std::min(slowest, r);
    fastest = std::max(fastest, r);
  }
  const auto nearest_cell = [&](std::size_t j, double rate) { return std::min(last, j + static_cast<std::size_t>(std::floor(rate / cell))); };
  // Set-points that advance by the same whole cells count as one, with the larger rounding.
  struct Advance {
    std::size_t cells;
    double variance, early_variance;
  };
  std::vector<Advance> advances;
  for (std::size_t t = 0; t < clock.rate.size(); ++t) {
    const auto whole = static_cast<std::size_t>(std::floor(clock.rate[t] / cell));
    const double early = clock.early_variance.empty() ? clock.variance[t] : std::max(clock.variance[t], clock.early_variance[t]);
    if (advances.empty() || advances.back().cells != whole) advances.push_back({whole, 0.0, 0.0});
    advances.back().variance = std::max(advances.back().variance, clock.variance[t]);
    advances.back().early_variance = std::max(advances.back().early_variance, early);
  }
  CurvatureSum result;
  for (std::size_t d = days; d-- > 0;) {
    const bool end = d + 1 == days;
    for (std::size_t j = 0; j < cells; ++j) {
      double here = 0.0;
      for (std::size_t k = 0; k < 2; ++k)
        if (clock.passed[k] && !clock.turns[k].empty()) {
          const double turn = clock.turns[k][d];
          here += turn > 0.0 ? -turn * bends[k].least[j] : -turn * bends[k].most[j];
        }
      double ahead = 0.0, most_sum = 0.0;
      if (!end) {
        here += clock.living_weight * std::max(living.most[j], -living.least[j]);
        const std::size_t to = std::min(last, nearest_cell(j, fastest) + 1);
        ahead = -1e300;
        for (std::size_t i = nearest_cell(j, slowest); i <= to; ++i) ahead = std::max(ahead, next_curve[i]);
        const bool early = clock.begin + static_cast<double>(j) * cell < clock.rounds_early_until;
        for (const Advance& a : advances) {
          const std::size_t low = std::min(last, j + a.cells), high = std::min(last, low + 1);
          const double variance = early ? a.early_variance : a.variance;
          for (const std::size_t i : {low, high}) most_sum = std::max(most_sum, next_sum[i] + variance / 2.0 * std::max(0.0, next_curve[i]));
        }
      }
      curve[j] = here + ahead;
      sum[j] = most_sum;
      result.most = std::max(result.most, curve[j]);
    }
    std::swap(curve, next_curve);
    std::swap(sum, next_sum);
  }
  result.sum = next_sum[0];
  return result;
}

}  // namespace redd::planning::detail
