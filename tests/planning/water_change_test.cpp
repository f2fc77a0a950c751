#include "planning/water_change.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::planning {
namespace {

using inference::Quantity;
using redd::testing::SmallSeason;

SmallSeason tested() {
  SmallSeason season;
  season.quiet_tests(7);
  season.step(8, "ammonia", 0.8);
  season.step(8, "nitrate", 40);
  return season;
}

TEST(PredictChange, NothingChangedChangesNothing) {
  const auto view = tested().look(8);
  const auto none = predict_change(view.season, view.belief, 0.0);
  for (const auto& [quantity, before] : none.before) EXPECT_NEAR(none.after.at(quantity).mid, before.mid, 1e-6);
}

TEST(PredictChange, MassBalanceHolds) {
  const auto view = tested().look(8);
  for (const double fraction : {0.1, 0.25, 0.5, 1.0}) {
    const auto change = predict_change(view.season, view.belief, fraction);
    const double source = NitrogenConc::from_mg_no3_per_l(2).mg_n_per_l();
    EXPECT_NEAR(change.after.at(Quantity::nitrate).mid, fraction * source + (1 - fraction) * change.before.at(Quantity::nitrate).mid, 1e-12);
    EXPECT_NEAR(change.volume.l(), fraction * 200, 1e-9);
  }
}

TEST(PredictChange, AWholeTankOfSourceWaterIsSourceWater) {
  const auto view = tested().look(8);
  const auto change = predict_change(view.season, view.belief, 1.0);
  EXPECT_NEAR(change.after.at(Quantity::ph).mid, 7.2, 1e-6);
  EXPECT_NEAR(change.after.at(Quantity::alkalinity).mid, Alkalinity::from_german_degrees(3).meq_per_l(), 1e-9);
}

TEST(PredictChange, KeepsTheTanksStepInsideADegree) {
  auto season = tested();
  std::get<records::SourceWater>(season.log()[2].entry.body).temperature = Temperature::from_c(18);
  const auto view = season.look(8);
  const auto small = predict_change(view.season, view.belief, 0.05), large = predict_change(view.season, view.belief, 0.3);
  EXPECT_FALSE(small.temper_to.has_value());
  EXPECT_NEAR(small.tank_after.c(), 8.5, 1e-9);  // a twentieth of water 10 C warmer: half a degree, the most it may
  ASSERT_TRUE(large.temper_to.has_value());
  EXPECT_NEAR(large.tank_after.c(), 8.0, 1e-9);
}

TEST(SmallestChange, IsTheFirstThatMeetsItsGoal) {
  const auto view = tested().look(8);
  const double goal = NitrogenConc::from_mg_no3_per_l(30).mg_n_per_l();
  const auto change = smallest_change(view.season, view.belief, [&](const auto& c) { return c.after.at(Quantity::nitrate).mid < goal; });
  ASSERT_TRUE(change.has_value());
  EXPECT_LT(change->after.at(Quantity::nitrate).mid, goal);
  const auto less = predict_change(view.season, view.belief, change->fraction - 0.05);
  EXPECT_GE(less.after.at(Quantity::nitrate).mid, goal);
}

TEST(SmallestChange, SaysSoWhenHalfTheTankIsNotEnough) {
  const auto view = tested().look(8);
  EXPECT_FALSE(smallest_change(view.season, view.belief, [](const auto&) { return false; }).has_value());
}

}  // namespace
}  // namespace redd::planning
