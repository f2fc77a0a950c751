#include "numerics/random.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <vector>

namespace redd::numerics {
namespace {

struct Moments {
  double mean, variance;
};

template <class Draw>
Moments moments(int count, Draw&& draw) {
  double sum = 0.0, squares = 0.0;
  for (int i = 0; i < count; ++i) {
    const double value = draw();
    sum += value;
    squares += value * value;
  }
  const double mean = sum / count;
  return {mean, squares / count - mean * mean};
}

TEST(RandomStream, SameSeedAndLabelsGiveTheSameNumbers) {
  RandomStream a(42, 1, 2, 3), b(42, 1, 2, 3), other_item(42, 1, 3, 3), other_seed(43, 1, 2, 3);
  for (int i = 0; i < 10; ++i) {
    const double value = a.uniform();
    EXPECT_EQ(value, b.uniform());
    EXPECT_NE(value, other_item.uniform());
    EXPECT_NE(value, other_seed.uniform());
  }
}

TEST(RandomStream, FirstValuesStayTheSameOnEveryMachine) {  // our own values: a change would move every forecast
  RandomStream stream(20310901, 5);
  EXPECT_EQ(stream.next_word(), philox4x32({0, 5, 0, 0}, {20310901, 0})[0]);
}

TEST(RandomStream, UniformStaysInsideAndHasItsMoments) {
  RandomStream stream(1);
  const auto found = moments(200000, [&] {
    const double value = stream.uniform();
    EXPECT_TRUE(value > 0.0 && value < 1.0);
    return value;
  });
  EXPECT_NEAR(found.mean, 0.5, 0.003);
  EXPECT_NEAR(found.variance, 1.0 / 12.0, 0.001);
}

TEST(RandomStream, DistributionsHaveTheirMoments) {
  RandomStream stream(7);
  const auto near = [](const Moments& found, double mean, double variance, const char* what) {
    EXPECT_NEAR(found.mean, mean, 4.0 * std::sqrt(variance / 100000)) << what;
    EXPECT_NEAR(found.variance / variance, 1.0, 0.05) << what;
  };
  near(moments(100000, [&] { return stream.normal(); }), 0.0, 1.0, "normal");
  near(moments(100000, [&] { return stream.normal(3.0, 2.0); }), 3.0, 4.0, "normal with mean");
  near(moments(100000, [&] { return stream.exponential(); }), 1.0, 1.0, "exponential");
  near(moments(100000, [&] { return stream.gamma(0.4); }), 0.4, 0.4, "gamma, small shape");
  near(moments(100000, [&] { return stream.gamma(5.0); }), 5.0, 5.0, "gamma");
  near(moments(100000, [&] { return stream.beta(2.0, 3.0); }), 0.4, 0.04, "beta");
  near(moments(100000, [&] { return static_cast<double>(stream.poisson(0.7)); }), 0.7, 0.7, "poisson, small");
  near(moments(100000, [&] { return static_cast<double>(stream.poisson(140.0)); }), 140.0, 140.0, "poisson, large");
  near(moments(100000, [&] { return static_cast<double>(stream.binomial(12, 0.3)); }), 3.6, 2.52, "binomial, few");
  near(moments(100000, [&] { return static_cast<double>(stream.binomial(400, 0.05)); }), 20.0, 19.0, "binomial, many");
  near(moments(100000, [&] { return static_cast<double>(stream.index_below(6)); }), 2.5, 35.0 / 12.0, "index");
}

TEST(RandomStream, EdgeCasesOfCounts) {
  RandomStream stream(3);
  EXPECT_EQ(stream.poisson(0.0), 0);
  EXPECT_EQ(stream.binomial(100, 0.0), 0);
  EXPECT_EQ(stream.binomial(100, 1.0), 100);
  EXPECT_EQ(stream.binomial(0, 0.5), 0);
  EXPECT_EQ(stream.index_below(1), 0u);
}

TEST(RandomStream, ShuffleKeepsEveryItem) {
  RandomStream stream(3);
  std::vector<int> items(50);
  std::iota(items.begin(), items.end(), 0);
  auto mixed = items;
  stream.shuffle(std::span<int>(mixed));
  EXPECT_NE(mixed, items);
  std::sort(mixed.begin(), mixed.end());
  EXPECT_EQ(mixed, items);
}

}  // namespace
}  // namespace redd::numerics
