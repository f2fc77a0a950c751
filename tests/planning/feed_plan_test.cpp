#include "planning/feed_plan.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/fry_season.h"

namespace redd::planning {
namespace {

using redd::testing::fry_season;
using redd::testing::grams;
using redd::testing::on_day;
using redd::testing::SmallSeason;

Date date_of(int day) { return *date_from_iso("2031-01-06") + std::chrono::days(day); }

FeedPlan plan_of(const SmallSeason& season, int day, const FilterOutlook* filter = nullptr, int hour = 12) {
  const auto view = season.look(day, hour);
  auto plan = feed_plan(view.season, view.records, view.belief, records::SchoolCalendar(view.records), filter, view.zone, view.now);
  EXPECT_TRUE(plan.has_value());
  return *plan;
}

FilterOutlook filter_carrying(double mg_n_per_l_per_day) {
  FilterOutlook filter;
  filter.outlook.capacity_now_mg_n_per_l_per_day = {0.7 * mg_n_per_l_per_day, mg_n_per_l_per_day, 1.4 * mg_n_per_l_per_day, Support::inferred};
  return filter;
}

TEST(FeedPlan, WaitsForSwimUp) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8, 250);
  const auto plan = plan_of(season, 10);
  EXPECT_EQ(plan.stage, FeedStage::waiting);
  EXPECT_FALSE(plan.today_ration.has_value());
  EXPECT_FALSE(plan.since.has_value());
}

TEST(FeedPlan, OffersAPinchAtHalfAndFeedsDailyFromNineInTen) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8, 400);
  season.add(60, records::Count{records::Count::What::swum_up, 120});
  const auto half = plan_of(season, 60);
  EXPECT_EQ(half.stage, FeedStage::pinch);
  EXPECT_NEAR(half.swum_up_fraction.mid, 0.6, 1e-9);
  ASSERT_TRUE(half.today_ration.has_value());
  season.add(61, records::Count{records::Count::What::swum_up, 190});
  const auto most = plan_of(season, 61);
  EXPECT_EQ(most.stage, FeedStage::routine);
  EXPECT_GT(most.today_ration->wanted.g(), half.today_ration->wanted.g()) << "only those that swim up eat";
}

TEST(FeedPlan, TheRationIsThreeFifthsOfTheTableForAllOfThem) {
  const auto plan = plan_of(fry_season(80), 75);
  const auto& r = *plan.today_ration;
  EXPECT_NEAR(r.wanted.g(), 0.6 * r.table_fraction_per_day.mid * 200 * r.fish.mid.g(), 1e-9);
  EXPECT_GT(r.most.g(), r.wanted.g());
  EXPECT_EQ(r.planned, r.wanted) << "no filter outlook, nothing held down";
  EXPECT_EQ(r.feedings.wanted, 8);
}

TEST(FeedPlan, FoodGoesUpByHalfOfWhatWasFedLately) {
  auto season = fry_season(80);
  for (int day = 68; day < 75; ++day) season.add(day, grams(0.02), 10);
  const auto plan = plan_of(season, 75);
  ASSERT_TRUE(plan.stepped_from.has_value());
  EXPECT_NEAR(plan.stepped_from->g(), 0.02, 1e-12);
  EXPECT_NEAR(plan.today_ration->planned.g(), 0.03, 1e-12);
  auto few = fry_season(80);
  for (int day = 72; day < 75; ++day) few.add(day, grams(0.02), 10);
  EXPECT_FALSE(plan_of(few, 75).stepped_from.has_value()) << "three logged days say little of what was fed";
}

TEST(FeedPlan, FewerFishGetLessFood) {
  auto fewer = fry_season(80);
  fewer.add(70, records::Count{records::Count::What::alive, 100});
  EXPECT_LT(plan_of(fewer, 75).today_ration->wanted.g(), plan_of(fry_season(80), 75).today_ration->wanted.g());
}

TEST(FeedPlan, CountsInLevelSpoonsOnceTheyAreWeighed) {
  auto season = fry_season(80);
  EXPECT_FALSE(plan_of(season, 75).today_ration->spoons.has_value());
  season.add(70, records::Spoon{10, Mass::from_g(1.0), {}});
  const auto plan = plan_of(season, 75);
  ASSERT_TRUE(plan.today_ration->spoons.has_value());
  EXPECT_NEAR(*plan.today_ration->spoons, plan.today_ration->planned.g() / 0.1, 1e-9);
}

TEST(FeedPlan, AWeakFilterHoldsTheRationDownButNeverStarvesThem) {
  const auto season = fry_season(80);
  const auto strong = filter_carrying(5.0), weak = filter_carrying(0.1), dead = filter_carrying(0.001);
  EXPECT_EQ(plan_of(season, 75, &strong).today_ration->planned, plan_of(season, 75).today_ration->wanted);
  EXPECT_GT(*plan_of(season, 75, &strong).cost.carried_probability, 0.95);
  const auto held = plan_of(season, 75, &weak);
  EXPECT_LT(*held.cost.carried_probability, carried_enough);
  EXPECT_LT(held.today_ration->planned.g(), held.today_ration->wanted.g());
  const auto least = plan_of(season, 75, &dead);
  EXPECT_NEAR(least.today_ration->planned.g(), least_share * least.today_ration->wanted.g(), 1e-6);
}

TEST(FeedPlan, AnOutlookThatCameToNoNumberSaysNothing) {
  auto unsound = filter_carrying(0.001);
  unsound.outlook.sound = false;
  EXPECT_FALSE(plan_of(fry_season(80), 75, &unsound).cost.carried_probability.has_value());
}

TEST(FeedPlan, AWeekendInTheFirstWeeksNeedsSomebody) {
  const auto season = fry_season(62, 60);  // day 60 is a Friday
  const auto plan = plan_of(season, 60);
  ASSERT_FALSE(plan.gaps.empty());
  const auto& weekend = plan.gaps.front();
  EXPECT_EQ(weekend.from, date_of(61));
  EXPECT_EQ(weekend.to, date_of(62));
  EXPECT_EQ(weekend.may_miss_days, 1);
  EXPECT_FALSE(weekend.covered);
  EXPECT_GT(weekend.adds_mg_n_per_l.mid, 0.0);
  auto with_duty = season;
  with_duty.add(59, records::Duty{"Team Heron", date_of(61), {}});
  EXPECT_TRUE(plan_of(with_duty, 60).gaps.front().covered) << "one day may be missed";
}

TEST(FeedPlan, ABreakIsNotCoveredByOneVisit) {
  auto season = fry_season(62, 60);
  season.add(50, records::Closure{"Spring break", date_of(63), date_of(67), {}});
  season.add(50, records::Duty{"Team Heron", date_of(61), {}});
  const auto plan = plan_of(season, 60);
  EXPECT_FALSE(plan.gaps.front().covered);
  EXPECT_EQ(plan.gaps.front().to, date_of(69)) << "weekends around it count";
}

TEST(FeedPlan, TellsOverfeedingAndWhatIsToCome) {
  auto season = fry_season(80);
  const auto fair = plan_of(season, 75);
  EXPECT_FALSE(fair.overfed.has_value());
  season.add(75, grams(fair.today_ration->most.g() + 5.0), 10);
  const auto plan = plan_of(season, 75);
  ASSERT_TRUE(plan.overfed.has_value());
  EXPECT_NEAR(plan.overfed->to_come_mg_n_per_l.mid, 5.0 * 80 / 200, 1e-6);
  EXPECT_TRUE(plan_of(season, 76).overfed.has_value()) << "and still said the day after";
  EXPECT_FALSE(plan_of(season, 77).overfed.has_value());
}

TEST(FeedPlan, SumsWhatWasFedToday) {
  auto season = fry_season(80);
  season.add(75, grams(0.1), 9);
  season.add(75, grams(0.2), 11);
  EXPECT_NEAR(plan_of(season, 75).fed_today.g(), 0.3, 1e-9);
  EXPECT_NEAR(plan_of(season, 76).fed_today.g(), 0.0, 1e-9);
}

TEST(FeedPlan, AsksForASampleTwoWeeksAfterTheLastOnASchoolDay) {
  auto season = fry_season(90);
  EXPECT_EQ(plan_of(season, 66).sample_due, date_of(74));
  season.add(74, redd::testing::weighed(20, 2.4));
  EXPECT_EQ(plan_of(season, 76).sample_due, date_of(88));
  EXPECT_EQ(plan_of(season, 89).sample_due, date_of(91)) << "overdue on a Saturday: on Monday";
}

}  // namespace
}  // namespace redd::planning
