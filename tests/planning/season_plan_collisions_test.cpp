#include "planning/season_plan_collisions.h"

#include <gtest/gtest.h>

#include "planning/invented_question.h"

namespace redd::planning {
namespace {

using testing::first_day;

Date day(int d) {
  return first_day + std::chrono::days(d);
}

/// Hatch in the first weeks, swim-up in a window; small enough for many searches.
SeasonQuestion season_with(int hatch_first, int hatch_last, int up_first, int up_last) {
  SeasonQuestion q = testing::season("rainbow_trout", 130, 1, 48);
  q.precision.nodes = 256;
  q.precision.step_c = 1.0;
  Wish hatch{"hatch_then", "hatch in a certain fortnight", PlanStage::hatch, {}, 1.0};
  for (int d = 0; d < 130; ++d) hatch.good.push_back(d >= hatch_first && d <= hatch_last);
  q.wishes = {hatch, swim_up_between(q.days, day(up_first), day(up_last))};
  return q;
}

TEST(Conflicts, AreNoneWhereAllCanBeMet) {
  const auto found = conflicts(season_with(12, 40, 45, 90));
  EXPECT_TRUE(found.obstacles.empty());
  EXPECT_TRUE(found.out_of_reach.empty());
  EXPECT_TRUE(found.collisions.empty());
}

TEST(Conflicts, NameTheTwoWishesTheDaysAndTheWaysOut) {
  // A late hatch and a swim-up within days of it: each can be had alone, together the alevins lack the time.
  const auto found = conflicts(season_with(22, 34, 26, 38));
  ASSERT_EQ(found.collisions.size(), 1u);
  const Collision& c = found.collisions.front();
  EXPECT_EQ(c.first, "hatch_then");
  EXPECT_EQ(c.second, "swim_up_in_window");
  EXPECT_GE(c.first_alone + c.second_alone - c.first_together - c.second_together, 0.25);
  ASSERT_FALSE(c.ways_out.empty());
  for (const RelaxedWish& way : c.ways_out) {
    EXPECT_GT(way.by_days, 0);
    EXPECT_LE(way.by_days, 60);
    EXPECT_GE(way.plan.score.wishes[0].probability + way.plan.score.wishes[1].probability, c.first_alone + c.second_alone - 0.11);
  }
  EXPECT_NE(c.sentence.pattern.find("collide"), std::string::npos);
}

TEST(Conflicts, TellAWindowThatClosesBeforeTheEarliestSwimUp) {
  const auto found = conflicts(season_with(12, 40, 5, 15));
  ASSERT_EQ(found.out_of_reach.size(), 1u);
  EXPECT_EQ(found.out_of_reach.front().key, "swim_up_in_window");
  EXPECT_LT(found.out_of_reach.front().best_probability, 0.05);
  EXPECT_GT(found.out_of_reach.front().by_days, 5);
}

TEST(Conflicts, TellAHolidayThatCoversTheSeason) {
  SeasonQuestion q = season_with(12, 40, 45, 90);
  q.wishes.push_back(hatch_on_school_days(std::vector<bool>(130, false)));
  const auto found = conflicts(q);
  ASSERT_EQ(found.obstacles.size(), 1u);
  EXPECT_EQ(found.obstacles.front().code, "wish_without_days");
  EXPECT_EQ(found.obstacles.front().field, "hatch_on_school_days");
}

TEST(Conflicts, PassOnWhatKeepsAnyPlanFromBeing) {
  SeasonQuestion q = season_with(12, 40, 45, 90);
  q.lots.clear();
  const auto found = conflicts(q);
  ASSERT_EQ(found.obstacles.size(), 1u);
  EXPECT_EQ(found.obstacles.front().code, "missing_lots");
}

}  // namespace
}  // namespace redd::planning
