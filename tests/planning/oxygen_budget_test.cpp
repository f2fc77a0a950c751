#include "planning/oxygen_budget.h"

#include <gtest/gtest.h>

namespace redd::planning {
namespace {

OxygenConc mg(double value) { return OxygenConc::from_mg_o2_per_l(value); }
const auto ten_c = Temperature::from_c(10);

TEST(OxygenBudget, AirNobodyDescribedCountsAsPoor) {
  const auto unknown = air_transfer_l_per_h({}, ten_c), known = air_transfer_l_per_h({.air_l_per_min = poorest_stone_l_per_min}, ten_c);
  EXPECT_LT(unknown.mid, known.mid);
  EXPECT_LE(unknown.low, known.low);
}

TEST(OxygenBudget, DeeperStonesAndMoreAirBringMore) {
  EXPECT_GT(air_transfer_l_per_h({.air_l_per_min = 3.0}, ten_c).mid, air_transfer_l_per_h({.air_l_per_min = 2.0}, ten_c).mid);
  EXPECT_GT(air_transfer_l_per_h({.air_l_per_min = 2.0, .stone_depth_m = 0.5}, ten_c).mid, air_transfer_l_per_h({.air_l_per_min = 2.0, .stone_depth_m = 0.3}, ten_c).mid);
}

TEST(OxygenBudget, WithoutUseTheWaterIsFull) { EXPECT_EQ(steady_oxygen(mg(11), {0, 0, 0}, {10, 20, 40}).low, mg(11)); }

TEST(OxygenBudget, NeverBelowNothing) { EXPECT_EQ(steady_oxygen(mg(11), {1e4, 1e4, 1e4}, {1, 1, 1}).mid, mg(0)); }

TEST(OxygenBudget, FullWaterBelowTheLimitCarriesNobody) { EXPECT_EQ(carried_by_oxygen(mg(7.5), mg(8), {10, 20, 40}, {0.1, 0.1, 0.1}).mid, 0.0); }

TEST(OxygenBudget, AReadingNearFullSaysThatTheAirIsGoodEnough) {
  const Estimate<double> before{5, 10, 200, Support::assumed};
  const auto after = learnt_transfer_l_per_h(before, mg(11), {mg(10.2), mg(10.5), mg(10.8), Support::measured}, {20, 30, 45});
  EXPECT_NEAR(after.low, 25.0, 1e-9);   // 20 mg/h at 0.8 mg/L short of full
  EXPECT_NEAR(after.high, 200.0, 1e-9);
  EXPECT_EQ(after.support, Support::inferred);
}

TEST(OxygenBudget, AReadingFarBelowFullOverrulesWhatTheEquipmentPromises) {
  const auto after = learnt_transfer_l_per_h({60, 100, 200, Support::assumed}, mg(11), {mg(6.5), mg(7), mg(7.5), Support::measured}, {20, 30, 45});
  EXPECT_LT(after.high, 60.0);
  EXPECT_NEAR(after.high, 45.0 / 3.5, 1e-9);
}

TEST(OxygenBudget, AReadingAboveFullTeachesNothing) {
  const Estimate<double> before{5, 10, 200, Support::assumed};
  const auto after = learnt_transfer_l_per_h(before, mg(11), {mg(12), mg(12.5), mg(13), Support::measured}, {20, 30, 45});
  EXPECT_EQ(after.low, before.low);
  EXPECT_EQ(after.high, before.high);
  EXPECT_EQ(after.support, Support::assumed);
}

}  // namespace
}  // namespace redd::planning
