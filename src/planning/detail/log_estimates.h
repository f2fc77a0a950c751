#pragma once
// Positive numbers whose doubt is a factor: products and quotients of independent ones, and the chance that one exceeds another. Each is taken as
// lognormal with its own spread below and above the middle.

#include <algorithm>
#include <cmath>

#include "numerics/normal.h"
#include "quantities/estimate.h"

namespace redd::planning {

inline constexpr double ninety_percent_z = 1.6448536269514722;
/// Smaller is taken as this: a capacity of nothing has no logarithm.
inline constexpr double least_positive = 1e-9;

struct LogSpread {
  double mid, below, above;  ///< natural logarithms; distances of the 5 % and 95 % points
};
inline LogSpread log_spread(const Estimate<double>& e) {
  const double low = std::log(std::max(e.low, least_positive)), mid = std::log(std::max(e.mid, least_positive)), high = std::log(std::max(e.high, least_positive));
  return {mid, std::max(0.0, mid - low), std::max(0.0, high - mid)};
}
inline Estimate<double> from_log(double mid, double below, double above, Support support) {
  return {std::exp(mid - below), std::exp(mid), std::exp(mid + above), support};
}

inline Support weaker(Support a, Support b) { return std::max(a, b); }

inline Estimate<double> product(const Estimate<double>& a, const Estimate<double>& b) {
  const LogSpread x = log_spread(a), y = log_spread(b);
  return from_log(x.mid + y.mid, std::hypot(x.below, y.below), std::hypot(x.above, y.above), weaker(a.support, b.support));
}
inline Estimate<double> quotient(const Estimate<double>& a, const Estimate<double>& b) {
  const LogSpread x = log_spread(a), y = log_spread(b);
  return from_log(x.mid - y.mid, std::hypot(x.below, y.above), std::hypot(x.above, y.below), weaker(a.support, b.support));
}
/// Low with low and high with high: what is added here rises and falls together.
inline Estimate<double> sum(const Estimate<double>& a, const Estimate<double>& b) { return {a.low + b.low, a.mid + b.mid, a.high + b.high, weaker(a.support, b.support)}; }
inline Estimate<double> times(double factor, const Estimate<double>& a) { return {factor * a.low, factor * a.mid, factor * a.high, a.support}; }

/// Chance that `value` exceeds `limit`, a number in doubt.
inline double chance_above(double value, const Estimate<double>& limit) {
  if (value <= 0.0) return 0.0;
  const LogSpread x = log_spread(limit);
  const double distance = std::log(value) - x.mid, spread = std::max(distance < 0.0 ? x.below : x.above, 1e-6);
  return numerics::normal_cdf(ninety_percent_z * distance / spread);
}

}  // namespace redd::planning
