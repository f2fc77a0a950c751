#include "planning/fry_mass.h"

#include <gtest/gtest.h>

#include "support/made_case.h"

namespace redd::planning {
namespace {

using inference::Animals;
using redd::testing::made_case;

Estimate<double> mass(const redd::testing::MadeCase& made, int days_on = 0) {
  return fry_mass_g(made.belief, std::nullopt, local_day({}, made.now) + std::chrono::days(days_on));
}

// [iwama1981] with a coefficient of 1: 0.125 g in 500 C-days is (0.5 + 0.5)^3 g.
TEST(FryMass, FollowsTheThermalLine) { EXPECT_NEAR(grown_g({0.125, 0.125, 0.125}, {500, 500, 500}).mid, 1.0, 1e-12); }

TEST(FryMass, GrowsFromSwimUpWithMoreDoubt) {
  const auto young = mass(made_case(Animals::fry, 100, 8, 200, 0.0)), old = mass(made_case(Animals::fry, 100, 8, 200, -60.0));
  EXPECT_GT(old.mid, 4.0 * young.mid);
  EXPECT_LT(old.low, old.mid);
  EXPECT_GT(old.high / old.low, young.high / young.low);
}

TEST(FryMass, IsWideWhereNobodyKnowsTheDates) {
  const auto unknown = mass(made_case(Animals::fry, 100, 8));
  EXPECT_LT(unknown.low, unknown.high);
}

TEST(FryMass, IsWhatIsBelievedOfGrowthAndThenFollowsTheLine) {
  const auto made = made_case(Animals::fry, 100, 8, 200, -60.0);
  const Date today = local_day({}, made.now);
  const auto weighs = [](double g) { return Estimate<Mass>{Mass::from_g(0.9 * g), Mass::from_g(g), Mass::from_g(1.1 * g)}; };
  inference::GrowthBelief growth{.days = {{today, weighs(0.45)}, {today + std::chrono::days(56), weighs(1.2)}}, .models = biology::growth_models(*biology::find_species("brook_trout"))};
  EXPECT_NEAR(fry_mass_g(made.belief, growth, today).mid, 0.45, 1e-12);
  EXPECT_NEAR(fry_mass_g(made.belief, growth, today + std::chrono::days(56)).high, 1.32, 1e-12);
  EXPECT_GT(fry_mass_g(made.belief, growth, today + std::chrono::days(70)).mid, 1.2);
}

TEST(FryMass, ThermalSumsSkipTheLastDayAndNegativeTemperatures) {
  const Date first{};
  const auto day = [&](int i, double c) { return biology::DailyTemperature{first + std::chrono::days(i), Temperature::from_c(c), TemperatureChange::from_c(0)}; };
  const std::vector days{day(0, 5), day(1, -1), day(2, 7)};
  EXPECT_DOUBLE_EQ(thermal_sum_c_days(days, first, first + std::chrono::days(3)), 12.0);
  EXPECT_DOUBLE_EQ(thermal_sum_c_days(days, first, first + std::chrono::days(5)), 26.0);  // the last is held
  EXPECT_DOUBLE_EQ(thermal_sum_c_days(days, first, first), 0.0);
  EXPECT_DOUBLE_EQ(thermal_sum_c_days({}, first, first + std::chrono::days(2)), 20.0);
}

}  // namespace
}  // namespace redd::planning
