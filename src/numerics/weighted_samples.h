#pragma once
// Weighted samples ("particles"): their weights on the logarithmic scale, means, spreads and quantiles.
// Start at normalised_weights().

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "numerics/linear.h"

namespace redd::numerics {

/// Numbers of many particles: one row a coordinate, one column a particle; a row is contiguous.
class ParticleTable {
 public:
  ParticleTable() = default;
  ParticleTable(std::size_t rows, std::size_t columns) : rows_(rows), columns_(columns), entries_(rows * columns, 0.0) {}
  std::size_t rows() const { return rows_; }
  std::size_t columns() const { return columns_; }
  double& operator()(std::size_t row, std::size_t column) { return entries_[row * columns_ + column]; }
  double operator()(std::size_t row, std::size_t column) const { return entries_[row * columns_ + column]; }
  std::span<double> row(std::size_t r) { return {entries_.data() + r * columns_, columns_}; }
  std::span<const double> row(std::size_t r) const { return {entries_.data() + r * columns_, columns_}; }
  friend bool operator==(const ParticleTable&, const ParticleTable&) = default;

 private:
  std::size_t rows_ = 0, columns_ = 0;
  std::vector<double> entries_;
};

/// log of the sum of exp(values); -infinity for none or when all are -infinity.
double log_sum_exp(std::span<const double> values);

/// Weights that sum to one. Particles at -infinity (or NaN) get zero; when none is left all weights are zero.
std::vector<double> normalised_weights(std::span<const double> log_weights);

/// 1 / sum of squares of normalised weights: of how many equally weighted particles the sample is worth. Zero when none.
double effective_sample_size(std::span<const double> log_weights);

double weighted_mean(std::span<const double> values, std::span<const double> weights);
/// Root of the weighted mean square distance from the weighted mean.
double weighted_sd(std::span<const double> values, std::span<const double> weights);

/// Value below which this share of the weight lies: each value stands in the middle of its own weight, straight lines between.
double weighted_quantile(std::span<const double> values, std::span<const double> weights, double share);

/// The normal distribution with the mean and covariance of a weighted sample.
struct FittedNormal {
  std::vector<double> mean;
  SquareMatrix root;  ///< lower triangular L, covariance = L L^T
};

/// Mean and covariance of the first `rows` coordinates. `shrink` (0-1) of the covariance is replaced by its own diagonal,
/// so that a sample smaller than it should be still gives a usable matrix.
/// Errors  nothing when a coordinate has no spread or the weights are all zero.
std::optional<FittedNormal> fitted_normal(const ParticleTable& table, std::span<const double> weights, std::size_t rows, double shrink);

}  // namespace redd::numerics
