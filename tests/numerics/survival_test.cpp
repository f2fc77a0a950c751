#include "numerics/survival.h"

#include <gtest/gtest.h>

#include <cmath>

namespace redd::numerics {
namespace {

TEST(KaplanMeier, WithoutLeaversIsTheShareThatLives) {
  const auto points = kaplan_meier(std::vector<LotChange>{{0, 50, 0, 0}, {3, 0, 5, 0}, {7, 0, 10, 0}});
  ASSERT_EQ(points.size(), 2u);
  EXPECT_DOUBLE_EQ(points[0].survival.mid, 0.9);
  EXPECT_DOUBLE_EQ(points[1].survival.mid, 0.7);
  EXPECT_NEAR(points[1].standard_error, std::sqrt(0.7 * 0.3 / 50), 1e-12);  // Greenwood is then the binomial error
}

TEST(KaplanMeier, CountsLeaversAsAtRiskUntilTheyLeave) {
  const auto points = kaplan_meier(std::vector<LotChange>{{0, 10, 0, 0}, {2, 0, 1, 4}, {5, 0, 1, 0}});
  EXPECT_DOUBLE_EQ(points[0].at_risk, 10);
  EXPECT_DOUBLE_EQ(points[1].at_risk, 5);
  EXPECT_DOUBLE_EQ(points[1].survival.mid, 0.9 * 0.8);
}

TEST(KaplanMeier, TakesLateComersInWhenTheyCome) {
  const auto points = kaplan_meier(std::vector<LotChange>{{0, 10, 1, 0}, {4, 90, 0, 0}, {5, 0, 9, 0}});
  EXPECT_DOUBLE_EQ(points[0].survival.mid, 0.9);
  EXPECT_DOUBLE_EQ(points[1].at_risk, 99);
}

TEST(KaplanMeier, OfALotThatDiedOutEndsAtNoughtWithDoubt) {
  const auto points = kaplan_meier(std::vector<LotChange>{{0, 4, 0, 0}, {1, 0, 4, 0}});
  EXPECT_EQ(points[0].survival.mid, 0.0);
  EXPECT_GT(points[0].survival.high, 0.3);
}

TEST(KaplanMeier, SaysWhenMoreDiedThanThereWere) {
  const auto points = kaplan_meier(std::vector<LotChange>{{0, 3, 0, 0}, {1, 0, 5, 0}, {2, 0, 1, 0}});
  EXPECT_TRUE(points[0].capped);
  EXPECT_EQ(points[0].died, 3.0);
  EXPECT_EQ(points[1].survival.mid, 0.0);
  EXPECT_TRUE(std::isfinite(points[1].survival.high));
}

TEST(KaplanMeier, ADeathWhereNobodyIsLeftSaysNothing) {
  const std::vector<LotChange> changes{{0, 2, 0, 2}, {1, 0, 1, 0}};  // both left, then one found dead
  const auto points = kaplan_meier(changes);
  ASSERT_EQ(points.size(), 1u);
  EXPECT_TRUE(points[0].capped);
  EXPECT_EQ(points[0].survival.low, 0.0);
  EXPECT_EQ(points[0].survival.mid, 1.0);
  EXPECT_EQ(points[0].survival.high, 1.0);
}

}  // namespace
}  // namespace redd::numerics
