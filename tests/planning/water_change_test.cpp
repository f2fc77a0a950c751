#include "planning/water_change.h"

#include <gtest/gtest.h>

#include "chemistry/carbonate.h"
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

/// A tank read so, with a tap of given pH and KH.
inference::Belief read_so(double ph, double kh_meq_per_l, double tap_ph, double tap_kh_meq_per_l) {
  inference::Belief belief = tested().look(8).belief;
  belief.water.at(Quantity::ph).value = {ph, ph, ph, Support::measured};
  belief.water.at(Quantity::alkalinity).value = {kh_meq_per_l, kh_meq_per_l, kh_meq_per_l, Support::measured};
  belief.temperature.latest = Temperature::from_c(8);
  belief.source->temperature = Temperature::from_c(8);
  belief.source->ph = Ph::from_ph(tap_ph);
  belief.source->alkalinity = Alkalinity::from_meq_per_l(tap_kh_meq_per_l);
  return belief;
}

TEST(PredictChange, ATankBelowTheAirsCarbonDioxideTakesItUpUntilTheNextDay) {
  const auto setup = tested().look(8).season;
  const Temperature water = Temperature::from_c(8);
  for (const double kh : {0.4, 0.8, 1.5, 3.0})
    for (const double above : {0.1, 0.4, 0.8})
      for (const double tap_ph : {6.8, 7.5, 8.2})
        for (const double fraction : {0.1, 0.3, 0.5}) {
          constexpr double tap_kh = 1.1;
          const double at_air = chemistry::carbonate_from_pco2(water, Alkalinity::from_meq_per_l(kh), chemistry::outdoor_co2_uatm)->ph;
          const auto change = predict_change(setup, read_so(at_air + above, kh, tap_ph, tap_kh), fraction);
          const double mixed_kh = fraction * tap_kh + (1 - fraction) * kh;
          const double balance = chemistry::carbonate_from_pco2(water, Alkalinity::from_meq_per_l(mixed_kh), chemistry::outdoor_co2_uatm)->ph;
          const double mixed = change.after.at(Quantity::ph).mid, next = change.ph_next_day->mid;
          EXPECT_NEAR(next, balance, 1e-6) << kh << ' ' << above << ' ' << tap_ph << ' ' << fraction;
          EXPECT_LE(next, std::max(mixed, balance) + 1e-6);
          EXPECT_GE(next, std::min(mixed, balance) - 1e-6);
        }
}

TEST(PredictChange, ATankThatBreathesMoreThanTheAirHoldsGoesBackToItsOwn) {
  const auto setup = tested().look(8).season;
  const Temperature water = Temperature::from_c(8);
  for (const double kh : {0.8, 1.5, 3.0}) {
    const double at_air = chemistry::carbonate_from_pco2(water, Alkalinity::from_meq_per_l(kh), chemistry::outdoor_co2_uatm)->ph;
    const auto belief = read_so(at_air - 0.6, kh, 7.5, kh);  // the same KH: mixing moves the carbon alone
    const auto change = predict_change(setup, belief, 0.3);
    EXPECT_NEAR(change.ph_next_day->mid, at_air - 0.6, 1e-6);
    EXPECT_LT(change.ph_next_day->mid, at_air);
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
