#include "report/counts_view.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::report {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using records::Count;
using What = records::Count::What;

season::CountsLook look_at(const SmallSeason& season, int day) {
  auto look = season::look_at_counts({}, season.log(), on_day(day, 12));
  EXPECT_TRUE(look.has_value());
  return std::move(look).value();
}
bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(CountsView, BeforeEggsComeSaysSo) {
  const auto look = look_at(SmallSeason(), 5);
  const auto view = counts_json(look);
  EXPECT_TRUE(view["alive"].is_null());
  EXPECT_TRUE(view["received_on"].is_null());
  EXPECT_EQ(view["losses"]["state"], "no_animals");
  EXPECT_TRUE(view["curve"].empty());
  EXPECT_EQ(counts_text(look), "No eggs have been received, so there is nothing to count yet.\n");
}

TEST(CountsView, SaysAliveAsARangeAndSurvivalByStage) {
  SmallSeason season;
  season.temperature(7, 6);
  season.eggs(8, 200);
  season.add(9, Count{What::dead_eggs, 2});
  season.add(14, Count{What::dead_eggs, 1});
  const auto view = counts_json(look_at(season, 14));
  EXPECT_EQ(view["alive"]["text"], "about 197 (192 to 202)");
  EXPECT_EQ(view["sentence"], "About 197 (192 to 202) alive: 200 received, 3 found dead.");
  EXPECT_TRUE(has(view["rests_on"], "nobody has counted the living"));
  EXPECT_EQ(view["losses"]["state"], "as_expected");
  ASSERT_EQ(view["stages"].size(), 2u);
  EXPECT_EQ(view["stages"][0]["survival_fraction"]["text"], "98 % (96 to 100)");
  EXPECT_EQ(view["stages"][0]["verdict"], "not_below");
  EXPECT_TRUE(has(view["stages"][0]["verdict_text"], "so far"));
  ASSERT_EQ(view["curve"].size(), 3u);
  EXPECT_EQ(view["curve"][0]["survival_fraction"]["mid"], 1.0);
  EXPECT_NEAR(view["curve"][2]["survival_fraction"]["mid"].get<double>(), 0.985, 1e-9);
}

TEST(CountsView, AnOutbreakIsSaidWithNumbersChecksAndWhatThen) {
  SmallSeason season;
  season.temperature(7, 6);
  season.eggs(8, 200);
  for (int day = 8; day < 22; ++day)
    if (day % 7 < 5) season.add(day, Count{What::dead_eggs, 0});
  season.add(22, Count{What::dead_eggs, 8});
  const auto look = look_at(season, 22);
  const auto view = counts_json(look);
  EXPECT_EQ(view["losses"]["state"], "more_than_expected");
  EXPECT_EQ(view["losses"]["since"], "2031-01-28");
  EXPECT_EQ(view["losses"]["sentence"], "More have died than expected, since Tuesday 28 January 2031: 8 found dead where fewer than one would be usual.");
  EXPECT_EQ(view["losses"]["checks"].size(), 6u);
  EXPECT_EQ(view["losses"]["then"].size(), 3u);
  EXPECT_TRUE(view["losses"]["looks"].back()["signals"].get<bool>());
  const std::string text = counts_text(look);
  EXPECT_TRUE(has(text, "Look at, in this order:"));
  EXPECT_LT(text.find("Temperature"), text.find("Nitrite"));
  EXPECT_TRUE(has(text, "300 days"));
  for (const char* word : {"disease", "fungus", "formalin", "salt"}) EXPECT_FALSE(has(text, word)) << word;
}

TEST(CountsView, WhatWasMoreThanExpectedThisWeekIsNotCalledWell) {
  SmallSeason season;
  season.temperature(7, 6);
  season.eggs(8, 200);
  for (int day = 8; day < 22; ++day)
    if (day % 7 < 5) season.add(day, Count{What::dead_eggs, 0});
  season.add(22, Count{What::dead_eggs, 8});
  season.add(25, Count{What::dead_eggs, 1});
  const auto losses = counts_json(look_at(season, 25))["losses"];
  EXPECT_EQ(losses["tone"], "watch");
  EXPECT_EQ(losses["state"], "more_than_expected");
  EXPECT_EQ(losses["sentence"], "8 dead on Tuesday 28 January 2031 were more than expected; 1 since then, which is usual. Look every day and note the dead.");
  EXPECT_EQ(losses["since"], "2031-01-28");
  EXPECT_EQ(losses["died"], 8);
  season.add(30, Count{What::dead_eggs, 0});
  EXPECT_EQ(counts_json(look_at(season, 30))["losses"]["tone"], "good");
}

TEST(CountsView, MissingAnimalsAreNotCalledWell) {
  SmallSeason season;
  season.temperature(7, 6);
  season.eggs(8, 200);
  season.add(9, Count{What::dead_eggs, 0});
  season.add(12, Count{What::alive, 120});
  season.add(12, Count{What::dead_eggs, 0});
  EXPECT_EQ(counts_json(look_at(season, 12))["losses"]["tone"], "watch");
}

TEST(CountsView, NumbersThatDoNotAddUpNameTheirRecords) {
  SmallSeason season;
  season.eggs(8, 200);
  season.add(9, Count{What::dead_eggs, 120});
  const auto counted = season.add(12, Count{What::alive, 190});
  const auto look = look_at(season, 12);
  const auto view = counts_json(look);
  ASSERT_EQ(view["findings"].size(), 1u);
  EXPECT_EQ(view["findings"][0]["record_ids"][0], counted);
  EXPECT_EQ(view["counts"][0]["fit"], "more");
  EXPECT_TRUE(has(counts_text(look), "Does not add up"));
}

}  // namespace
}  // namespace redd::report
