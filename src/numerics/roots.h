#pragma once
// The root of a continuous function between two ends where its sign differs. Start at root_between().

#include <cmath>
#include <optional>

namespace redd::numerics {

/// Root of f in [low, high] by Chandrupatla's method (bisection that uses inverse quadratic steps where they are safe).
///
/// In      f: double -> double, continuous; f(low) and f(high) of opposite sign or one of them zero.
///         tolerance: wanted width of the last bracket, in x.
/// Out     x with the root within `tolerance` of it; nothing when the signs do not differ or a value is not finite.
/// Shape   about 6-12 calls of f for a smooth function; allocates nothing.
/// Source  [chandrupatla1997].
template <class F>
std::optional<double> root_between(F&& f, double low, double high, double tolerance) {
  double a = high, b = low, c = high;  // b is the newest end, a the other end of the bracket, c the point before
  double fa = f(a), fb = f(b), fc = fa;
  if (!std::isfinite(fa) || !std::isfinite(fb)) return std::nullopt;
  if (fa == 0.0) return a;
  if (fb == 0.0) return b;
  if ((fa > 0.0) == (fb > 0.0)) return std::nullopt;
  double t = 0.5;
  for (int i = 0; i < 200; ++i) {  // bisection alone needs fewer than 200 halvings of any double interval met here
    const double x = a + t * (b - a);
    const double fx = f(x);
    if (!std::isfinite(fx)) return std::nullopt;
    if ((fx > 0.0) == (fa > 0.0)) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const double best = std::fabs(fa) < std::fabs(fb) ? a : b;
    const double width = std::fabs(b - a);
    const double least_step = 2e-16 * std::fabs(best) + 0.5 * tolerance;
    if (fa == 0.0 || width <= 2.0 * least_step) return best;
    const double t_least = least_step / width;
    // Inverse quadratic interpolation only where Chandrupatla's test shows the three points bend gently.
    const double xi = (a - b) / (c - b);
    const double phi = (fa - fb) / (fc - fb);
    if (phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi)
      t = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
    else
      t = 0.5;
    t = std::fmin(1.0 - t_least, std::fmax(t_least, t));
  }
  return 0.5 * (a + b);
}

}  // namespace redd::numerics
