#include "numerics/spread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "numerics/random.h"

namespace redd::numerics {
namespace {

using std::vector;

// Worked by hand: 4, 5, 6, 9 have mean 6, squares 4 + 1 + 0 + 9 = 14, s^2 = 14 / 3.
TEST(SpreadOf, GivesMeanDeviationErrorAndEnds) {
  const auto s = spread_of(vector<double>{4, 5, 6, 9});
  EXPECT_EQ(s.count, 4);
  EXPECT_DOUBLE_EQ(s.mean, 6.0);
  EXPECT_NEAR(s.standard_deviation, std::sqrt(14.0 / 3.0), 1e-12);
  EXPECT_NEAR(s.standard_error, std::sqrt(14.0 / 3.0) / 2.0, 1e-12);
  EXPECT_EQ(s.lowest, 4.0);
  EXPECT_EQ(s.highest, 9.0);
}

TEST(SpreadOf, OneReadingHasNone) {
  const auto s = spread_of(vector<double>{7.5});
  EXPECT_EQ(s.mean, 7.5);
  EXPECT_EQ(s.standard_deviation, 0.0);
}

TEST(PooledStandardDeviation, WeighsGroupsByTheirDegreesOfFreedom) {
  const vector<Spread> groups{spread_of(vector<double>{1, 3}), spread_of(vector<double>{5, 5, 8}), spread_of(vector<double>{2})};
  EXPECT_EQ(degrees_of_freedom(groups), 3);
  EXPECT_NEAR(pooled_standard_deviation(groups), std::sqrt((2.0 + 6.0) / 3.0), 1e-12);  // squares 2 and 6, worked by hand
  EXPECT_EQ(pooled_standard_deviation(vector<Spread>{spread_of(vector<double>{2})}), 0.0);
}

// Chi-square quantiles at 5 and 95 %, from memory of the usual table: 9: 3.325, 16.919; 4: 0.711, 9.488; 20: 10.851, 31.410.
TEST(StandardDeviationRange, ReproducesTheChiSquareTable) {
  struct Row { int freedom; double low, high; };
  for (const auto& [freedom, low, high] : {Row{4, 0.711, 9.488}, Row{9, 3.325, 16.919}, Row{20, 10.851, 31.410}}) {
    const auto range = standard_deviation_range(2.0, freedom);
    EXPECT_NEAR(range.low, 2.0 * std::sqrt(freedom / high), 0.03) << freedom;
    EXPECT_NEAR(range.high, 2.0 * std::sqrt(freedom / low), 0.08) << freedom;
  }
}

// The same table: 1: 0.00393, 3.841; 2: 0.103, 5.991; 3: 0.352, 7.815.
TEST(StandardDeviationRange, HoldsForFewReadingsToo) {
  struct Row { int freedom; double low, high, within; };
  for (const auto& [freedom, low, high, within] : {Row{1, 0.00393, 3.841, 0.001}, Row{2, 0.1026, 5.991, 0.001}, Row{3, 0.352, 7.815, 0.04}}) {
    const auto range = standard_deviation_range(2.0, freedom);
    EXPECT_NEAR(range.low / (2.0 * std::sqrt(freedom / high)), 1.0, within) << freedom;
    EXPECT_NEAR(range.high / (2.0 * std::sqrt(freedom / low)), 1.0, within) << freedom;
  }
}

TEST(StandardDeviationRange, HoldsTheTrueOneNineTimesInTen) {
  RandomStream chance(21);
  int held = 0;
  constexpr int trials = 4000;
  for (int i = 0; i < trials; ++i) {
    vector<double> values(6);
    for (double& v : values) v = chance.normal(3.0, 0.5);
    const auto range = standard_deviation_range(spread_of(values).standard_deviation, 5);
    held += range.low <= 0.5 && 0.5 <= range.high;
  }
  EXPECT_NEAR(held / double(trials), 0.9, 0.02);
}

}  // namespace
}  // namespace redd::numerics
