#include "chemistry/dosing.h"

#include <gtest/gtest.h>

namespace redd::chemistry {
namespace {

TEST(Dosing, GrowsInProportionToVolumeAndRise) {
  const auto one = sodium_bicarbonate_for(Volume::from_l(100), Alkalinity::from_german_degrees(1));
  EXPECT_NEAR(sodium_bicarbonate_for(Volume::from_l(200), Alkalinity::from_german_degrees(3)).g(), 6.0 * one.g(), 1e-12);
  EXPECT_NEAR(one.g(), 3.0, 0.01);  // 100 L by one degree: 3.0 g
}

TEST(Dosing, FullTapChloramineReleasesMoreAmmoniaThanTheActionLevelAllows) {  // 4 mg/L gives 0.79 mg N/L
  EXPECT_NEAR(ammonia_released_by(4.0).mg_n_per_l(), 0.79, 0.005);
}

TEST(Dosing, NothingWantedIsNothingWeighed) {
  EXPECT_EQ(thiosulfate_for(Volume::from_l(200), 0.0).g(), 0.0);
  EXPECT_EQ(calcium_chloride_for(Volume::from_l(200), Hardness::from_meq_per_l(0)).g(), 0.0);
  EXPECT_EQ(magnesium_sulfate_for(Volume::from_l(200), Hardness::from_meq_per_l(0)).g(), 0.0);
  EXPECT_EQ(ammonium_chloride_for(Volume::from_l(200), NitrogenConc::from_mg_n_per_l(0)).g(), 0.0);
}

}  // namespace
}  // namespace redd::chemistry
