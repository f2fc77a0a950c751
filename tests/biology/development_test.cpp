#include "biology/development.h"

#include <gtest/gtest.h>

#include <vector>

#include "biology/species.h"

namespace redd::biology {
namespace {

DevelopmentModel coho_hatch() {
  return *model_for(*find_species("coho"), Stage::hatch);
}
TemperatureSpell spell(double days, double c) {
  return {Days(days), Temperature::from_c(c)};
}

TEST(ProgressOver, IsOneAfterTheCurvesDays) {
  const double days = days_at(coho_hatch(), Temperature::from_c(8.0))->count();
  EXPECT_NEAR(progress_over(coho_hatch(), std::vector{spell(days, 8.0)}), 1.0, 1e-12);
}

TEST(ProgressOver, StandsStillInIcyWater) {
  EXPECT_EQ(progress_over(coho_hatch(), std::vector{spell(50, 0.1)}), 0.0);
}

TEST(TimeToStage, EndsWithinTheRightSpell) {
  const auto model = coho_hatch();
  const double at_8 = days_at(model, Temperature::from_c(8.0))->count(),
               at_5 = days_at(model, Temperature::from_c(5.0))->count();
  const std::vector spells{spell(at_8 / 2.0, 8.0), spell(10.0, 0.0), spell(200.0, 5.0)};
  EXPECT_NEAR(time_to_stage(model, spells)->count(), at_8 / 2.0 + 10.0 + at_5 / 2.0, 1e-9);
  EXPECT_NEAR(time_to_stage(model, spells, 0.75)->count(), at_8 / 4.0, 1e-9);
  EXPECT_EQ(time_to_stage(model, spells, 1.0)->count(), 0.0);
}

TEST(TimeToStage, IsAbsentWhenTheRecordEndsFirst) {
  EXPECT_FALSE(time_to_stage(coho_hatch(), std::vector{spell(10.0, 8.0)}));
  EXPECT_FALSE(time_to_stage(coho_hatch(), {}));
}

TEST(ProgressFromThermalSum, IsDaysAtThatTemperatureOverTheCurvesDays) {
  const auto model = coho_hatch();
  const auto water = Temperature::from_c(8.0);
  EXPECT_NEAR(progress_from_thermal_sum(model, ThermalSum::from_c_days(240.0), water),
              30.0 / days_at(model, water)->count(), 1e-12);
  EXPECT_EQ(progress_from_thermal_sum(model, ThermalSum::from_c_days(240.0), Temperature::from_c(0.0)), 0.0);
}

}  // namespace
}  // namespace redd::biology
