#include "numerics/scoring.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "numerics/normal.h"

namespace redd::numerics {

double interval_score(double low, double high, double missed_share, double value) {
  const double below = std::max(0.0, low - value), above = std::max(0.0, value - high);
  return high - low + 2.0 / missed_share * (below + above);
}

double mean_interval_score(double low, double high, double missed_share, double value_low, double value_high) {
  const double span = value_high - value_low;
  if (!(span > 0.0)) return interval_score(low, high, missed_share, value_low);
  // The integral of max(0, x) is x^2 / 2 where x is positive.
  const auto half_square = [](double x) { return x > 0.0 ? 0.5 * x * x : 0.0; };
  const double below = half_square(low - value_low) - half_square(low - value_high);
  const double above = half_square(value_high - high) - half_square(value_low - high);
  return high - low + 2.0 / missed_share * (below + above) / span;
}

double ranked_probability_score(std::span<const double> probabilities, std::span<const double> outcome) {
  double loss = 0.0;
  for (std::size_t hit = 0; hit < outcome.size(); ++hit) {
    if (outcome[hit] == 0.0) continue;
    double cumulative = 0.0, sum = 0.0;
    for (std::size_t k = 0; k + 1 < probabilities.size(); ++k) {
      cumulative += probabilities[k];
      const double gap = cumulative - (hit <= k ? 1.0 : 0.0);
      sum += gap * gap;
    }
    loss += outcome[hit] * sum;
  }
  return loss;
}

double crps_of_sample(std::span<const double> sorted, double value) {
  const double n = static_cast<double>(sorted.size());
  double distance = 0.0, spread = 0.0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    distance += std::abs(sorted[i] - value);
    spread += (2.0 * static_cast<double>(i) + 1.0 - n) * sorted[i];  // of a sorted sample: half the sum of all |x - x'|
  }
  return distance / n - spread / (n * n);
}

double crps_of_normal(double mean, double standard_deviation, double value) {
  const double z = (value - mean) / standard_deviation;
  return standard_deviation * (z * (2.0 * normal_cdf(z) - 1.0) + 2.0 * normal_density(z) - std::numbers::inv_sqrtpi);
}

}  // namespace redd::numerics
