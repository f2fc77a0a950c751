#include "season/next_year.h"

#include <gtest/gtest.h>

#include "report/numbers.h"
#include "support/small_season.h"

namespace redd::season {
namespace {

using records::Count;
using redd::testing::on_day;
using redd::testing::SmallSeason;
using Verdict = Lesson::Verdict;

Lesson lesson(const SmallSeason& season, int day, const std::string& key) {
  const auto next = look_at_next_year({}, season.log(), on_day(day, 12));
  EXPECT_TRUE(next.has_value());
  for (const Lesson& one : next->lessons)
    if (one.key == key) return one;
  ADD_FAILURE() << key;
  return {};
}
std::string found(const Lesson& lesson) { return report::text_of(lesson.found, report::Reader{}); }
bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// 200 L; 0.8 mg N/L of ammonia dosed, and gone the day after.
void dose(SmallSeason& season, int day) {
  season.add(day, records::Dose{records::Substance::ammonium_chloride, Mass::from_g(0.62), {}});
  season.step(day + 1, "ammonia", 0, 20);
  season.step(day + 1, "nitrite", 0, 20);
}

TEST(NextYear, OfASeasonWithoutEggsIsNotKnownThroughout) {
  const auto next = look_at_next_year({}, SmallSeason().log(), on_day(5));
  ASSERT_TRUE(next.has_value());
  EXPECT_EQ(next->lessons.size(), 7u);
  for (const Lesson& one : next->lessons) EXPECT_EQ(one.verdict, Verdict::not_known) << one.key;
}

TEST(NextYear, AFilterThatClearedADoseInColdWaterWasReady) {
  SmallSeason season;
  season.temperature(10, 8);
  dose(season, 10);
  season.eggs(15);
  const Lesson one = lesson(season, 20, "readiness");
  EXPECT_EQ(one.verdict, Verdict::keep);
  EXPECT_TRUE(has(found(one), "4 days before the eggs came")) << found(one);
}

TEST(NextYear, AFilterProvenWarmLongAgoOrNeverIsNotCalledReady) {
  SmallSeason warm, old, never, unread, after;
  warm.temperature(10, 20);
  old.temperature(10, 8);
  for (SmallSeason* season : {&warm, &old, &unread}) dose(*season, 10);
  for (SmallSeason* season : {&warm, &never, &unread, &after}) season->eggs(15);
  old.eggs(30);
  after.temperature(16, 8);
  dose(after, 16);
  EXPECT_EQ(lesson(warm, 40, "readiness").verdict, Verdict::better);
  EXPECT_EQ(lesson(old, 40, "readiness").verdict, Verdict::better);
  EXPECT_EQ(lesson(never, 40, "readiness").verdict, Verdict::not_known);
  EXPECT_EQ(lesson(unread, 40, "readiness").verdict, Verdict::not_known) << "how warm the water was nobody read";
  EXPECT_EQ(lesson(after, 40, "readiness").verdict, Verdict::not_known) << "the dose came after the eggs";
}

TEST(NextYear, CountsDaysWithoutTests) {
  SmallSeason weekly, sparse;
  for (SmallSeason* season : {&weekly, &sparse}) season->eggs(8);
  for (int day = 8; day <= 36; day += 7) weekly.step(day, "nitrite", 0);
  sparse.step(8, "nitrite", 0);
  sparse.step(29, "nitrite", 0);
  EXPECT_EQ(lesson(weekly, 36, "tests").verdict, Verdict::keep);
  const Lesson one = lesson(sparse, 36, "tests");
  EXPECT_EQ(one.verdict, Verdict::better);
  // Of days 8 to 36 those from 18 to 28 are more than nine days after the test of day 8.
  EXPECT_TRUE(has(found(one), "on 11 of 29 days")) << found(one);
  EXPECT_TRUE(has(found(one), "20 days")) << found(one);
}

TEST(NextYear, CountsDaysWithoutATemperature) {
  SmallSeason season;
  season.eggs(8);
  for (int day = 8; day <= 20; ++day)
    if (day < 11 || day > 16) season.temperature(day, 8);
  const Lesson one = lesson(season, 20, "temperatures");
  EXPECT_EQ(one.verdict, Verdict::better);
  EXPECT_TRUE(has(found(one), "7 of 13 days")) << found(one);
  EXPECT_TRUE(has(found(one), "6 days")) << found(one);
}

TEST(NextYear, SaysHowFarADateWasOff) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8);
  const auto report = look_at_report({}, season.log(), on_day(8, 12));
  const auto window = *report->foretold.at(1).window;
  const int late = static_cast<int>((biology::day_of(window.high_90) - biology::day_of(biology::CalendarMoment(local_day({}, on_day(0))))).count()) + 3;
  season.add(late, records::Milestone{records::Milestone::Which::half_hatched, true});
  const Lesson one = lesson(season, late, "milestones");
  EXPECT_EQ(one.verdict, Verdict::better);
  EXPECT_TRUE(has(found(one), "0 of 1 inside")) << found(one);
  EXPECT_TRUE(has(found(one), "later than most likely")) << found(one);
}

TEST(NextYear, LossesNobodyLookedForAreNotKnown) {
  SmallSeason silent, heavy;
  for (SmallSeason* season : {&silent, &heavy}) season->eggs(8);
  for (int day = 9; day < 20; ++day) heavy.add(day, Count{Count::What::dead_eggs, 10});
  EXPECT_EQ(lesson(silent, 20, "losses").verdict, Verdict::not_known);
  EXPECT_EQ(lesson(heavy, 20, "losses").verdict, Verdict::better);
}

TEST(NextYear, KitsThatNeverTouchAreNamed) {
  SmallSeason season;
  records::Kit other = SmallSeason::kit();
  other.key = "old", other.name = "Old kit";
  season.add(0, other, 1);
  for (const int day : {2, 4, 6}) {
    season.step(day, "nitrite", 0.05);
    records::Reading high = SmallSeason::reading("nitrite", records::Reading::Form::step, 0.4);
    high.kit = "old";
    season.add(day, high);
  }
  const Lesson one = lesson(season, 7, "kits");
  EXPECT_EQ(one.verdict, Verdict::better);
  EXPECT_TRUE(has(found(one), "ranges apart on 3 of 3 days")) << found(one);
  season.add(6, records::WaterChange{.volume = Volume::from_l(20)}, 12);
  const Lesson less = lesson(season, 7, "kits");
  EXPECT_TRUE(has(found(less), "on 2 of 2 days")) << "a day with a water change does not count";
  EXPECT_EQ(less.verdict, Verdict::not_known) << "two days tell nothing of a kit";
}

TEST(NextYear, WaterIsComparedOnlyWhereItWasKnown) {
  SmallSeason season;
  season.eggs(8);
  EXPECT_EQ(lesson(season, 40, "water").verdict, Verdict::not_known);
}

}  // namespace
}  // namespace redd::season
