#include "season/feed_look.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "report/feed_view.h"
#include "support/fry_season.h"

namespace redd::season {
namespace {

using redd::testing::fry_season;
using redd::testing::on_day;
using redd::testing::SmallSeason;

FeedLook look_of(const SmallSeason& season, int day, int hour = 12) {
  auto look = look_at_feed({}, season.log(), on_day(day, hour));
  EXPECT_TRUE(look.has_value());
  return std::move(look).value();
}

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(FeedLook, SaysThereIsNothingToFeed) {
  SmallSeason season;
  const auto look = look_of(season, 3);
  EXPECT_FALSE(look.plan.has_value());
  const auto json = report::feed_json(look);
  EXPECT_EQ(json["stage"], "none");
  EXPECT_TRUE(json["today"].is_null());
  EXPECT_FALSE(report::feed_text(look).empty());
}

TEST(FeedLook, NeedsASeason) { EXPECT_FALSE(look_at_feed({}, {}, on_day(3)).has_value()); }

TEST(FeedLook, CarriesRationCostGrowthAndGaps) {
  auto season = fry_season(76);
  season.add(70, records::Spoon{10, Mass::from_g(1.0), {}});
  season.add(74, redd::testing::weighed(20, 2.4));
  const auto json = report::feed_json(look_of(season, 76));
  EXPECT_EQ(json["stage"], "routine");
  EXPECT_EQ(json["hold"]["food"], "all");
  EXPECT_GT(json["today"]["planned_g"].get<double>(), 0.0);
  EXPECT_LE(json["today"]["planned_g"].get<double>(), json["today"]["most_g"].get<double>());
  EXPECT_TRUE(has(json["today"]["text"], "level spoon"));
  EXPECT_TRUE(json["cost"]["carried_probability"].is_null());
  EXPECT_EQ(json["cost"]["carried_text"], "not known");
  EXPECT_EQ(json["growth"]["samples"].size(), 1u);
  EXPECT_FALSE(json["gaps"].empty());
  EXPECT_FALSE(json["gaps"][0]["do_not"].empty());
  EXPECT_EQ(json["alive"]["mid"], 200.0);
  for (std::size_t i = 1; i < json["growth"]["days"].size(); ++i) EXPECT_LT(json["growth"]["days"][i - 1]["day"], json["growth"]["days"][i]["day"]);
}

TEST(FeedLook, AnAlarmStopsTheFoodInEveryView) {
  auto season = fry_season(74);
  season.step(76, "nitrite", 0.8, 10);
  const auto look = look_of(season, 76);
  const auto json = report::feed_json(look);
  EXPECT_EQ(json["hold"]["food"], "none");
  EXPECT_EQ(json["sentence"], "Do not feed now.");
  EXPECT_EQ(json["today"]["planned_g"], 0.0);
  EXPECT_TRUE(has(report::feed_text(look), "Do not feed now."));
}

/// The plan without and with what holds food back: what is shown for tomorrow and for the pots is what will be given.
void shows_the_hold(const SmallSeason& calm, const SmallSeason& held, double share) {
  const auto whole = report::feed_json(look_of(calm, 76)), json = report::feed_json(look_of(held, 76));
  for (const char* day : {"today", "tomorrow"}) {
    EXPECT_NEAR(json[day]["planned_g"].get<double>(), share * whole[day]["planned_g"].get<double>(), 1e-9) << day;
    EXPECT_EQ(json[day]["returns_to_g"], whole[day]["planned_g"]) << day;
  }
  ASSERT_EQ(json["gaps"].size(), whole["gaps"].size());
  ASSERT_FALSE(json["gaps"].empty());
  for (std::size_t i = 0; i < json["gaps"].size(); ++i) {
    EXPECT_NEAR(json["gaps"][i]["a_day_g"].get<double>(), share * whole["gaps"][i]["a_day_g"].get<double>(), 1e-9);
    EXPECT_EQ(json["gaps"][i]["returns_to_g"], whole["gaps"][i]["a_day_g"]);
  }
  EXPECT_TRUE(has(json["tomorrow"]["text"], "over; then " + whole["tomorrow"]["text"].get<std::string>())) << json["tomorrow"]["text"];
  EXPECT_FALSE(has(json["tomorrow"]["text"].get<std::string>().substr(0, 10), whole["tomorrow"]["text"].get<std::string>()));
}

TEST(FeedLook, TomorrowAndThePotsCarryAnAlarm) {
  auto held = fry_season(74);
  held.step(76, "nitrite", 0.8, 10);
  auto calm = fry_season(74);
  calm.step(76, "nitrite", 0, 10);
  shows_the_hold(calm, held, 0.0);
  const auto json = report::feed_json(look_of(held, 76));
  EXPECT_TRUE(has(json["tomorrow"]["text"], "no food until"));
  EXPECT_TRUE(has(json["gaps"].dump(), "No pots yet"));
  EXPECT_TRUE(has(report::feed_text(look_of(held, 76)), "No food until what holds it back is over"));
}

TEST(FeedLook, TomorrowAndThePotsCarryHalf) {
  auto held = fry_season(76);
  held.add(75, records::FilterWork{records::FilterWork::Work::rinsed, 0.5});
  shows_the_hold(fry_season(76), held, 0.5);
  EXPECT_TRUE(has(report::feed_json(look_of(held, 76))["gaps"].dump(), "half of the usual"));
}

TEST(FeedLook, ReadingsAtOddsHoldFoodAsTodaysListDoes) {
  const auto tested = [](int kh_drops) {
    auto season = fry_season(74);
    season.step(76, "ammonia", 0.2);
    season.step(76, "ph", 6.8);
    season.drops(76, "kh", kh_drops);
    season.temperature(76, 8);
    return season;
  };
  ASSERT_EQ(look_of(tested(6), 76).today_share, 1.0) << "calm while pH and KH go together";
  const auto season = tested(40);  // 20 German degrees: at this pH more CO2 than any aired tank holds
  const auto look = look_of(season, 76);
  EXPECT_EQ(look.today_share, 0.5);
  EXPECT_EQ(look.share_to_come, 0.5);
  const auto list = season.look(76).advice.actions;
  const auto less = std::ranges::find_if(list, [](const advice::Action& a) { return a.key.starts_with("feed_less/half"); });
  ASSERT_NE(less, list.end());
  ASSERT_FALSE(look.holds.empty());
  EXPECT_TRUE(std::ranges::any_of(less->because, [&](const advice::Reason& r) { return r.sentence.pattern == look.holds.front().why.pattern; }));
}

TEST(FeedLook, TooMuchFoodIsNoneTodayAndHalfTomorrow) {
  auto season = fry_season(76);
  const auto before = report::feed_json(look_of(season, 76));
  season.add(76, redd::testing::grams(20), 10);
  const auto json = report::feed_json(look_of(season, 76));
  ASSERT_FALSE(json["overfed"].is_null());
  EXPECT_EQ(json["today"]["planned_g"], 0.0);
  EXPECT_EQ(json["today"]["text"], "no food");
  EXPECT_LT(json["tomorrow"]["planned_g"].get<double>(), 0.6 * before["tomorrow"]["planned_g"].get<double>());
}

TEST(FeedLook, MoreThanTodaysFoodIsSaidToBeEnough) {
  auto season = fry_season(76);
  const double planned_g = report::feed_json(look_of(season, 76))["today"]["planned_g"].get<double>();
  season.add(76, redd::testing::grams(1.5 * planned_g), 10);
  EXPECT_TRUE(has(report::feed_json(look_of(season, 76))["sentence"].get<std::string>(), "Enough for today"));
}

TEST(FeedLook, TextFitsATerminalAndNamesItsSources) {
  const std::string text = report::feed_text(look_of(fry_season(76), 76));
  for (const char* part : {"Today", "Tomorrow", "Weekends", "Growth", "What this rests on", "common practice, no source", "double ration"}) EXPECT_TRUE(has(text, part)) << part;
  std::size_t widest = 0, column = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0) == 0x80) continue;  // inside a letter
    column = c == '\n' ? 0 : column + 1;
    widest = std::max(widest, column);
  }
  EXPECT_LE(widest, 80u);
}

TEST(FeedLook, TheSameLogAndMomentGiveTheSameWords) {
  const auto season = fry_season(76);
  EXPECT_EQ(report::feed_json(look_of(season, 76)).dump(), report::feed_json(look_of(season, 76)).dump());
}

}  // namespace
}  // namespace redd::season
