#include "lessons/worksheet.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "lessons/class_season.h"
#include "report/lessons_view.h"

namespace redd::lessons {
namespace {

using redd::testing::ClassSeason;

ClassSeason full() {
  ClassSeason season(36);
  season.eggs(20);
  for (int day = 25; day < 36; ++day) season.temperature(day, 7.4 + 0.3 * (day % 4));
  season.add(25, records::Count{records::Count::What::dead_eggs, 7});
  season.team_drops(30, "kh", 6, "Team Otter");
  season.team_drops(30, "kh", 7, "Team Heron");
  season.team_drops(30, "kh", 9, "Team Dipper");
  return season;
}

const Task* find(const Worksheet& sheet, std::string_view key) {
  const auto found = std::ranges::find(sheet.tasks, key, &Task::key);
  return found == sheet.tasks.end() ? nullptr : &*found;
}
std::string text(const Sentence& s) { return report::text_of(s, {}); }
double exact(const Shown& value) { return std::get<Exact>(value).value; }

TEST(Worksheet, HasSixToTenTasksOfEachLevel) {
  const auto look = full().lessons(36);
  for (const auto* sheet : {&look.younger, &look.older}) {
    EXPECT_GE(sheet->tasks.size(), 6u);
    EXPECT_LE(sheet->tasks.size(), 10u);
    for (const Task& task : sheet->tasks) {
      EXPECT_FALSE(text(task.title).empty() || text(task.text).empty() || text(task.answer).empty()) << task.key;
      EXPECT_EQ(text(task.text).find('{'), std::string::npos) << text(task.text);
    }
  }
}

TEST(Worksheet, TheSameNumberGivesTheSameSheetAndAnotherAnother) {
  const auto season = full();
  std::set<std::string> stamps;
  for (const int sheet : {1, 2, 3, 4, 5}) {
    const auto look = season.lessons(36, sheet), again = season.lessons(36, sheet);
    EXPECT_EQ(report::lessons_json(look)["sheets"], report::lessons_json(again)["sheets"]);
    stamps.insert(report::worksheet_stamp(look.older, {}));
  }
  EXPECT_GE(stamps.size(), 4u);
}

TEST(Worksheet, AnswersFollowFromTheNumbersThatArePrinted) {
  const auto season = full();
  for (int number = 1; number <= 6; ++number) {
    const auto look = season.lessons(36, number);
    for (const auto* sheet : {&look.younger, &look.older}) {
      const Task* days = find(*sheet, "degree_days");
      ASSERT_NE(days, nullptr);
      double sum = 0;
      for (const auto& row : days->rows) sum += sheet->level == Level::older ? exact(row.value) : std::round(exact(row.value));
      EXPECT_NEAR(exact(days->answer.values[0]), sum, 1e-9);
      const Task* warm = find(*sheet, "warmest");
      ASSERT_NE(warm, nullptr);
      const auto [low, high] = std::ranges::minmax_element(warm->rows, {}, [](const TableRow& row) { return exact(row.value); });
      EXPECT_EQ(exact(warm->answer.values[0]), exact(high->value));
      EXPECT_NEAR(exact(warm->answer.values[2]), exact(high->value) - exact(low->value), 0.0501);
    }
    const Task* change = find(look.older, "water_change");
    ASSERT_NE(change, nullptr);
    const double tank = exact(change->text.values[0]), before = exact(change->text.values[1]), out = exact(change->text.values[2]), fresh = exact(change->text.values[3]);
    EXPECT_NEAR(exact(change->answer.values[0]), (before * (tank - out) + fresh * out) / tank, 0.0501);
  }
}

TEST(Worksheet, InFahrenheitAnswersFollowFromTheNumbersThatArePrinted) {
  const auto season = full();
  for (int number = 1; number <= 6; ++number) {
    const auto look = season.lessons(36, number, true);
    for (const auto* sheet : {&look.younger, &look.older}) {
      const bool older = sheet->level == Level::older;
      const Task* days = find(*sheet, "degree_days");
      ASSERT_NE(days, nullptr);
      double sum = 0, mean = 0;
      for (const auto& row : days->rows) {
        const auto& shown = std::get<Exact>(row.value);
        EXPECT_EQ(shown.unit, "°F");
        EXPECT_NEAR(shown.value * 10.0, std::round(shown.value * 10.0), 1e-9) << "a class sees tenths";
        EXPECT_GT(shown.value, 44.0);
        sum += (older ? shown.value : std::round(shown.value)) - 32.0;
        mean += shown.value / static_cast<double>(days->rows.size());
      }
      EXPECT_NEAR(exact(days->answer.values[0]), sum, 1e-9);
      if (older) EXPECT_NEAR(exact(days->answer.values[1]), mean, 0.0501);
      const Task* warm = find(*sheet, "warmest");
      ASSERT_NE(warm, nullptr);
      const auto [low, high] = std::ranges::minmax_element(warm->rows, {}, [](const TableRow& row) { return exact(row.value); });
      EXPECT_NEAR(exact(warm->answer.values[2]), exact(high->value) - exact(low->value), 0.0501);
      if (older) EXPECT_NEAR(exact(warm->answer.values[3]) * 1.8, exact(warm->answer.values[2]), 0.0901);
      for (const Task& task : sheet->tasks)
        if (task.key == "water_change") EXPECT_NE(text(task.text).find("US gal"), std::string::npos) << text(task.text);
    }
    EXPECT_NE(report::worksheet_stamp(look.older, {}), report::worksheet_stamp(season.lessons(36, number).older, {}));
  }
}

TEST(Graphs, TemperaturesAreDrawnInTheClasssDegrees) {
  const auto c = full().lessons(36).graphs.front(), f = full().lessons(36, 1, true).graphs.front();
  EXPECT_EQ(f.unit, "°F");
  ASSERT_EQ(f.lines[0].mid.size(), c.lines[0].mid.size());
  EXPECT_NEAR(f.lines[0].mid[3], 1.8 * c.lines[0].mid[3] + 32.0, 1e-9);
}

// Worked by hand: 3.0, 3.5 and 4.5 German degrees.
TEST(Worksheet, TeamsGiveMeanDeviationAndStandardError) {
  ClassSeason season(-1);
  season.team_drops(30, "kh", 6, "Team Otter");
  season.team_drops(30, "kh", 7, "Team Heron");
  season.team_drops(30, "kh", 9, "Team Dipper");
  const auto look = season.lessons(30);
  EXPECT_EQ(text(find(look.older, "teams")->answer), "Mean 3.67 German degrees, s = 0.76, standard error 0.44.");
  EXPECT_EQ(text(find(look.younger, "teams")->answer), "1.5 German degrees apart; in the middle 3.5 German degrees.");
}

// 14.007 / 62.004 = 0.226.
TEST(Worksheet, ConvertsNitrateToNitrogenByMolarMass) {
  ClassSeason season(-1);
  season.step(1, "nitrate", 40);
  const auto look = season.lessons(1);
  const Task* task = find(look.older, "card");
  ASSERT_NE(task, nullptr);
  EXPECT_EQ(text(task->answer), "9.04 mg/L as N.");
  EXPECT_EQ(text(task->working), "40 x 0.226 = 9.04");
}

TEST(Worksheet, SurvivalInNumbersAndInPercent) {
  ClassSeason season(-1);
  season.eggs(20);
  season.add(25, records::Count{records::Count::What::dead_eggs, 7});
  const auto look = season.lessons(26);
  EXPECT_EQ(text(find(look.younger, "survival")->answer), "193.");
  EXPECT_TRUE(text(find(look.older, "survival")->answer).starts_with("96.5 %")) << text(find(look.older, "survival")->answer);
}

TEST(Worksheet, SurvivalOfAFewAsksForNoFewerThanNone) {
  ClassSeason season(-1);
  season.eggs(20);
  season.add(25, records::Count{records::Count::What::dead_eggs, 194});
  for (int number = 1; number <= 6; ++number) {
    const auto look = season.lessons(26, number);
    ASSERT_NE(find(look.older, "survival"), nullptr);
    EXPECT_EQ(text(find(look.older, "survival")->answer), "3.0 %.");
    EXPECT_EQ(text(find(look.older, "survival")->text), "200 eggs came. 194 dead have been found. What percentage was not found dead?");
  }
  season.add(26, records::Count{records::Count::What::dead_eggs, 7});
  EXPECT_EQ(find(season.lessons(27).older, "survival"), nullptr);
  EXPECT_EQ(find(season.lessons(27).younger, "survival"), nullptr);
}

TEST(Worksheet, NitrateOfNewWaterThatNobodyReadIsOnlySupposed) {
  ClassSeason season(8);
  records::SourceWater tap;
  tap.key = tap.name = "tap";
  season.add(9, tap);
  const auto look = season.lessons(10);
  const Task* change = find(look.older, "water_change");
  ASSERT_NE(change, nullptr);
  const std::string asked = text(change->text);
  EXPECT_NE(asked.find("Suppose the new water holds none."), std::string::npos) << asked;
  EXPECT_EQ(asked.find(" 0.0 "), std::string::npos) << asked;
  ASSERT_EQ(change->text.values.size(), 3u);
  const double tank = exact(change->text.values[0]), before = exact(change->text.values[1]), out = exact(change->text.values[2]);
  EXPECT_NEAR(exact(change->answer.values[0]), before * (tank - out) / tank, 0.0501);
}

TEST(Worksheet, WhatTheDataDoNotSufficeForIsLeftOutAndSaid) {
  const auto look = ClassSeason(-1).lessons(2);
  EXPECT_EQ(find(look.younger, "survival"), nullptr);
  EXPECT_EQ(look.younger.tasks.size() + look.younger.left_out.size(), 10u);
  EXPECT_EQ(look.older.tasks.size() + look.older.left_out.size(), 10u);
  for (const Sentence& s : look.older.left_out) EXPECT_FALSE(text(s).empty());
}

}  // namespace
}  // namespace redd::lessons
