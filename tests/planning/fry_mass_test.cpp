#include "planning/fry_mass.h"

#include <gtest/gtest.h>

#include "support/made_case.h"

namespace redd::planning {
namespace {

using inference::Animals;
using redd::testing::made_case;

Estimate<double> mass(const redd::testing::MadeCase& made, int days_on = 0) {
  return fry_mass_g(made.belief, made.records, {}, local_day({}, made.now) + std::chrono::days(days_on));
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

TEST(FryMass, AWeighedSampleCountsFromItsDayOn) {
  auto made = made_case(Animals::fry, 100, 8, 200, -60.0);
  records::Record sample;
  sample.id = 900, sample.entry.at = made.now;
  sample.entry.body = records::FishSample{.count = 20, .mass = Mass::from_g(9)};
  made.records.push_back(sample);
  EXPECT_NEAR(mass(made).mid, 0.45, 1e-12);
  EXPECT_NEAR(mass(made).low, 0.405, 1e-12);
  EXPECT_GT(mass(made, 20).mid, 0.45);
  made.records.back().entry.at = made.now + std::chrono::hours(48);  // weighed later: nobody knew
  EXPECT_GT(mass(made).mid, 0.5);
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
