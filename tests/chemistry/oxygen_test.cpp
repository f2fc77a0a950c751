#include "chemistry/oxygen.h"

#include <gtest/gtest.h>

namespace redd::chemistry {
namespace {

double saturation(double c, double mmhg = 760.0, double psu = 0.0) { return oxygen_saturation(Temperature::from_c(c), mmhg, psu).mg_o2_per_l(); }

TEST(OxygenSaturation, FallsWithWarmthAndSaltAndRisesWithPressure) {
  for (double c = 0.0; c < 40.0; c += 1.0) {
    EXPECT_GT(saturation(c), saturation(c + 1.0));
    EXPECT_GT(saturation(c), saturation(c, 760.0, 5.0));
    EXPECT_LT(saturation(c, 700.0), saturation(c));
  }
}

TEST(OxygenSaturation, StandardPressureIsTheUncorrectedValue) { EXPECT_DOUBLE_EQ(saturation(10.0), saturation(10.0, standard_pressure_mmhg)); }

TEST(OxygenRange, EndsAreInsideAndBeyondIsNot) {
  EXPECT_TRUE(oxygen_in_fitted_range(Temperature::from_c(0), 760, 0));
  EXPECT_FALSE(oxygen_in_fitted_range(Temperature::from_c(40.5), 760, 0));
  EXPECT_FALSE(oxygen_in_fitted_range(Temperature::from_c(10), 300, 0));
}

TEST(PressureAtElevation, SeaLevelIsOneAtmosphere) { EXPECT_DOUBLE_EQ(pressure_mmhg_at_elevation(0.0), 760.0); }

}  // namespace
}  // namespace redd::chemistry
