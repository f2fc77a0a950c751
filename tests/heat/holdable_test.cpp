#include "heat/holdable.h"

#include <gtest/gtest.h>

#include <array>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

constexpr HeatDoubt none{};

DayAbility ability(const Equipment& equipment, double room_c, double set_point_c, const HeatDoubt& doubt = none, double duty = refused_duty) {
  const std::vector<RoomDay> rooms{steady_room(c(room_c))};
  return holdable_range(bare_tank(), equipment, doubt, rooms, std::array{c(set_point_c)}, duty).front();
}

TEST(Holdable, ColdestIsHeldAtJustTheDutyAllowed) {
  const Equipment equipment{.chiller = small_chiller()};
  const auto day = ability(equipment, 21, 8);
  EXPECT_NEAR(held(bare_tank(), small_chiller(), day.coldest, c(21)).duty_fraction, refused_duty, 1e-6);
  EXPECT_NEAR(day.warmest.c(), 22.5, 1e-9);  // room and pump, nothing running
  EXPECT_EQ(day.holding, Holding::held);
  EXPECT_NEAR(day.duty_fraction, 145.0 / 250.0, 1e-9);
  EXPECT_NEAR(day.electric.kwh(), held(bare_tank(), small_chiller(), c(8), c(21)).electric.w() * 0.024, 1e-9);
}

TEST(Holdable, DoubtNarrowsItFromBothSides) {
  const Equipment equipment{.chiller = small_chiller(), .heater = w(100)};
  const auto sure = ability(equipment, 21, 8), doubtful = ability(equipment, 21, 8, doubt_without_log);
  EXPECT_GT(doubtful.coldest, sure.coldest);
  EXPECT_LT(doubtful.warmest, sure.warmest);
  EXPECT_LT(doubtful.largest_cooling, sure.largest_cooling);
  EXPECT_GT(doubtful.warmest_hour_duty_fraction, sure.warmest_hour_duty_fraction);
  EXPECT_NEAR(doubtful.duty_fraction, sure.duty_fraction, 1e-12);  // the likely one
}

TEST(Holdable, GoesByTheWarmestHour) {
  RoomDay room = steady_room(c(18));
  room[14] = c(26);
  const auto day = holdable_range(bare_tank(), {.chiller = small_chiller()}, none, std::vector<RoomDay>{room}, std::array{c(8)}).front();
  EXPECT_NEAR(day.coldest.c(), ability({.chiller = small_chiller()}, 26, 8).coldest.c(), 1e-9);
  EXPECT_NEAR(day.warmest.c(), 19.5, 1e-9);
  EXPECT_LT(day.duty_fraction, day.warmest_hour_duty_fraction);
}

TEST(Holdable, LargestCoolingIsADayOfRunningWithoutPause) {
  const auto day = ability({.chiller = constant_chiller(250)}, 21, 12);
  const auto run = relaxation(bare_tank().capacity, bare_tank().conductance, c(21), w(15 - 250)).after(c(12), Hours(24));
  EXPECT_NEAR(day.largest_cooling.c(), 12 - run.c(), 1e-6);
  EXPECT_GT(day.largest_warming.c(), 0.0);
  EXPECT_EQ(ability({}, 21, 12).largest_cooling.c(), 0.0);
}

TEST(Holdable, WithoutChillerOrWithADeadOneTheRoomDecides) {
  for (const Equipment& equipment : {Equipment{}, Equipment{.chiller = small_chiller(), .chiller_works = Working::stuck_off}}) {
    const auto day = ability(equipment, 21, 8);
    EXPECT_NEAR(day.coldest.c(), 22.5, 1e-9);
    EXPECT_EQ(day.holding, Holding::never_reached);
    EXPECT_EQ(day.electric.j(), 0.0);
  }
}

TEST(Holdable, AHeaterWidensTheWarmSideAndPaysForAColdRoom) {
  const auto with = ability({.heater = w(100)}, 5, 10), without = ability({}, 5, 10);
  EXPECT_NEAR((with.warmest - without.warmest).c(), 10.0, 1e-9);
  EXPECT_EQ(with.holding, Holding::not_needed);
  EXPECT_NEAR(with.electric.kwh(), 0.024 * (50 - 15), 1e-9);
}

TEST(Holdable, OneEntryADay) {
  const auto rooms = std::vector<RoomDay>{steady_room(c(18)), steady_room(c(30))};
  const auto days = holdable_range(bare_tank(), {.chiller = small_chiller(170)}, none, rooms, std::array{c(10), c(6)});
  ASSERT_EQ(days.size(), 2u);
  EXPECT_EQ(days[0].holding, Holding::held);
  EXPECT_EQ(days[1].holding, Holding::never_reached);
  EXPECT_GT(days[1].coldest, c(6));
}

}  // namespace
}  // namespace redd::heat
