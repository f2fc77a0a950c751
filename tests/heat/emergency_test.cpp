#include "heat/emergency.h"

#include <gtest/gtest.h>

#include <array>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

Estimate<Conductance> doubtful(double mid) { return {w_per_k(mid / 1.5), w_per_k(mid), w_per_k(mid * 1.5), Support::assumed}; }

TEST(OutageTimes, GiveAnIntervalAndSayNever) {
  const std::array limits{c(12), c(15), c(25)};
  const auto times = outage_times(bare_tank(10, 0), doubtful(10), LimitSide::too_warm, c(8), c(21), limits);
  ASSERT_EQ(times.size(), 3u);
  EXPECT_NEAR(times[0].likely->count(), 8.56, 0.01);   // worked out elsewhere
  EXPECT_NEAR(times[0].soonest->count(), 8.56 / 1.5, 0.01);
  EXPECT_NEAR(times[0].latest->count(), 8.56 * 1.5, 0.01);
  EXPECT_NEAR(times[1].likely->count(), 18.0, 0.01);
  EXPECT_FALSE(times[2].soonest);
}

TEST(OutageTimes, AreZeroBeyondTheLimitAndNeverWhileItMovesAway) {
  const std::array limit{c(12)};
  EXPECT_EQ(outage_times(bare_tank(), doubtful(10), LimitSide::too_warm, c(13), c(21), limit)[0].soonest->count(), 0.0);
  EXPECT_EQ(outage_times(bare_tank(), doubtful(10), LimitSide::too_warm, c(13), c(5), limit)[0].latest->count(), 0.0);
  EXPECT_FALSE(outage_times(bare_tank(), doubtful(10), LimitSide::too_warm, c(8), c(5), limit)[0].soonest);
  const std::array freezing{c(1)};
  EXPECT_TRUE(outage_times(bare_tank(10, 0), doubtful(10), LimitSide::too_cold, c(8), c(-10), freezing)[0].soonest);
  EXPECT_FALSE(outage_times(bare_tank(10, 0), doubtful(10), LimitSide::too_cold, c(8), c(5), freezing)[0].soonest);
}

TEST(OutageTimes, WhereThePumpDrivesItTheTighterTankIsTheSoonerOne) {
  const std::array limit{c(23)};  // above the room: only the pump gets it there
  const auto times = outage_times(bare_tank(4, 15), doubtful(4), LimitSide::too_warm, c(20), c(20), limit)[0];
  EXPECT_TRUE(times.soonest);
  EXPECT_FALSE(times.latest);  // with the looser walls it never does
}

TEST(StuckOnTimes, ReachFreezingInAWeekend) {
  const std::array limit{c(1)};
  const auto times = stuck_on_times(bare_tank(10, 20), doubtful(10), constant_chiller(250), c(8), c(21), limit)[0];
  EXPECT_NEAR(times.likely->count(), 28.03, 0.01);  // worked out elsewhere
  EXPECT_LT(*times.soonest, *times.likely);
  EXPECT_FALSE(times.latest);  // walls half as leaky again hold it above 1 C
}

TEST(Ice, HoldsAsLongAsItTakesUpWhatComesIn) {
  const Mass bottles = Mass::from_g(4 * 1500.0);
  const auto hours = hours_held_by_ice(bottles, w(70), c(10), c(-18));
  EXPECT_NEAR(ice_to_hold(w(70), *hours, c(10), c(-18)).g(), 6000.0, 1e-6);
  EXPECT_FALSE(hours_held_by_ice(bottles, w(0), c(10), c(-18)));
  EXPECT_EQ(ice_to_hold(w(-5), Hours(24), c(10), c(-18)).g(), 0.0);
}

TEST(Ice, OneKilogramCoolsAHundredLitresAboutADegree) {
  EXPECT_NEAR(ice_for_drop(Volume::from_l(100), TemperatureChange::from_c(1), c(10), c(-18)).g(), 1000, 20);
}

TEST(AfterMelting, SaysWhenTheIceLasts) {
  EXPECT_FALSE(after_melting(Mass::from_g(100), c(5), Mass::from_g(100), c(0)));
  EXPECT_NEAR(after_melting(Mass::from_g(1000), c(20), Mass::from_g(0), c(0))->c(), 20.0, 1e-12);
}

TEST(WaterChange, IsLimitedByHowFarTheSourceIs) {
  EXPECT_NEAR(largest_water_change(c(8), c(16), TemperatureChange::from_c(1)), 0.125, 1e-12);
  EXPECT_NEAR(largest_water_change(c(16), c(8), TemperatureChange::from_c(1)), 0.125, 1e-12);
  EXPECT_EQ(largest_water_change(c(8), c(8.5), TemperatureChange::from_c(1)), 1.0);
  EXPECT_NEAR(tempered_source(c(8), c(16), 0.25, TemperatureChange::from_c(1)).c(), 12.0, 1e-12);
  EXPECT_NEAR(tempered_source(c(8), c(4), 0.5, TemperatureChange::from_c(1)).c(), 6.0, 1e-12);
  EXPECT_NEAR(tempered_source(c(8), c(9), 0.25, TemperatureChange::from_c(1)).c(), 9.0, 1e-12);
}

TEST(Insulation, IsWorthMoreThanABiggerChiller) {
  const auto buys = insulation_buys(bare_tank(11, 15), w_per_k(4), small_chiller(), c(8), c(22), c(12));
  EXPECT_NEAR(buys.gain_before.w(), 169.0, 1e-9);
  EXPECT_NEAR(buys.gain_after.w(), 71.0, 1e-9);
  EXPECT_LT(buys.duty_after, buys.duty_before);
  EXPECT_GT(buys.saved_per_week.kwh(), 5.0);
  EXPECT_NEAR(buys.same_by_chiller->w() / cooling_power(small_chiller(), c(8), c(22)).w(), 169.0 / 71.0, 1e-9);
  EXPECT_GT(buys.outage_after->count(), 2.5 * buys.outage_before->count());
  EXPECT_FALSE(insulation_buys(bare_tank(11, 0), w_per_k(4), small_chiller(), c(8), c(6), c(12)).same_by_chiller);
  EXPECT_EQ(insulation_buys(bare_tank(11, 0), w_per_k(4), small_chiller(), c(13), c(20), c(12)).outage_before->count(), 0.0);
}

}  // namespace
}  // namespace redd::heat
