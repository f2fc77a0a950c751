#include "inference/smc_reference.h"

#include <algorithm>
#include <cmath>

#include "numerics/lanes.h"

namespace redd::inference {
namespace {

using numerics::ParticleTable;
using numerics::SquareMatrix;

/// A finite sample's fit is narrower than what it stands for, and a narrow proposal keeps the next sample narrow. So the fit is widened; and
/// where all directions are fitted, part of the correlations, which forty dimensions and some tens of independent particles cannot
/// tell from chance, is given up.
/// Assumed: all figures, from the spread and repeatability of answers over seeds (docs/science/inference.md).
constexpr double informed_widening = 1.1, widening = 1.15, given_up_correlation = 0.05;
/// Information, against the prior's 1, from which a direction counts as told of; and the most such directions.
constexpr double least_information = 0.1;
constexpr std::size_t most_informed = 24;

/// Inverse of a lower triangular matrix.
SquareMatrix inverse_of_triangle(const SquareMatrix& root) {
  const std::size_t n = root.size();
  SquareMatrix inverse(n);
  for (std::size_t column = 0; column < n; ++column) {
    inverse(column, column) = 1.0 / root(column, column);
    for (std::size_t row = column + 1; row < n; ++row) {
      double sum = 0.0;
      for (std::size_t k = column; k < row; ++k) sum -= root(row, k) * inverse(k, column);
      inverse(row, column) = sum / root(row, row);
    }
  }
  return inverse;
}

SquareMatrix identity(std::size_t rows) {
  SquareMatrix one(rows);
  for (std::size_t row = 0; row < rows; ++row) one(row, row) = 1.0;
  return one;
}

}  // namespace

void multiply(const SquareMatrix& matrix, const ParticleTable& from, ParticleTable& to) {
  using numerics::Lanes, numerics::lane_count;
  const std::size_t n = matrix.size(), columns = from.columns(), in_lanes = columns / lane_count * lane_count;
  for (std::size_t row = 0; row < n; ++row) {
    const auto result = to.row(row);
    for (std::size_t i = 0; i < in_lanes; i += lane_count) {
      Lanes sum{};
      for (std::size_t k = 0; k < n; ++k) sum += matrix(row, k) * numerics::load(from.row(k).data() + i);
      numerics::store(sum, result.data() + i);
    }
    for (std::size_t i = in_lanes; i < columns; ++i) {
      result[i] = 0.0;
      for (std::size_t k = 0; k < n; ++k) result[i] += matrix(row, k) * from(k, i);
    }
  }
}

Reference fitted_reference(const ParticleTable& unknowns, std::span<const double> weights) {
  const std::size_t rows = unknowns.rows();
  Reference reference{std::vector<double>(rows), SquareMatrix(rows), SquareMatrix(rows), rows};
  auto fit = numerics::fitted_normal(unknowns, weights, rows, given_up_correlation);
  if (!fit) {  // no spread left in some coordinate: go by the prior's own shape
    for (std::size_t row = 0; row < rows; ++row) {
      reference.mean[row] = numerics::weighted_mean(unknowns.row(row), weights);
      reference.out(row, row) = widening;
      reference.in(row, row) = 1.0 / widening;
    }
    return reference;
  }
  for (std::size_t row = 0; row < rows; ++row)
    for (std::size_t column = 0; column <= row; ++column) fit->root(row, column) *= widening;
  return {std::move(fit->mean), fit->root, inverse_of_triangle(fit->root), rows};
}

Reference informed_reference(const ParticleTable& unknowns, std::span<const double> weights, const SquareMatrix& information) {
  const std::size_t rows = unknowns.rows();
  const numerics::Eigen eigen = numerics::symmetric_eigen(information);
  std::size_t informed = 0;
  while (informed < std::min(rows, most_informed) && eigen.values[informed] > least_information) ++informed;
  if (informed == 0) return {std::vector<double>(rows), identity(rows), identity(rows), 0};  // nothing is told: the prior
  SquareMatrix across(rows);  // row k: direction k
  for (std::size_t k = 0; k < rows; ++k)
    for (std::size_t row = 0; row < rows; ++row) across(k, row) = eigen.vectors(row, k);
  ParticleTable along(rows, unknowns.columns());
  multiply(across, unknowns, along);
  auto fit = numerics::fitted_normal(along, weights, informed, 0.0);
  if (!fit) return fitted_reference(unknowns, weights);
  for (std::size_t row = 0; row < informed; ++row)
    for (std::size_t column = 0; column <= row; ++column) fit->root(row, column) *= informed_widening;
  const SquareMatrix inverse = inverse_of_triangle(fit->root);
  Reference reference{std::vector<double>(rows), SquareMatrix(rows), SquareMatrix(rows), informed};
  for (std::size_t row = 0; row < rows; ++row) {
    for (std::size_t k = 0; k < informed; ++k) {
      reference.mean[row] += across(k, row) * fit->mean[k];
      for (std::size_t j = 0; j < informed; ++j) {
        reference.out(row, k) += across(j, row) * fit->root(j, k);
        reference.in(k, row) += inverse(k, j) * across(j, row);
      }
    }
    for (std::size_t k = informed; k < rows; ++k) reference.out(row, k) = reference.in(k, row) = across(k, row);
  }
  return reference;
}

}  // namespace redd::inference
