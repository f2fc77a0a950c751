#include "numerics/proportions.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "numerics/roots.h"

namespace redd::numerics {
namespace {

/// The continued fraction of the incomplete beta function; converges fast for x below (a + 1) / (a + b + 2).
double continued_fraction(double x, double a, double b) {
  constexpr double tiny = 1e-300, enough = 1e-15;
  double c = 1.0, d = 1.0 - (a + b) * x / (a + 1.0);
  d = 1.0 / (std::fabs(d) < tiny ? tiny : d);
  double value = d;
  const auto step = [&](double numerator) {
    d = 1.0 + numerator * d;
    d = 1.0 / (std::fabs(d) < tiny ? tiny : d);
    c = 1.0 + numerator / c;
    if (std::fabs(c) < tiny) c = tiny;
    value *= d * c;
  };
  for (int m = 1; m < 20000; ++m) {
    step(m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m)));
    step(-(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0)));
    if (std::fabs(d * c - 1.0) < enough) break;
  }
  return value;
}

}  // namespace

double beta_share(double x, double a, double b) {
  if (!(x >= 0.0 && x <= 1.0) || !(a > 0.0 && b > 0.0)) return std::numeric_limits<double>::quiet_NaN();
  if (x == 0.0 || x == 1.0) return x;
  const double front = std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x));
  const double share = x < (a + 1.0) / (a + b + 2.0) ? front * continued_fraction(x, a, b) / a : 1.0 - front * continued_fraction(1.0 - x, b, a) / b;
  return std::clamp(share, 0.0, 1.0);
}

Range90 exact_share(double hits, double trials, double level) {
  const double tail = 0.5 * (1.0 - level), mid = hits / trials;
  const auto quantile = [](double share, double a, double b) {
    return root_between([&](double x) { return beta_share(x, a, b) - share; }, 0.0, 1.0, 1e-13);
  };
  const double low = hits > 0.0 ? quantile(tail, hits, trials - hits + 1.0).value_or(0.0) : 0.0;
  const double high = hits < trials ? quantile(1.0 - tail, hits + 1.0, trials - hits).value_or(1.0) : 1.0;
  return {std::min(low, mid), mid, std::max(high, mid)};
}

Range90 total_from_part(double seen, double looked_at_fraction, double clump, double level) {
  if (looked_at_fraction >= 1.0) return {seen, seen, seen};
  const double tail = 0.5 * (1.0 - level), clumps = seen / clump, mid = seen / looked_at_fraction;
  // At least so many are found, or at most so many, with a chance that falls or rises with the total.
  const auto at_least = [&](double total) { return beta_share(looked_at_fraction, clumps, total - clumps + 1.0); };
  const auto at_most = [&](double total) { return 1.0 - beta_share(looked_at_fraction, clumps + 1.0, total - clumps); };
  const double far = (clumps + 10.0) * 20.0 / looked_at_fraction, least = clumps + 1e-9;
  const double low = clumps > 0.0 && at_least(least) < tail ? root_between([&](double n) { return at_least(n) - tail; }, least, far, 1e-6).value_or(clumps) : clumps;
  const double high = root_between([&](double n) { return at_most(n) - tail; }, least, far, 1e-6).value_or(far);
  return {std::min(std::max(low * clump, seen), mid), mid, std::max(high * clump, mid)};
}

}  // namespace redd::numerics
