#include "season/loading_look.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::season {
namespace {

using namespace redd::testing;

TEST(LookAtLoading, WithoutASeasonSaysSo) { EXPECT_EQ(look_at_loading({}, {}, on_day(1)).problems().front().code, "no_season"); }

TEST(LookAtLoading, TellsHoursOfReserveOnceAnimalsAreIn) {
  SmallSeason season;
  season.quiet_tests(7);
  EXPECT_TRUE(look_at_loading({}, season.log(), on_day(7, 12))->view.reserve.empty());
  season.eggs(8);
  const auto look = look_at_loading({}, season.log(), on_day(9, 12));
  ASSERT_TRUE(look);
  EXPECT_FALSE(look->view.reserve.empty());
  EXPECT_FALSE(look->view.days.empty());
}

TEST(LookAtLoading, ShowsThePastAsItWasKnown) {
  SmallSeason season;
  season.quiet_tests(7);
  season.eggs(8);
  const auto then = look_at_loading({}, season.log(), on_day(9, 12))->view.animals;
  season.add(20, Count{.what = Count::What::dead_eggs, .count = 50});
  EXPECT_EQ(look_at_loading({}, season.log(), on_day(9, 12))->view.animals, then);
  EXPECT_EQ(look_at_loading({}, season.log(), on_day(21, 12))->view.animals, then - 50);
}

}  // namespace
}  // namespace redd::season
