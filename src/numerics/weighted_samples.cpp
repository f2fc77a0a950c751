#include "numerics/weighted_samples.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace redd::numerics {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

double largest(std::span<const double> values) {
  double top = -infinity;
  for (const double v : values)
    if (v > top) top = v;  // NaN never wins
  return top;
}

/// Lower triangular root of a positive definite matrix; nothing when it is not.
std::optional<SquareMatrix> cholesky_root(const SquareMatrix& matrix) {
  const std::size_t n = matrix.size();
  SquareMatrix root(n);
  for (std::size_t row = 0; row < n; ++row)
    for (std::size_t column = 0; column <= row; ++column) {
      double sum = matrix(row, column);
      for (std::size_t k = 0; k < column; ++k) sum -= root(row, k) * root(column, k);
      if (row != column) {
        root(row, column) = sum / root(column, column);
      } else {
        if (!(sum > 0.0)) return std::nullopt;
        root(row, row) = std::sqrt(sum);
      }
    }
  return root;
}

}  // namespace

double log_sum_exp(std::span<const double> values) {
  const double top = largest(values);
  if (!std::isfinite(top)) return top;
  double sum = 0.0;
  for (const double v : values)
    if (v > -infinity) sum += std::exp(v - top);
  return top + std::log(sum);
}

std::vector<double> normalised_weights(std::span<const double> log_weights) {
  std::vector<double> weights(log_weights.size(), 0.0);
  const double top = largest(log_weights);
  if (!std::isfinite(top)) return weights;
  double total = 0.0;
  for (std::size_t i = 0; i < weights.size(); ++i)
    if (log_weights[i] > -infinity) total += weights[i] = std::exp(log_weights[i] - top);
  for (double& w : weights) w /= total;
  return weights;
}

double effective_sample_size(std::span<const double> log_weights) {
  const double top = largest(log_weights);
  if (!std::isfinite(top)) return 0.0;
  double sum = 0.0, squares = 0.0;
  for (const double v : log_weights) {
    if (!(v > -infinity)) continue;
    const double w = std::exp(v - top);
    sum += w;
    squares += w * w;
  }
  return sum * sum / squares;
}

double weighted_mean(std::span<const double> values, std::span<const double> weights) {
  double sum = 0.0, total = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (weights[i] > 0.0) {
      sum += weights[i] * values[i];
      total += weights[i];
    }
  return total > 0.0 ? sum / total : 0.0;
}

double weighted_sd(std::span<const double> values, std::span<const double> weights) {
  const double mean = weighted_mean(values, weights);
  double sum = 0.0, total = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (weights[i] > 0.0) {
      sum += weights[i] * (values[i] - mean) * (values[i] - mean);
      total += weights[i];
    }
  return total > 0.0 ? std::sqrt(sum / total) : 0.0;
}

double weighted_quantile(std::span<const double> values, std::span<const double> weights, double share) {
  std::vector<std::size_t> order;
  order.reserve(values.size());
  double total = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (weights[i] > 0.0) {
      order.push_back(i);
      total += weights[i];
    }
  if (order.empty()) return 0.0;
  std::ranges::sort(order, [&](std::size_t a, std::size_t b) { return values[a] != values[b] ? values[a] < values[b] : a < b; });
  const double wanted = share * total;
  double passed = 0.0, before_middle = 0.0;
  const double* before = nullptr;
  for (const std::size_t i : order) {
    const double middle = passed + weights[i] / 2.0;
    if (middle >= wanted) {
      if (!before || *before == values[i]) return values[i];
      return *before + (wanted - before_middle) / (middle - before_middle) * (values[i] - *before);
    }
    before = &values[i];
    before_middle = middle;
    passed += weights[i];
  }
  return *before;
}

std::optional<FittedNormal> fitted_normal(const ParticleTable& table, std::span<const double> weights, std::size_t rows, double shrink) {
  const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
  if (!(total > 0.0)) return std::nullopt;
  FittedNormal fit{std::vector<double>(rows), SquareMatrix(rows)};
  const std::size_t count = table.columns();
  std::vector<double> centred(rows * count);  // (value - mean) * root of weight
  for (std::size_t r = 0; r < rows; ++r) {
    fit.mean[r] = weighted_mean(table.row(r), weights);
    for (std::size_t i = 0; i < count; ++i) centred[r * count + i] = (table(r, i) - fit.mean[r]) * std::sqrt(weights[i] / total);
  }
  SquareMatrix covariance(rows);
  for (std::size_t r = 0; r < rows; ++r)
    for (std::size_t c = 0; c <= r; ++c) {
      double sum = 0.0;
      for (std::size_t i = 0; i < count; ++i) sum += centred[r * count + i] * centred[c * count + i];
      covariance(r, c) = covariance(c, r) = r == c ? sum : (1.0 - shrink) * sum;
    }
  auto root = cholesky_root(covariance);
  if (!root) return std::nullopt;
  fit.root = std::move(*root);
  return fit;
}

}  // namespace redd::numerics
