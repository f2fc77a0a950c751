// The rules that speak of loading and of oxygen.
#include <gtest/gtest.h>

#include <algorithm>

#include "planning/loading.h"
#include "support/told_filter.h"

namespace redd::advice {
namespace {

using namespace redd::testing;

std::optional<Action> action_of(const season::DayView& day, std::string_view rule) {
  const auto found = std::ranges::find(day.advice.actions, rule, &Action::rule);
  return found == day.advice.actions.end() ? std::nullopt : std::optional(*found);
}

SmallSeason brood(int count, double thermal_sum_c_days = 300, std::optional<double> air_l_per_min = 10.0, double elevation_m = 0) {
  SmallSeason season;
  std::get<SeasonSetup>(season.log().front().entry.body).elevation_m = elevation_m;
  if (air_l_per_min) season.add(1, TankBuild{.water_height_cm = 40, .air_l_per_min = air_l_per_min});
  season.quiet_tests(27);
  EggReceipt eggs;
  eggs.count = count, eggs.start = EggReceipt::Start::thermal_sum, eggs.thermal_sum = ThermalSum::from_c_days(thermal_sum_c_days);
  season.add(28, eggs);
  return season;
}

constexpr double swum_up_c_days = 1000;

planning::FilterOutlook strong_filter() {
  auto told = told_filter(0.95, 0.95);
  told.outlook.capacity_at_target_mg_n_per_l_per_day = {4, 5, 6};
  return told;
}

constexpr double near_swim_up_c_days = 560;

TEST(Crowding, IsSaidAheadWithTimeToActAndWithoutAlarm) {
  const auto day = look_with(brood(500, near_swim_up_c_days), strong_filter());
  const auto a = action_of(day, "crowding");
  ASSERT_TRUE(a);
  EXPECT_EQ(a->tone, Tone::watch);
  EXPECT_EQ(a->aim, Aim::deadline);
  EXPECT_GT(a->by, on_day(31));
  EXPECT_TRUE(std::ranges::any_of(a->cautions, [](const Sentence& s) { return s.pattern.find("permit") != std::string::npos; }));
  EXPECT_FALSE(a->because.empty());
  EXPECT_FALSE(a->would_change_if.empty());
  EXPECT_FALSE(a->sources.empty());
}

TEST(Crowding, DoesNotOutrankWhatIsDueTomorrow) {
  auto season = brood(500, near_swim_up_c_days);
  season.drops(29, "oxygen", 12);  // 6 mg/L: too little for eggs
  const auto day = look_with(season, strong_filter());
  ASSERT_TRUE(action_of(day, "crowding"));
  EXPECT_EQ(day.advice.actions.front().rule, "oxygen");
}

TEST(Crowding, IsSilentWhileTheLimitIsMonthsAway) { EXPECT_FALSE(action_of(look_with(brood(500, 200), strong_filter()), "crowding")); }

TEST(Crowding, SpeaksEarlyWhileFewerEggsCanStillBeOrdered) {
  SmallSeason season;
  auto& setup = std::get<SeasonSetup>(season.log().front().entry.body);
  setup.egg_day = local_day({}, on_day(60)), setup.egg_count = 900;
  season.quiet_tests(27);
  const auto a = action_of(look_with(season, strong_filter()), "crowding");
  ASSERT_TRUE(a);
  EXPECT_NE(a->what.pattern.find("supplier"), std::string::npos);
  std::get<SeasonSetup>(season.log().front().entry.body).egg_count = 60;
  EXPECT_FALSE(action_of(look_with(season, strong_filter()), "crowding"));
}

TEST(Crowding, ANumberThatNobodySaidIsAskedForAndNotCorrected) {
  SmallSeason season;
  auto& setup = std::get<SeasonSetup>(season.log().front().entry.body);
  setup.egg_day = local_day({}, on_day(60)), setup.volume = Volume::from_l(60);
  season.quiet_tests(27);
  const auto a = action_of(look_with(season, strong_filter()), "crowding");
  ASSERT_TRUE(a);
  EXPECT_EQ(a->what.pattern, "Nobody has said how many eggs come. This tank probably carries about {0} until {1}: tell the supplier.");
  EXPECT_EQ(a->how_much.pattern.find("too many"), std::string::npos);
  EXPECT_EQ(a->because.front().sentence.pattern, "Nobody said how many eggs: {0} are taken.");
  std::get<SeasonSetup>(season.log().front().entry.body).egg_count = 200;
  EXPECT_NE(action_of(look_with(season, strong_filter()), "crowding")->what.pattern.find("instead of {1}"), std::string::npos);
}

TEST(Crowding, ForAnAssumedDayNothingIsDueToday) {
  SmallSeason season;
  auto& setup = std::get<SeasonSetup>(season.log().front().entry.body);
  setup.egg_day = local_day({}, on_day(40)), setup.egg_count = 900;
  season.quiet_tests(27);
  const auto by = [&](bool assumed) {
    std::get<SeasonSetup>(season.log().front().entry.body).egg_day_assumed = assumed;
    const auto a = action_of(look_with(season, strong_filter()), "crowding");
    return a ? local_day({}, a->by) - local_day({}, on_day(30)) : std::chrono::days(-1);
  };
  EXPECT_LE(by(false), std::chrono::days(1));
  EXPECT_GE(by(true), std::chrono::days(3));
}

TEST(Crowding, IsSilentForAFewFish) { EXPECT_FALSE(action_of(look_with(brood(20), strong_filter()), "crowding")); }

TEST(Crowding, LeavesAWeakFilterToItsOwnRule) {
  auto told = told_filter(0.95, 0.2);
  told.outlook.capacity_at_target_mg_n_per_l_per_day = {0.01, 0.02, 0.03};
  const auto day = look_with(brood(100), told);
  ASSERT_TRUE(action_of(day, "filter_load"));
  EXPECT_FALSE(action_of(day, "crowding"));
}

TEST(Crowding, SendsNoFishAwayForAnAirPumpNobodyDescribed) {
  const auto day = look_with(brood(3000, 300, std::nullopt), strong_filter());
  if (const auto a = action_of(day, "crowding")) {
    EXPECT_EQ(a->how_much.pattern.find("By {0}"), 0u);
    EXPECT_NE(std::get<Word>(a->how_much.values.front()).text, "oxygen");
  }
}

TEST(Oxygen, LowIsAnsweredWithAir) {
  auto season = brood(100);
  season.drops(29, "oxygen", 14);
  const auto a = action_of(look_with(season, strong_filter()), "oxygen");
  ASSERT_TRUE(a);
  EXPECT_EQ(a->what.pattern, "Give the water more air.");
  EXPECT_EQ(a->tone, Tone::alarm);
}

TEST(Oxygen, WhereTheWaterIsFullAlreadyMoreAirIsNotAskedFor) {
  auto season = brood(100, 300, 10.0, 4000);  // full water holds some 7.2 mg/L at 8 C
  season.drops(29, "oxygen", 15);             // 7.5 mg/L at most
  const auto a = action_of(look_with(season, strong_filter()), "oxygen");
  ASSERT_TRUE(a);
  EXPECT_EQ(a->key, "oxygen_cooler");
  EXPECT_EQ(a->what.pattern.find("air"), std::string::npos);
}

TEST(Oxygen, MoreThanTheWaterCanHoldIsGasAndNotTooLittle) {
  auto season = brood(100);
  season.drops(29, "oxygen", 29);  // 14.5 mg/L at 8 C
  const auto quiet = action_of(look_with(season, strong_filter()), "oxygen");
  ASSERT_TRUE(quiet);
  EXPECT_EQ(quiet->key, "oxygen_gas");
  EXPECT_EQ(quiet->tone, Tone::watch);
  season.add(29, WaterChange{.volume = Volume::from_l(40)}, 9);
  season.drops(30, "oxygen", 29);
  const auto changed = action_of(look_with(season, strong_filter()), "oxygen");
  ASSERT_TRUE(changed);
  EXPECT_EQ(changed->tone, Tone::act);
}

TEST(Oxygen, ManyFryAndNoTestAskForOne) {
  const auto a = action_of(look_with(brood(400, swum_up_c_days, std::nullopt), strong_filter()), "oxygen");
  ASSERT_TRUE(a);
  EXPECT_EQ(a->key, "oxygen_unknown");
  EXPECT_EQ(a->tone, Tone::watch);
  EXPECT_EQ(a->deeds, std::vector{Deed::test});
}

TEST(Oxygen, EggsAndFewFryWithGoodAirNeedNoTest) {
  EXPECT_FALSE(action_of(look_with(brood(100), strong_filter()), "oxygen"));
  EXPECT_FALSE(action_of(look_with(brood(10, swum_up_c_days, 10.0), strong_filter()), "oxygen"));
}

TEST(Oxygen, NoAnimalsNoAction) {
  SmallSeason season;
  season.drops(29, "oxygen", 8);
  EXPECT_FALSE(action_of(look_with(season, strong_filter()), "oxygen"));
}

}  // namespace
}  // namespace redd::advice
