#include "numerics/random.h"

#include <cmath>

#include "numerics/normal.h"

namespace redd::numerics {

double RandomStream::uniform() {
  const std::uint64_t high = next_word();
  const std::uint64_t bits = ((high << 32) | next_word()) >> 12;  // 52 bits; the half step below keeps clear of 0 and 1
  return (static_cast<double>(bits) + 0.5) * 0x1p-52;
}

double RandomStream::uniform_between(double low, double high) { return low + (high - low) * uniform(); }

double RandomStream::normal() { return normal_quantile(uniform()); }

double RandomStream::exponential() { return -std::log(uniform()); }

double RandomStream::gamma(double shape) {
  if (shape < 1.0) {  // boost: a gamma(shape) value is a gamma(shape + 1) value times U^(1/shape)
    const double boosted = gamma(shape + 1.0);
    return boosted * std::pow(uniform(), 1.0 / shape);
  }
  const double d = shape - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double x = normal();
    const double cube_root = 1.0 + c * x;
    const double u = uniform();
    if (cube_root <= 0.0) continue;
    const double v = cube_root * cube_root * cube_root;
    if (std::log(u) < 0.5 * x * x + d - d * v + d * std::log(v)) return d * v;
  }
}

double RandomStream::beta(double a, double b) {
  const double x = gamma(a);
  const double y = gamma(b);
  return x / (x + y);
}

std::int64_t RandomStream::poisson(double mean) {
  // Large means are split by the time of the m-th event (a gamma value), after which either all m happened and the rest
  // of the interval remains, or the m - 1 earlier ones are uniform before it: a binomial. Ahrens & Dieter's idea, exact.
  std::int64_t count = 0;
  while (mean > 30.0) {
    const auto m = static_cast<std::int64_t>(mean * 7.0 / 8.0);
    const double time = gamma(static_cast<double>(m));
    if (time > mean) return count + binomial(m - 1, mean / time);
    count += m;
    mean -= time;
  }
  if (!(mean > 0.0)) return count;
  for (double time = exponential(); time <= mean; time += exponential()) ++count;
  return count;
}

std::int64_t RandomStream::binomial(std::int64_t trials, double probability) {
  std::int64_t successes = 0;
  while (trials > 30 && probability > 0.0 && probability < 1.0) {
    // The i-th smallest of the trials' uniforms is beta distributed; it tells how many lie on either side.
    const std::int64_t i = trials / 2 + 1;
    const double middle = beta(static_cast<double>(i), static_cast<double>(trials + 1 - i));
    if (middle <= probability) {
      successes += i;
      trials -= i;
      probability = (probability - middle) / (1.0 - middle);
    } else {
      trials = i - 1;
      probability /= middle;
    }
  }
  for (std::int64_t i = 0; i < trials; ++i) successes += chance(probability) ? 1 : 0;
  return successes;
}

std::uint32_t RandomStream::index_below(std::uint32_t count) {
  const std::uint32_t rejected_below = (0u - count) % count;  // words below this would make the first indices likelier
  for (;;) {
    const std::uint64_t product = std::uint64_t{next_word()} * count;
    if (static_cast<std::uint32_t>(product) >= rejected_below) return static_cast<std::uint32_t>(product >> 32);
  }
}

}  // namespace redd::numerics
