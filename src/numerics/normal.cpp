#include "numerics/normal.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace redd::numerics {
namespace {

constexpr double log_sqrt_two_pi = 0.91893853320467274178;
/// Beyond this the plain tail area is below 1e-300 and the asymptotic series takes over.
constexpr double far_tail = 37.0;

/// log of P(Z > z) for z > 0, good at any distance.
double log_upper_tail(double z) {
  if (z < far_tail) return std::log(normal_cdf(-z));
  // Mills ratio by its asymptotic series; at z >= 37 the first omitted term is below 1e-9.
  const double y = 1.0 / (z * z);
  return -0.5 * z * z - log_sqrt_two_pi - std::log(z) + std::log1p(-y * (1.0 - 3.0 * y * (1.0 - 5.0 * y)));
}

}  // namespace

double normal_density(double z) { return std::exp(-0.5 * z * z - log_sqrt_two_pi); }

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_quantile(double probability) {
  const double p = probability;
  if (!(p >= 0.0 && p <= 1.0)) return std::numeric_limits<double>::quiet_NaN();
  if (p == 0.0) return -std::numeric_limits<double>::infinity();
  if (p == 1.0) return std::numeric_limits<double>::infinity();
  const double q = p - 0.5;
  if (std::fabs(q) <= 0.425) {
    const double r = 0.180625 - q * q;
    const double numerator =
        (((((((2.5090809287301226727e3 * r + 3.3430575583588128105e4) * r + 6.7265770927008700853e4) * r +
             4.5921953931549871457e4) * r + 1.3731693765509461125e4) * r + 1.9715909503065514427e3) * r +
          1.3314166789178437745e2) * r + 3.3871328727963666080e0);
    const double denominator =
        (((((((5.2264952788528545610e3 * r + 2.8729085735721942674e4) * r + 3.9307895800092710610e4) * r +
             2.1213794301586595867e4) * r + 5.3941960214247511077e3) * r + 6.8718700749205790830e2) * r +
          4.2313330701600911252e1) * r + 1.0);
    return q * numerator / denominator;
  }
  double r = std::sqrt(-std::log(q < 0.0 ? p : 1.0 - p));
  double value;
  if (r <= 5.0) {
    r -= 1.6;
    value = (((((((7.74545014278341407640e-4 * r + 2.27238449892691845833e-2) * r + 2.41780725177450611770e-1) * r +
                 1.27045825245236838258e0) * r + 3.64784832476320460504e0) * r + 5.76949722146069140550e0) * r +
              4.63033784615654529590e0) * r + 1.42343711074968357734e0) /
            (((((((1.05075007164441684324e-9 * r + 5.47593808499534494600e-4) * r + 1.51986665636164571966e-2) * r +
                 1.48103976427480074590e-1) * r + 6.89767334985100004550e-1) * r + 1.67638483018380384940e0) * r +
              2.05319162663775882187e0) * r + 1.0);
  } else {
    r -= 5.0;
    value = (((((((2.01033439929228813265e-7 * r + 2.71155556874348757815e-5) * r + 1.24266094738807843860e-3) * r +
                 2.65321895265761230930e-2) * r + 2.96560571828504891230e-1) * r + 1.78482653991729133580e0) * r +
              5.46378491116411436990e0) * r + 6.65790464350110377720e0) /
            (((((((2.04426310338993978564e-15 * r + 1.42151175831644588870e-7) * r + 1.84631831751005468180e-5) * r +
                 7.86869131145613259100e-4) * r + 1.48753612908506148525e-2) * r + 1.36929880922735805310e-1) * r +
              5.99832206555887937690e-1) * r + 1.0);
  }
  return q < 0.0 ? -value : value;
}

double normal_probability_between(double low, double high) {
  if (!(high > low)) return 0.0;
  if (low > 0.0) return normal_cdf(-low) - normal_cdf(-high);
  return normal_cdf(high) - normal_cdf(low);
}

double log_normal_probability_between(double low, double high) {
  if (!(high > low)) return -std::numeric_limits<double>::infinity();
  if (high < 0.0) return log_normal_probability_between(-high, -low);  // mirror into the upper tail
  if (low <= 0.0) return std::log(normal_probability_between(low, high));
  // log(P(Z > low) - P(Z > high)) without forming either.
  const double log_low = log_upper_tail(low);
  if (std::isinf(high)) return log_low;
  const double difference = log_upper_tail(high) - log_low;
  if (difference < 0.0) return log_low + std::log(-std::expm1(difference));
  // So narrow that both tails round to the same number: density times width.
  return -0.5 * low * low - log_sqrt_two_pi + std::log(high - low);
}

}  // namespace redd::numerics
