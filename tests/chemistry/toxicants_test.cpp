#include "chemistry/toxicants.h"

#include <gtest/gtest.h>

namespace redd::chemistry {
namespace {

TEST(Copper, SoftWaterBearsLess) {
  EXPECT_LT(copper_acute_ug_per_l(Hardness::from_mg_caco3_per_l(30)), copper_acute_ug_per_l(Hardness::from_mg_caco3_per_l(100)));
  EXPECT_LT(copper_chronic_ug_per_l(Hardness::from_mg_caco3_per_l(100)), copper_acute_ug_per_l(Hardness::from_mg_caco3_per_l(100)));
  EXPECT_FALSE(copper_in_fitted_range(Hardness::from_mg_caco3_per_l(20)));
}

TEST(Monochloramine, LongerExposureKillsAtLess) { EXPECT_LT(monochloramine_lc50_ug_per_l(1440), monochloramine_lc50_ug_per_l(60)); }

}  // namespace
}  // namespace redd::chemistry
