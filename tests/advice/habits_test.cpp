#include "advice/habits.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_season.h"

namespace redd::advice {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using records::AdviceAnswer;
constexpr unsigned monday = 1, thursday = 4, friday = 5;

Date date_of(int day) { return local_day({}, on_day(day)); }

Habits habits_on(const SmallSeason& season, int day) {
  const auto view = season.look(day);
  return habits_of(view.records, view.belief, records::SchoolCalendar(view.records), {}, view.now);
}

TEST(Habits, ThreeSittingsOfFourMakeAUsualDay) {
  SmallSeason season;
  for (const int day : {0, 7, 14}) season.quiet_tests(day);
  EXPECT_FALSE(habits_on(season, 15).usual.has_value()) << "three are too few to tell";
  season.quiet_tests(22);  // a Tuesday
  ASSERT_TRUE(habits_on(season, 23).usual.has_value());
  EXPECT_EQ(habits_on(season, 23).usual->weekday, monday);
  EXPECT_EQ(habits_on(season, 23).usual->times, 3);
  EXPECT_EQ(habits_on(season, 23).usual->records.size(), 3u);
  season.quiet_tests(30);  // a Wednesday: two of the last four
  EXPECT_FALSE(habits_on(season, 31).usual.has_value());
}

TEST(Habits, ASingleTestIsNoSitting) {
  SmallSeason season;
  for (const int day : {0, 7, 14, 21}) season.step(day, "nitrite", 0);
  EXPECT_FALSE(habits_on(season, 22).usual.has_value());
}

/// Sittings on Fridays 4 and 11 are followed by Fridays answered with "skipped", made up on a Monday.
SmallSeason skips_fridays(int times) {
  SmallSeason season;
  season.step(2, "nitrite", 0.8);  // the filter has shown that it works
  season.quiet_tests(4);
  for (int week = 0; week < times; ++week) {
    season.add(11 + 7 * week, AdviceAnswer{AdviceAnswer::Answer::skipped, "vigilance+weekly_test", {}, {}});
    season.quiet_tests(15 + 7 * week - 1);
  }
  return season;
}

TEST(Habits, ThreeSkippedFridaysOfFourAreAvoided) {
  EXPECT_TRUE(habits_on(skips_fridays(2), 27).avoided.empty());
  const auto habits = habits_on(skips_fridays(3), 34);
  ASSERT_EQ(habits.avoided.size(), 1u);
  EXPECT_EQ(habits.avoided.front().weekday, friday);
  EXPECT_EQ(habits.avoided.front().times, 3);
  EXPECT_GE(habits.avoided.front().records.size(), 3u);
}

TEST(Habits, AFridayDueAndMadeUpLaterCountsAsSkippedWithoutAWord) {
  SmallSeason season;
  // Fridays 4, 18, 32, 46 held; each next Friday is made up on the Monday after, and the week is then begun anew on a Friday.
  for (const int cycle : {0, 1, 2, 3}) {
    season.quiet_tests(4 + 14 * cycle);
    season.quiet_tests(14 + 14 * cycle);
  }
  const auto habits = habits_on(season, 58);
  const auto found = std::ranges::find(habits.avoided, friday, &Habits::Weekday::weekday);
  EXPECT_EQ(found, habits.avoided.end()) << "half of them are held: no habit";
}

TEST(Habits, DaysTheSchoolIsClosedAreNobodysHabit) {
  SmallSeason season = skips_fridays(3);
  season.add(1, records::Closure{"Invented Friday off", date_of(25), {}, {}});
  EXPECT_TRUE(habits_on(season, 34).avoided.empty());
}

TEST(ByHabit, GoesToTheUsualDayWithinTwoEarlierAndOneLater) {
  Habits habits;
  habits.usual = Habits::Weekday{thursday, 3, 4, {}};
  const records::SchoolCalendar school;
  EXPECT_EQ(by_habit(habits, school, date_of(18)), date_of(17));  // Friday
  EXPECT_EQ(by_habit(habits, school, date_of(16)), date_of(17));  // Wednesday
  EXPECT_EQ(by_habit(habits, school, date_of(17)), date_of(17));
  EXPECT_EQ(by_habit(habits, school, date_of(15)), date_of(15)) << "two days later is too late, five earlier too early";
}

TEST(ByHabit, PlansForTheDayBeforeAnAvoidedOne) {
  Habits habits;
  habits.avoided = {{friday, 3, 4, {}}};
  const records::SchoolCalendar school;
  EXPECT_EQ(by_habit(habits, school, date_of(18)), date_of(17));
  EXPECT_EQ(by_habit(habits, school, date_of(17)), date_of(17));
  EXPECT_EQ(by_habit({}, school, date_of(18)), date_of(18));
}

TEST(ByHabit, NeverPlansForAClosedDay) {
  SmallSeason season;
  season.add(1, records::Closure{"Invented Thursday off", date_of(17), {}, {}});
  const records::SchoolCalendar school(season.log());
  Habits habits;
  habits.avoided = {{friday, 3, 4, {}}};
  EXPECT_EQ(by_habit(habits, school, date_of(18)), date_of(16));
  habits.avoided.clear();
  habits.usual = Habits::Weekday{thursday, 3, 4, {}};
  EXPECT_EQ(by_habit(habits, school, date_of(18)), date_of(18));
}

TEST(WeeklyTest, SaysThatItIsPlannedForThursdayBecauseFridaysAreSkipped) {
  SmallSeason season = skips_fridays(3);
  season.temperature(34, 8);
  season.eggs(34);
  season.quiet_tests(39);  // a Friday after all: the next is due on Friday the 46th
  const auto advice = season.look(40).advice;
  const auto test = std::ranges::find_if(advice.actions, [](const Action& a) { return a.rule == "weekly_test"; });
  ASSERT_NE(test, advice.actions.end());
  EXPECT_EQ(local_day({}, test->by), date_of(45));
  const auto said = std::ranges::find_if(test->because, [](const Reason& r) { return r.sentence.pattern.starts_with("You skip tests on"); });
  ASSERT_NE(said, test->because.end());
  EXPECT_FALSE(said->records.empty());
  const auto days_ahead = weekly_test_days(std::get<records::SeasonSetup>(season.log().front().entry.body), season.look(40).records, season.look(40).belief, {}, on_day(40), date_of(47));
  ASSERT_FALSE(days_ahead.empty());
  EXPECT_EQ(days_ahead.front().day, date_of(45)) << "the calendar says the same";
}

}  // namespace
}  // namespace redd::advice
