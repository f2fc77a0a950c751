#include "biology/detail/lot_errors.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "numerics/normal.h"

namespace redd::biology::detail {
namespace {

constexpr std::size_t eyed = 0, hatch = 1, swim_up = 2;

double log_normal_density(double distance, double variance) {
  return -0.5 * (distance * distance / variance + std::log(2.0 * std::numbers::pi * variance));
}

/// ln P(Z <= z), finite far out.
double log_normal_cdf(double z) {
  return numerics::log_normal_probability_between(-std::numeric_limits<double>::infinity(), z);
}

}  // namespace

LotErrors::LotErrors(double hatch_sd, double eyed_extra_sd, double swim_up_own_sd) {
  const double h = hatch_sd * hatch_sd;
  const double c = swim_up_follows_hatch;
  covariance_[hatch] = {h, h, c * h};
  covariance_[eyed] = {h + eyed_extra_sd * eyed_extra_sd, h, c * h};
  covariance_[swim_up] = {c * h, c * h, c * c * h + swim_up_own_sd * swim_up_own_sd};
}

double LotErrors::learn_value(std::size_t stage, double value, double noise_variance) {
  const double total = variance(stage) + noise_variance;
  const double distance = value - mean_[stage];
  const Triple shared = covariance_[stage];  // one row of a symmetric matrix
  for (std::size_t i = 0; i < 3; ++i) mean_[i] += shared[i] / total * distance;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) covariance_[i][j] -= shared[i] * shared[j] / total;
  return log_normal_density(distance, total);
}

LotErrors::StandIn LotErrors::learn_not_yet(std::size_t stage, double bound, double noise_variance,
                                            double* log_evidence) {
  // Moments of a normal times a normal step, e.g. Rasmussen & Williams 2006, Gaussian Processes, section 3.9.
  const double v = variance(stage), m = mean_[stage];
  const double root = std::sqrt(v + noise_variance);
  const double z = (m - bound) / root;
  const double log_cdf = log_normal_cdf(z);
  const double ratio = std::exp(-0.5 * z * z - 0.5 * std::log(2.0 * std::numbers::pi) - log_cdf);
  *log_evidence = log_cdf;
  const double shrink = v * ratio * (z + ratio) / (v + noise_variance);
  // A bound far below teaches nothing; in numbers its stand-in would be a difference of almost equal values.
  if (!(shrink > 1e-6)) return {log_cdf, 0.0, 0.0};
  const double new_variance = v * (1.0 - std::min(shrink, 1.0 - 1e-9));
  const double new_mean = m + v * ratio / root;
  const double precision = 1.0 / new_variance - 1.0 / v;
  const StandIn stand_in{log_cdf, (new_mean / new_variance - m / v) / precision, 1.0 / precision};
  const double log_density = learn_value(stage, stand_in.value, stand_in.variance);
  return {log_cdf - log_density, stand_in.value, stand_in.variance};
}

void LotErrors::widen(double factor) {
  for (Triple& row : covariance_)
    for (double& value : row) value *= factor;
}

Triple LotErrors::draw(const Triple& normals) const {
  // Cholesky rows in the order hatch, eyed, swim-up; rounding may leave a pivot a hair below zero.
  constexpr std::array order{hatch, eyed, swim_up};
  std::array<Triple, 3> root{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = covariance_[order[i]][order[j]];
      for (std::size_t k = 0; k < j; ++k) rest -= root[i][k] * root[j][k];
      if (i == j)
        root[i][i] = std::sqrt(std::max(rest, 0.0));
      else
        root[i][j] = root[j][j] > 0.0 ? rest / root[j][j] : 0.0;
    }
  }
  Triple drawn = mean_;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t k = 0; k <= i; ++k) drawn[order[i]] += root[i][k] * normals[k];
  return drawn;
}

}  // namespace redd::biology::detail
