#include "heat/trajectory.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

constexpr auto one_degree = TemperatureChange::from_c(1.0);

std::vector<Temperature> steady(double room_c, std::size_t hours) { return std::vector<Temperature>(hours, c(room_c)); }

TEST(Trajectory, KeepsWithinItsBandAtTheSteadyDuty) {
  const Equipment equipment{.chiller = small_chiller()};
  const auto run = trajectory(bare_tank(), equipment, {c(8)}, steady(21, 240), std::array{c(8)}, one_degree);
  EXPECT_GE(run.coldest.c(), 7.5 - 1e-9);
  EXPECT_LE(run.warmest.c(), 8.5 + 1e-9);
  double duty = 0.0;
  for (const double each : run.duty) duty += each / 240.0;
  EXPECT_NEAR(duty, held(bare_tank(), small_chiller(), c(8), c(21)).duty_fraction, 0.01);
  EXPECT_NEAR(run.electric.kwh() / 240 * 168, held(bare_tank(), small_chiller(), c(8), c(21)).electric_per_week().kwh(), 0.15);
}

TEST(Trajectory, PullsDownInTheTimeOfTheClosedForm) {
  const Equipment equipment{.chiller = constant_chiller(250)};
  const auto run = trajectory(bare_tank(10, 20), equipment, {c(21)}, steady(21, 30), std::array{c(8)}, one_degree);
  // Worked out elsewhere: 19.4 h to 8 C.
  EXPECT_NEAR(first_at_or_below(run, c(8))->count(), 19.39, 0.02);
  EXPECT_FALSE(first_at_or_below(run, c(7)));
}

TEST(Trajectory, StuckOnFreezesTheTankAndStuckOffWarmsIt) {
  Equipment equipment{.chiller = constant_chiller(250), .chiller_works = Working::stuck_on};
  const auto on = trajectory(bare_tank(10, 20), equipment, {c(8)}, steady(21, 60), std::array{c(8)}, one_degree);
  EXPECT_NEAR(first_at_or_below(on, c(1))->count(), 28.03, 0.02);  // worked out elsewhere
  equipment.chiller_works = Working::stuck_off;
  const auto off = trajectory(bare_tank(10, 15), equipment, {c(8)}, steady(21, 60), std::array{c(8)}, one_degree);
  EXPECT_NEAR(first_at_or_above(off, c(12))->count(), 7.51, 0.02);
  EXPECT_EQ(off.removed.j(), 0.0);
  EXPECT_GT(off.warmest, c(18));
}

TEST(Trajectory, HeaterHoldsTheTankInAColdRoomWithoutFightingTheChiller) {
  const Equipment equipment{.chiller = small_chiller(), .heater = w(100)};
  const auto run = trajectory(bare_tank(10, 0), equipment, {c(10)}, steady(4, 300), std::array{c(10)}, one_degree);
  EXPECT_EQ(run.removed.j(), 0.0);
  EXPECT_GE(run.water.back().c(), 9.0 - 1e-9);
  EXPECT_LE(run.water.back().c(), 9.5 + 1e-9);
  EXPECT_NEAR(run.from_heater.j() + run.gained.j(), bare_tank().capacity.j_per_k() * (run.water.back() - run.water.front()).c(), 1.0);
}

TEST(Trajectory, AHeaterStuckOnIsFoughtByTheChiller) {
  const Equipment equipment{.chiller = small_chiller(), .heater = w(50), .heater_works = Working::stuck_on};
  const auto run = trajectory(bare_tank(), equipment, {c(8)}, steady(21, 100), std::array{c(8)}, one_degree);
  EXPECT_LE(run.warmest.c(), 8.5 + 1e-9);
  EXPECT_NEAR(run.from_heater.kwh(), 5.0, 1e-9);
}

TEST(Trajectory, TakesASetPointForEachHourAndWaterChanges) {
  const Equipment equipment{.chiller = small_chiller(400)};
  std::vector<Temperature> set_points(48, c(12));
  std::fill(set_points.begin() + 24, set_points.end(), c(8));
  const std::array changes{WaterChangeAt{10, 0.25, c(16)}};
  const auto run = trajectory(bare_tank(), equipment, {c(12)}, steady(21, 48), set_points, one_degree, 0, Hours(1), changes);
  EXPECT_NEAR(run.water.back().c(), 8.0, 0.51);
  EXPECT_GT(run.warmest, c(12.6));
  EXPECT_NEAR(run.from_changes.j(), bare_tank().capacity.j_per_k() * 0.25 * (16 - run.water[10].c()), 1e-6);
}

TEST(Trajectory, LightsGoByTheHourOfTheDay) {
  TankHeat tank = bare_tank(10, 0);
  tank.light = w(40);
  tank.light_from_hour = 8;
  tank.light_until_hour = 16;
  const auto run = trajectory(tank, {}, {c(21)}, steady(21, 24), std::array{c(8)}, one_degree, 20);
  EXPECT_DOUBLE_EQ(run.water[12].c(), 21.0);  // until 8 o'clock
  EXPECT_GT(run.water[13].c(), 21.1);
}

TEST(Trajectory, AHastyMachineIsHeldAndEnergyStillAddsUp) {
  TankHeat tank{.capacity = heat_capacity(Volume::from_l(5)), .conductance = w_per_k(3)};
  const auto run = trajectory(tank, {.chiller = constant_chiller(3000)}, {c(8)}, steady(21, 5), std::array{c(8)}, TemperatureChange::from_c(0.01));
  EXPECT_NEAR(run.water.back().c(), 8.0, 0.01);
  EXPECT_NEAR(run.gained.j() - run.removed.j(), tank.capacity.j_per_k() * (run.water.back() - run.water.front()).c(), 1e-3);
}

TEST(Trajectory, FollowsFineEulerStepsInAChangingRoom) {
  const TankHeat tank = bare_tank();
  const Chiller chiller{.rated = w(330)};
  std::vector<Temperature> rooms;
  for (int hour = 0; hour < 96; ++hour) rooms.push_back(c(hour % 24 > 7 && hour % 24 < 17 ? 24 : 17));
  const auto run = trajectory(tank, {.chiller = chiller}, {c(20)}, rooms, std::array{c(9)}, one_degree);
  double t_c = 20.0;
  bool on = false;
  for (std::size_t hour = 0; hour < rooms.size(); ++hour) {
    for (int i = 0; i < 7200; ++i) {
      if (t_c >= 9.5) on = true;
      if (t_c <= 8.5) on = false;
      const double net_w = heat_balance(tank, c(t_c), rooms[hour]).total.w() - (on ? cooling_power(chiller, c(t_c), rooms[hour]).w() : 0.0);
      t_c += 0.5 * net_w / tank.capacity.j_per_k();
    }
    EXPECT_NEAR(run.water[hour + 1].c(), t_c, 0.02) << hour;
  }
}

}  // namespace
}  // namespace redd::heat
