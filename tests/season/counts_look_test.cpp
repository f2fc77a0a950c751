#include "season/counts_look.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::season {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using records::Count;

TEST(CountsLook, NeedsASeason) {
  const auto look = look_at_counts({}, {}, on_day(5));
  ASSERT_FALSE(look.has_value());
  EXPECT_EQ(look.problems().front().code, "no_season");
}

TEST(CountsLook, KnowsOnlyWhatWasLoggedByThen) {
  SmallSeason season;
  season.eggs(8);
  season.add(12, Count{Count::What::dead_eggs, 40});
  EXPECT_EQ(look_at_counts({}, season.log(), on_day(11, 12))->counts.account.dead(), 0);
  EXPECT_EQ(look_at_counts({}, season.log(), on_day(12, 12))->counts.account.dead(), 40);
}

TEST(CountsLook, AgreesWithTheDayOnHowManyAreLeft) {
  SmallSeason season;
  season.eggs(8);
  season.add(12, Count{Count::What::dead_eggs, 10});
  season.add(40, Count{Count::What::alive, 150});
  season.add(50, records::Release{50, "Brook"});
  const auto look = look_at_counts({}, season.log(), on_day(50, 12));
  const auto day = season.look(50);
  ASSERT_TRUE(day.belief.brood.alive);
  EXPECT_EQ(day.belief.brood.alive->mid, look->counts.account.alive.mid);
  EXPECT_EQ(inference::animals_left(day.belief.brood), 100);
  EXPECT_EQ(day.belief.brood.released_count, 50);
}

}  // namespace
}  // namespace redd::season
