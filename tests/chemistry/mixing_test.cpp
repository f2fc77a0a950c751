#include "chemistry/mixing.h"

#include <gtest/gtest.h>

namespace redd::chemistry {
namespace {

BufferedWater water(double c, double ph, double meq_per_l) {
  return {Temperature::from_c(c), Ph::from_ph(ph), Alkalinity::from_meq_per_l(meq_per_l)};
}

TEST(Mixed, IsNeitherTheMeanPhNorTheMeanHydrogenIon) {
  const auto mixture = mixed(water(10, 6.8, 0.5), water(10, 8.2, 3.0), 0.5);
  ASSERT_TRUE(mixture);
  EXPECT_NEAR(mixture->just_mixed.ph, 7.5682, 0.01);  // PHREEQC [parkhurst2013]; mean pH would be 7.50, mean hydrogen ion 7.09
  EXPECT_GT(std::abs(mixture->just_mixed.ph - 7.50), 0.05);
}

TEST(Mixed, AerationBringsItIntoBalanceWithTheGivenAir) {
  const auto outdoors = mixed(water(10, 7.0, 2.0), water(10, 7.0, 2.0), 0.5);
  const auto classroom = mixed(water(10, 7.0, 2.0), water(10, 7.0, 2.0), 0.5, 1500.0);
  EXPECT_NEAR(outdoors->after_aeration.ph, 8.38, 0.01);
  EXPECT_LT(classroom->after_aeration.ph, outdoors->after_aeration.ph);
  EXPECT_NEAR(classroom->after_aeration.pco2_uatm, 1500.0, 1e-6);
}

TEST(Mixed, ImpossibleWaterIsSaidSo) { EXPECT_FALSE(mixed(water(10, 13.0, 0.1), water(10, 7.0, 2.0), 0.5)); }

TEST(WaterChanges, ApproachTheSourceAndAgreeWithOneBigOne) {
  EXPECT_DOUBLE_EQ(after_water_changes(40.0, 0.0, 0.5, 2), 10.0);
  EXPECT_DOUBLE_EQ(after_water_changes(40.0, 8.0, 0.0, 3), 40.0);
  EXPECT_DOUBLE_EQ(after_water_changes(40.0, 8.0, 1.0, 1), 8.0);
}

TEST(FractionToReach, KnowsWhatTheSourceMakesImpossible) {
  EXPECT_DOUBLE_EQ(*fraction_to_reach(40.0, 0.0, 20.0), 0.5);
  EXPECT_DOUBLE_EQ(*fraction_to_reach(5.0, 5.0, 5.0), 0.0);
  EXPECT_FALSE(fraction_to_reach(40.0, 25.0, 20.0));
  EXPECT_FALSE(fraction_to_reach(5.0, 5.0, 4.0));
}

}  // namespace
}  // namespace redd::chemistry
