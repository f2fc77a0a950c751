#include "heat/balance.h"

#include <gtest/gtest.h>

#include <cmath>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

TEST(HeatBalance, AddsItsItems) {
  TankHeat tank = bare_tank();
  tank.light = w(24);
  tank.light_from_hour = 9;
  tank.light_until_hour = 15;
  tank.damp = w(5);
  const HeatBalance balance = heat_balance(tank, c(8), c(21));
  EXPECT_DOUBLE_EQ(balance.through_walls.w(), 130.0);
  EXPECT_DOUBLE_EQ(balance.light.w(), 6.0);
  EXPECT_DOUBLE_EQ(balance.total.w(), 130.0 + 15.0 + 6.0 + 5.0);
  EXPECT_DOUBLE_EQ(own_heat(tank, 9).w(), 44.0);
  EXPECT_DOUBLE_EQ(own_heat(tank, 15).w(), 20.0);
  double day = 0.0;
  for (int hour = 0; hour < 24; ++hour) day += own_heat(tank, hour).w() / 24;
  EXPECT_NEAR(day, mean_own_heat(tank).w(), 1e-12);
}

TEST(SettlesAt, BalancesGainAndCooling) {
  const auto tank = bare_tank();
  const Chiller chiller = small_chiller(100);
  const Temperature settles = settles_at(tank, chiller, c(21));
  EXPECT_NEAR(heat_balance(tank, settles, c(21)).total.w(), cooling_power(chiller, settles, c(21)).w(), 1e-6);
  EXPECT_NEAR(settles_at(tank, std::nullopt, c(21)).c(), 22.5, 1e-9);
  EXPECT_NEAR(settles_at(tank, constant_chiller(0), c(21)).c(), 22.5, 1e-9);
}

TEST(Held, NamesEachDegreeOfStrain) {
  const auto at = [](double chiller_w) { return held(bare_tank(10, 20), constant_chiller(chiller_w), c(8), c(21)); };  // 150 W to remove
  EXPECT_EQ(at(250).holding, Holding::held);
  EXPECT_EQ(at(180).holding, Holding::tight);    // 83 %
  EXPECT_EQ(at(156).holding, Holding::refused);  // 96 %
  EXPECT_EQ(at(150).holding, Holding::never_reached);
  EXPECT_EQ(at(100).holding, Holding::never_reached);
  EXPECT_EQ(at(0).holding, Holding::never_reached);
  EXPECT_TRUE(std::isfinite(at(0).duty_fraction));
  EXPECT_NEAR(at(100).settles_at.c(), 13.0, 1e-9);
  EXPECT_EQ(held(bare_tank(10, 20), constant_chiller(100), c(8), c(5)).holding, Holding::not_needed);
}

TEST(Holding, ItsMarksBelongToTheMilderWord) {
  EXPECT_EQ(holding_at(0.80), Holding::held);
  EXPECT_EQ(holding_at(0.8001), Holding::tight);
  EXPECT_EQ(holding_at(0.95), Holding::tight);
  EXPECT_EQ(holding_at(0.9501), Holding::refused);
  EXPECT_EQ(holding_at(1.0), Holding::never_reached);
}

TEST(Held, CostsWhatItsEnergyCosts) {
  const Held answer = held(bare_tank(), small_chiller(), c(8), c(21));
  // 145 W of heat at a performance of about 2.25: 64 W, 10.8 kWh a week.
  EXPECT_NEAR(answer.electric.w(), 145.0 / cop(small_chiller(), c(8), c(21)), 1e-9);
  EXPECT_NEAR(answer.electric_per_week().kwh(), answer.electric.w() * 0.168, 1e-9);
  EXPECT_NEAR(cost_per_week(answer.electric, 0.25), 0.25 * answer.electric_per_week().kwh(), 1e-12);
}

TEST(TimeToCool, WithFallingCapacityIsThatOfFineSteps) {
  const auto tank = bare_tank();
  const Chiller chiller{.rated = w(400)};
  double t_c = 21.0, hours = 0.0;
  while (t_c > 8.0) {
    const double net_w = heat_balance(tank, c(t_c), c(21)).total.w() - cooling_power(chiller, c(t_c), c(21)).w();
    t_c += net_w * 3.6 / tank.capacity.j_per_k();
    hours += 0.001;
  }
  EXPECT_NEAR(time_to_cool(tank, chiller, c(21), c(8), c(21))->count(), hours, 0.005);
}

TEST(TimeToCool, SaysNeverAndNothingToDo) {
  EXPECT_FALSE(time_to_cool(bare_tank(), constant_chiller(100), c(21), c(8), c(21)));
  EXPECT_EQ(time_to_cool(bare_tank(), constant_chiller(100), c(7), c(8), c(21))->count(), 0.0);
  // One thousandth above where it settles it takes long, but it gets there.
  const auto tank = bare_tank(10, 20);
  EXPECT_GT(time_to_cool(tank, constant_chiller(150), c(21), c(8.01), c(21))->count(), 150.0);
}

TEST(ChillerWanted, IsTheLargerOfSteadyLoadAndPullDown) {
  const auto tank = bare_tank();
  EXPECT_DOUBLE_EQ(chiller_wanted(tank, c(8), c(21), TemperatureChange::from_c(1), Hours(24)).w(), 1.5 * 145.0);
  EXPECT_NEAR(chiller_wanted(tank, c(8), c(21), TemperatureChange::from_c(13), Hours(6)).w(), 838000.0 * 13 / 21600, 1e-9);
}

}  // namespace
}  // namespace redd::heat
