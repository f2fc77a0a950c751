#pragma once
// The lot's departures from the three curves as one small Gaussian, updated exactly by what was seen.

#include <array>

namespace redd::biology::detail {

using Triple = std::array<double, 3>;

/// x = ln(threshold) of eyed, hatch and swim-up: a lot passes a stage when its progress is exp(x).
class LotErrors {
 public:
  /// hatch ~ N(0, hatch_sd), eyed = hatch + N(0, eyed_extra_sd), swim-up = 0.7 hatch + N(0, swim_up_own_sd).
  LotErrors(double hatch_sd, double eyed_extra_sd, double swim_up_own_sd);

  double mean(std::size_t stage) const { return mean_[stage]; }
  double variance(std::size_t stage) const { return covariance_[stage][stage]; }

  /// Learns that x[stage] was measured as value with this noise. Returns the log density of the value before learning.
  double learn_value(std::size_t stage, double value, double noise_variance);

  /// What learn_not_yet used in place of the true factor, for the exact correction afterwards.
  struct StandIn {
    double log_scale, value, variance;  ///< variance 0: the factor taught nothing, log_scale alone
  };
  /// Learns that x[stage] + noise lies above `bound`, by the Gaussian with the same first two moments.
  StandIn learn_not_yet(std::size_t stage, double bound, double noise_variance, double* log_evidence);

  /// Makes the lot's doubt larger around the same middle: variance times factor.
  void widen(double factor);

  /// One draw from three standard normal values.
  Triple draw(const Triple& normals) const;

 private:
  Triple mean_{};
  std::array<Triple, 3> covariance_{};
};

/// The part of the swim-up departure explained by the hatch departure.
/// Assumed: a lot that hatched early swims up early, but yolk use is not paced by hatching alone.
inline constexpr double swim_up_follows_hatch = 0.7;

}  // namespace redd::biology::detail
