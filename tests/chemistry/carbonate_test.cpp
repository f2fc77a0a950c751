#include "chemistry/carbonate.h"

#include <gtest/gtest.h>

namespace redd::chemistry {
namespace {

constexpr auto ten_c = Temperature::from_c(10.0);
constexpr auto two_meq = Alkalinity::from_meq_per_l(2.0);

TEST(Carbonate, FourWaysIntoTheSameWater) {
  const auto state = carbonate_from_ph(ten_c, two_meq, Ph::from_ph(7.5));
  ASSERT_TRUE(state);
  EXPECT_NEAR(carbonate_from_co2(ten_c, two_meq, state->co2_mg_per_l)->ph, 7.5, 1e-8);
  EXPECT_NEAR(carbonate_from_pco2(ten_c, two_meq, state->pco2_uatm)->ph, 7.5, 1e-8);
  EXPECT_NEAR(carbonate_from_dic(ten_c, two_meq, state->dic_mmol_per_l)->ph, 7.5, 1e-8);
  EXPECT_DOUBLE_EQ(state->ph, 7.5);
}

TEST(Carbonate, SpeciesAddUpToDic) {
  const auto state = carbonate_from_ph(ten_c, two_meq, Ph::from_ph(8.3));
  EXPECT_NEAR(state->co2_mg_per_l / 44.009 + state->bicarbonate_mmol_per_l + state->carbonate_mmol_per_l, state->dic_mmol_per_l, 1e-12);
}

TEST(Carbonate, PopularFactorThreeUnderReadsColdWater) {  // shortcut CO2 = 3 KH 10^(7-pH); the system gives 4.4 at 10 C
  const auto state = carbonate_from_ph(ten_c, Alkalinity::from_german_degrees(4.0), Ph::from_ph(7.0));
  EXPECT_GT(state->co2_mg_per_l / (3.0 * 4.0), 1.4);
}

TEST(Carbonate, NoSuchWaterIsSaidSo) {
  EXPECT_FALSE(carbonate_from_ph(ten_c, Alkalinity::from_meq_per_l(0.1), Ph::from_ph(12.0)));
  EXPECT_FALSE(carbonate_from_co2(ten_c, two_meq, 0.0));
  EXPECT_FALSE(carbonate_from_pco2(ten_c, two_meq, -1.0));
  EXPECT_FALSE(carbonate_from_dic(ten_c, two_meq, -0.1));
}

TEST(Carbonate, PureWaterWithoutCarbonIsNeutral) {
  const auto state = carbonate_from_dic(ten_c, Alkalinity::from_meq_per_l(0.0), 0.0);
  ASSERT_TRUE(state);
  EXPECT_NEAR(state->ph, 14.5338 / 2.0, 0.001);
}

TEST(CarbonateRange, EndsAreInsideAndBeyondIsNot) {
  EXPECT_TRUE(carbonate_in_fitted_range(Temperature::from_c(0), Alkalinity::from_meq_per_l(0)));
  EXPECT_FALSE(carbonate_in_fitted_range(Temperature::from_c(-0.1), two_meq));
  EXPECT_FALSE(carbonate_in_fitted_range(ten_c, Alkalinity::from_meq_per_l(11)));
}

}  // namespace
}  // namespace redd::chemistry
