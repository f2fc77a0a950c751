#include "heat/room.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

Date day(const char* text) { return *date_from_iso(text); }

RoomScenario school() {
  return {.night_change = TemperatureChange::from_c(-4), .weekend_change = TemperatureChange::from_c(-6), .used_from_hour = 8, .used_until_hour = 16,
          .breaks = {{day("2031-12-22"), day("2032-01-02"), c(13)}}};
}

TEST(RoomDay, IsWarmInUseAndSetBackAtNightAndAtTheWeekend) {
  const RoomDay wednesday = room_day(school(), day("2032-01-14"));
  EXPECT_EQ(wednesday[7], wednesday[16]);
  EXPECT_NEAR((wednesday[8] - wednesday[7]).c(), 4.0, 1e-9);
  EXPECT_NEAR(warmest_of(wednesday).c(), 21.0, 0.1);  // near the coldest part of the year
  const RoomDay saturday = room_day(school(), day("2032-01-17"));
  EXPECT_EQ(coldest_of(saturday), warmest_of(saturday));
  EXPECT_NEAR(mean_of(saturday).c(), 15.0, 0.1);
}

TEST(RoomDay, FollowsTheYear) {
  EXPECT_NEAR(room_day(school(), day("2032-07-19"))[12].c(), 24.0, 0.01);
  EXPECT_LT(room_day(school(), day("2032-04-14"))[12], c(24));
  EXPECT_GT(room_day(school(), day("2032-04-14"))[12], c(21));
}

TEST(RoomDay, ABreakHoldsAllDayOnItsFirstAndLastDay) {
  for (const char* text : {"2031-12-22", "2031-12-28", "2032-01-02"}) EXPECT_EQ(room_day(school(), day(text)), steady_room(c(13))) << text;
  EXPECT_NE(room_day(school(), day("2031-12-21")), steady_room(c(13)));
  EXPECT_NE(room_day(school(), day("2032-01-03")), steady_room(c(13)));
}

TEST(RoomDays, ComeInOrderAndEndToEnd) {
  const auto days = room_days(school(), day("2031-12-21"), 3);
  ASSERT_EQ(days.size(), 3u);
  EXPECT_EQ(days[1], steady_room(c(13)));
  const auto hours = hours_of(days);
  ASSERT_EQ(hours.size(), 72u);
  EXPECT_EQ(hours[24], c(13));
  EXPECT_EQ(hours[23], days[0][23]);
}

}  // namespace
}  // namespace redd::heat
