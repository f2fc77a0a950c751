#include "season/season.h"

#include <gtest/gtest.h>

#include "report/day_json.h"
#include "support/small_season.h"

namespace redd::season {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;

TEST(LookAtDay, WithoutASeasonSaysSo) {
  const auto view = look_at_day({}, {}, on_day(1));
  ASSERT_FALSE(view.has_value());
  EXPECT_EQ(view.problems().front().code, "no_season");
}

TEST(LookAtDay, SameRecordsSamePage) {
  SmallSeason season;
  season.quiet_tests(7);
  season.eggs(8);
  EXPECT_EQ(report::day_json(season.look(20)), report::day_json(season.look(20)));
}

TEST(LookAtDay, ShowsThePastAsItWasKnown) {
  SmallSeason season;
  season.quiet_tests(7);
  const std::string then = report::day_json(season.look(7, 20));
  season.step(30, "nitrite", 0.8);
  season.eggs(31);
  EXPECT_EQ(report::day_json(season.look(7, 20)), then);
}

}  // namespace
}  // namespace redd::season
