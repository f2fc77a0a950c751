#pragma once
// Random numbers that depend on a seed and a place only, so that the same season gives the same page on every machine.
// Start at RandomStream. The generator is counter-based: number n of a stream needs no memory of the n - 1 before it.

#include <array>
#include <cstdint>
#include <span>
#include <utility>

namespace redd::numerics {

using PhiloxCounter = std::array<std::uint32_t, 4>;
using PhiloxKey = std::array<std::uint32_t, 2>;

/// Four random words from a counter and a key: Philox4x32 with 10 rounds.
/// Source  [salmon2011].
constexpr PhiloxCounter philox4x32(PhiloxCounter counter, PhiloxKey key) {
  for (int round = 0; round < 10; ++round) {
    const std::uint64_t product_0 = std::uint64_t{0xD2511F53u} * counter[0];
    const std::uint64_t product_1 = std::uint64_t{0xCD9E8D57u} * counter[2];
    counter = {static_cast<std::uint32_t>(product_1 >> 32) ^ counter[1] ^ key[0], static_cast<std::uint32_t>(product_1),
               static_cast<std::uint32_t>(product_0 >> 32) ^ counter[3] ^ key[1], static_cast<std::uint32_t>(product_0)};
    key[0] += 0x9E3779B9u;
    key[1] += 0xBB67AE85u;
  }
  return counter;
}

/// A sequence of random numbers, named by a seed and up to three labels (say purpose, particle, step). Streams with different labels
/// are independent; the same labels always give the same numbers. Each stream holds 2^34 words.
class RandomStream {
 public:
  explicit constexpr RandomStream(std::uint64_t seed, std::uint32_t purpose = 0, std::uint32_t item = 0, std::uint32_t step = 0)
      : key_{static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32)}, counter_{0, purpose, item, step} {}

  constexpr std::uint32_t next_word() {
    if (used_ == 4) {
      words_ = philox4x32(counter_, key_);
      ++counter_[0];
      used_ = 0;
    }
    return words_[static_cast<std::size_t>(used_++)];
  }

  /// Uniform, strictly between 0 and 1 (53 bits, centred), so that its logarithm and its normal quantile are finite.
  double uniform();
  double uniform_between(double low, double high);
  /// One normal value from one uniform value (by the quantile), so that streams stay in step.
  double normal();
  double normal(double mean, double standard_deviation) { return mean + standard_deviation * normal(); }
  /// Mean 1.
  double exponential();
  /// Gamma with this shape (> 0) and scale 1. Source [marsaglia2000].
  double gamma(double shape);
  double beta(double a, double b);
  bool chance(double probability) { return uniform() < probability; }
  /// Number of events of a Poisson process with this mean (>= 0, at most 1e9). Exact.
  std::int64_t poisson(double mean);
  /// Successes in this many trials. Exact: beta splitting (order statistics), then single trials.
  std::int64_t binomial(std::int64_t trials, double probability);
  /// A whole number 0 ... count-1, each equally likely without modulo bias. count >= 1.
  std::uint32_t index_below(std::uint32_t count);
  /// Reorders the items, every order equally likely.
  template <class T>
  void shuffle(std::span<T> items) {
    for (std::size_t i = items.size(); i > 1; --i) {
      using std::swap;
      swap(items[i - 1], items[index_below(static_cast<std::uint32_t>(i))]);
    }
  }

 private:
  PhiloxKey key_;
  PhiloxCounter counter_;
  PhiloxCounter words_{};
  int used_ = 4;
};

}  // namespace redd::numerics
