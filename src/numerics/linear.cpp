#include "numerics/linear.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <utility>

namespace redd::numerics {

std::optional<std::vector<double>> solved(SquareMatrix matrix, std::vector<double> right_side) {
  const std::size_t n = matrix.size();
  for (std::size_t pivot = 0; pivot < n; ++pivot) {
    std::size_t best = pivot;
    for (std::size_t row = pivot + 1; row < n; ++row)
      if (std::fabs(matrix(row, pivot)) > std::fabs(matrix(best, pivot))) best = row;
    if (!(std::fabs(matrix(best, pivot)) > 0.0)) return std::nullopt;
    if (best != pivot) {
      for (std::size_t column = pivot; column < n; ++column) std::swap(matrix(best, column), matrix(pivot, column));
      std::swap(right_side[best], right_side[pivot]);
    }
    for (std::size_t row = pivot + 1; row < n; ++row) {
      const double factor = matrix(row, pivot) / matrix(pivot, pivot);
      if (factor == 0.0) continue;
      for (std::size_t column = pivot + 1; column < n; ++column) matrix(row, column) -= factor * matrix(pivot, column);
      right_side[row] -= factor * right_side[pivot];
    }
  }
  for (std::size_t row = n; row-- > 0;) {
    for (std::size_t column = row + 1; column < n; ++column) right_side[row] -= matrix(row, column) * right_side[column];
    right_side[row] /= matrix(row, row);
  }
  return right_side;
}

Eigen symmetric_eigen(SquareMatrix matrix) {
  const std::size_t n = matrix.size();
  SquareMatrix turned(n);  // row k is eigenvector k
  double size = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    turned(i, i) = 1.0;
    for (std::size_t j = 0; j < n; ++j) size += matrix(i, j) * matrix(i, j);
  }
  const double negligible = 1e-13 * std::sqrt(size) / static_cast<double>(n);
  bool settled = false;
  for (int sweep = 0; sweep < 30 && !settled; ++sweep) {
    settled = true;
    for (std::size_t p = 0; p + 1 < n; ++p)
      for (std::size_t q = p + 1; q < n; ++q) {
        const double off = matrix(p, q);
        if (!(std::fabs(off) > negligible)) continue;
        settled = false;
        const double theta = 0.5 * (matrix(q, q) - matrix(p, p)) / off;
        const double t = (theta < 0.0 ? -1.0 : 1.0) / (std::fabs(theta) + std::sqrt(1.0 + theta * theta));
        const double c = 1.0 / std::sqrt(1.0 + t * t), s = t * c;
        for (std::size_t k = 0; k < n; ++k) {
          const double a = matrix(p, k), b = matrix(q, k);
          matrix(p, k) = c * a - s * b;
          matrix(q, k) = s * a + c * b;
          const double u = turned(p, k), v = turned(q, k);
          turned(p, k) = c * u - s * v;
          turned(q, k) = s * u + c * v;
        }
        for (std::size_t k = 0; k < n; ++k) {
          const double a = matrix(k, p), b = matrix(k, q);
          matrix(k, p) = c * a - s * b;
          matrix(k, q) = s * a + c * b;
        }
      }
  }
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::sort(order, [&](std::size_t a, std::size_t b) { return matrix(a, a) != matrix(b, b) ? matrix(a, a) > matrix(b, b) : a < b; });
  Eigen eigen{std::vector<double>(n), SquareMatrix(n)};
  for (std::size_t k = 0; k < n; ++k) {
    eigen.values[k] = matrix(order[k], order[k]);
    for (std::size_t i = 0; i < n; ++i) eigen.vectors(i, k) = turned(order[k], i);
  }
  return eigen;
}

Quadrature gauss_legendre(std::size_t count, double low, double high) {
  Quadrature rule{std::vector<double>(count), std::vector<double>(count)};
  const double n = static_cast<double>(count);
  const double half_width = 0.5 * (high - low);
  const double middle = 0.5 * (high + low);
  for (std::size_t i = 0; i < (count + 1) / 2; ++i) {
    // Newton on the Legendre polynomial from its well-known cosine estimate; converges in a few steps.
    double x = std::cos(std::numbers::pi * (static_cast<double>(i) + 0.75) / (n + 0.5));
    double slope = 0.0;
    for (int step = 0; step < 100; ++step) {
      double p0 = 1.0, p1 = 0.0;
      for (std::size_t j = 0; j < count; ++j) {
        const double k = static_cast<double>(j);
        const double p2 = p1;
        p1 = p0;
        p0 = ((2.0 * k + 1.0) * x * p1 - k * p2) / (k + 1.0);
      }
      slope = n * (x * p0 - p1) / (x * x - 1.0);
      const double change = p0 / slope;
      x -= change;
      if (std::fabs(change) < 1e-15) break;
    }
    const double weight = half_width * 2.0 / ((1.0 - x * x) * slope * slope);
    rule.nodes[i] = middle - half_width * x;
    rule.nodes[count - 1 - i] = middle + half_width * x;
    rule.weights[i] = weight;
    rule.weights[count - 1 - i] = weight;
  }
  return rule;
}

}  // namespace redd::numerics
