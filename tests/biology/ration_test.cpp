#include "biology/ration.h"

#include <gtest/gtest.h>

namespace redd::biology {
namespace {

TEST(ChartRation, GivesNothingWhereTheChartDoesNotReach) {
  EXPECT_FALSE(chart_ration_leitritz1976(Mass::from_g(0.15), Temperature::from_c(2)));
  EXPECT_FALSE(chart_ration_leitritz1976(Mass::from_g(0.15), Temperature::from_c(15)));
  EXPECT_FALSE(chart_ration_leitritz1976(Mass::from_g(2.0), Temperature::from_c(8)));
  EXPECT_TRUE(chart_ration_leitritz1976(Mass::from_g(1.4), Temperature::from_c(8)));
}

TEST(Ration, SaysWhenItLeavesItsTables) {
  EXPECT_TRUE(ration(Mass::from_g(0.2), Temperature::from_c(8)).in_table);
  EXPECT_FALSE(ration(Mass::from_g(0.2), Temperature::from_c(3)).in_table);
  EXPECT_FALSE(ration(Mass::from_g(0.2), Temperature::from_c(16)).in_table);
  EXPECT_FALSE(ration(Mass::from_g(0.05), Temperature::from_c(8)).in_table);
}

TEST(Ration, HoldsBothPublishedFigures) {
  const Mass fish = Mass::from_g(0.6);
  const auto water = Temperature::from_f(45);
  const auto share = ration(fish, water).fraction_per_day;
  EXPECT_NEAR(share.high, std::max(growth_ration_iwama1981(fish, water), 0.033), 1e-9);
  EXPECT_NEAR(share.low, std::min(growth_ration_iwama1981(fish, water), 0.033), 1e-9);
}

TEST(LongestGap, GrowsWithTheFishAndNeverInTheFirstWeeks) {
  EXPECT_EQ(longest_gap_days(Mass::from_g(5), true), 1);
  EXPECT_EQ(longest_gap_days(Mass::from_g(0.2), false), 1);
  EXPECT_EQ(longest_gap_days(Mass::from_g(0.5), false), 2);
  EXPECT_EQ(longest_gap_days(Mass::from_g(2), false), 4);
}

TEST(Uneaten, FoodLeftLyingSetsFreeMoreAmmoniaThanFoodEaten) {
  EXPECT_GT(nitrogen_of_uneaten_mg_n_per_g().low, ammonia_of_eaten_mg_n_per_g().high);
}

}  // namespace
}  // namespace redd::biology
