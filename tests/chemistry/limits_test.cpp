#include "chemistry/limits.h"

#include <gtest/gtest.h>

namespace redd::chemistry::limits {
namespace {

TEST(Limits, StandInTheOrderAdviceReliesOn) {
  EXPECT_LT(un_ionized_ammonia_eu_guide, action_un_ionized_ammonia);
  EXPECT_LT(action_un_ionized_ammonia, un_ionized_ammonia_ccme);
  EXPECT_LT(un_ionized_ammonia_ccme, alarm_un_ionized_ammonia);
  EXPECT_LT(alarm_un_ionized_ammonia, un_ionized_ammonia_killed_new_eggs);
  EXPECT_LT(nitrate_guideline, nitrate_act);
  EXPECT_LT(nitrate_act, nitrate_ceiling);
  EXPECT_LT(nitrate_act.mg_n_per_l(), 6.25);  // below the first effects on embryos [mcgurk2006]
  EXPECT_LT(nitrate_ceiling.mg_n_per_l(), 10.0);
}

TEST(Limits, ArePrintedAsTheirSourcesPrintThem) {
  EXPECT_NEAR(nitrate_guideline.mg_n_per_l(), 3.0, 0.07);  // 13 mg NO3/L = 3.0 mg N/L, rounded by the source
  EXPECT_NEAR(nitrite_ccme.mg_no2_per_l(), 0.197, 0.0005);
  EXPECT_NEAR(un_ionized_ammonia_slowed_sac_fry.mg_nh3_per_l(), 0.061, 0.0005);
}

}  // namespace
}  // namespace redd::chemistry::limits
