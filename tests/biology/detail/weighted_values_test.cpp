#include "biology/detail/weighted_values.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <vector>

namespace redd::biology::detail {
namespace {

TEST(WeightedValues, QuantilesOfEqualWeights) {
  const WeightedValues values({{3, 1}, {1, 1}, {2, 1}, {4, 1}});
  EXPECT_DOUBLE_EQ(values.quantile(0.5), 2.5);
  EXPECT_DOUBLE_EQ(values.quantile(0.125), 1.0);
  EXPECT_DOUBLE_EQ(values.quantile(0.0), 1.0);
  EXPECT_DOUBLE_EQ(values.quantile(1.0), 4.0);
}

TEST(WeightedValues, IgnoreValuesWithoutWeight) {
  const WeightedValues values({{1, 0}, {2, 1}, {9, 0}});
  EXPECT_DOUBLE_EQ(values.quantile(0.1), 2.0);
  EXPECT_DOUBLE_EQ(values.quantile(0.9), 2.0);
}

TEST(EvenPoints, DivideEverySideIntoEqualSteps) {
  const EvenPoints points(11);
  ASSERT_EQ(points.count(), 2048u);
  for (std::size_t d = 0; d < EvenPoints::dimensions; ++d) {
    std::vector<int> hits(2048, 0);
    for (std::size_t i = 0; i < 2048; ++i) ++hits[static_cast<std::size_t>(points.point(i)[d] * 2048.0)];
    EXPECT_TRUE(std::all_of(hits.begin(), hits.end(), [](int n) { return n == 1; })) << d;
  }
}

// Every pair of sides: an 8 x 8 board with 32 points a square if perfect.
TEST(EvenPoints, FillEveryPairOfSidesEvenly) {
  const EvenPoints points(11);
  for (std::size_t a = 0; a < EvenPoints::dimensions; ++a)
    for (std::size_t b = 0; b < a; ++b) {
      std::array<int, 64> squares{};
      for (std::size_t i = 0; i < points.count(); ++i) {
        const auto p = points.point(i);
        ++squares[static_cast<std::size_t>(p[a] * 8.0) * 8 + static_cast<std::size_t>(p[b] * 8.0)];
      }
      for (const int n : squares) EXPECT_NEAR(n, 32, 4) << a << " " << b;
    }
}

}  // namespace
}  // namespace redd::biology::detail
