#include "biology/development_model.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "biology/species.h"

namespace redd::biology {
namespace {

Temperature c(double t) {
  return Temperature::from_c(t);
}

TEST(DaysAt, IsAbsentWhereDevelopmentStands) {
  for (const SpeciesProfile& species : all_species())
    for (const Stage stage : all_stages) {
      const auto model = *model_for(species, stage);
      EXPECT_FALSE(days_at(model, c(0.19))) << species.key;
      EXPECT_FALSE(days_at(model, c(-2.0))) << species.key;
      EXPECT_FALSE(days_at(model, c(std::numeric_limits<double>::quiet_NaN()))) << species.key;
      EXPECT_EQ(progress_per_day(model, c(0.0)), 0.0) << species.key;
      EXPECT_TRUE(days_at(model, c(0.2))) << species.key;
    }
}

TEST(DaysAt, IsAbsentAtAndBelowTheCurvesOwnZero) {
  DevelopmentModel model{"x", Stage::hatch, LogInverseBelehradek{6.0, -1.0, 2.0}, c(3.0), c(10.0), ""};
  EXPECT_FALSE(days_at(model, c(2.0)));
  EXPECT_FALSE(days_at(model, c(1.0)));
  ASSERT_TRUE(days_at(model, c(3.0)));
  EXPECT_NEAR(days_at(model, c(3.0))->count(), std::exp(6.0), 1e-9);
  model.form = ThermalSumAboveThreshold{6.0, 2.0};
  EXPECT_FALSE(days_at(model, c(2.0)));
  model.form = CrispPower{-2.0, 2.0, 4.0};
  EXPECT_FALSE(days_at(model, c(2.0)));
}

TEST(DaysAt, TableGoesThroughItsRowsAndOnAlongItsEnds) {
  const DevelopmentModel model{"x",    Stage::hatch, TableInLogDays{{{2.0, 100.0}, {4.0, 50.0}, {8.0, 25.0}}},
                               c(2.0), c(8.0),       ""};
  EXPECT_NEAR(days_at(model, c(2.0))->count(), 100.0, 1e-9);
  EXPECT_NEAR(days_at(model, c(3.0))->count(), 100.0 / std::sqrt(2.0), 1e-9);
  EXPECT_NEAR(days_at(model, c(4.0))->count(), 50.0, 1e-9);
  EXPECT_NEAR(days_at(model, c(12.0))->count(), 12.5, 1e-9);
  EXPECT_NEAR(days_at(model, c(1.0))->count(), 100.0 * std::sqrt(2.0), 1e-9);
}

TEST(TestRange, IsFlaggedNotRefused) {
  const auto model = *model_for(*find_species("coho"), Stage::hatch);
  EXPECT_TRUE(in_test_range(model, c(1.5)));
  EXPECT_TRUE(in_test_range(model, c(13.0)));
  EXPECT_FALSE(in_test_range(model, c(14.0)));
  EXPECT_TRUE(days_at(model, c(14.0)));
  EXPECT_NEAR(outside_test_range(model, c(14.0)).c(), 1.0, 1e-12);
  EXPECT_NEAR(outside_test_range(model, c(1.0)).c(), 0.5, 1e-12);
  EXPECT_EQ(outside_test_range(model, c(8.0)).c(), 0.0);
}

}  // namespace
}  // namespace redd::biology
