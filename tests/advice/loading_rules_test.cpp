// The rules that speak of loading and of oxygen.
#include <gtest/gtest.h>

#include <algorithm>

#include "planning/loading.h"
#include "support/told_filter.h"

namespace redd::advice {
namespace {

using namespace redd::testing;

const Action* action_of(const season::DayView& day, std::string_view rule) {
  const auto found = std::ranges::find(day.advice.actions, rule, &Action::rule);
  return found == day.advice.actions.end() ? nullptr : &*found;
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

TEST(Crowding, IsSaidAheadWithTimeToActAndWithoutAlarm) {
  const auto day = look_with(brood(500), strong_filter());
  const Action* a = action_of(day, "crowding");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->tone, Tone::watch);
  EXPECT_EQ(a->aim, Aim::deadline);
  EXPECT_GT(a->by, on_day(31));
  EXPECT_TRUE(std::ranges::any_of(a->cautions, [](const Sentence& s) { return s.pattern.find("permit") != std::string::npos; }));
  EXPECT_FALSE(a->because.empty());
  EXPECT_FALSE(a->would_change_if.empty());
  EXPECT_FALSE(a->sources.empty());
}

TEST(Crowding, DoesNotOutrankWhatIsDueTomorrow) {
  auto season = brood(500);
  season.drops(29, "oxygen", 12);  // 6 mg/L: too little for eggs
  const auto day = look_with(season, strong_filter());
  ASSERT_NE(action_of(day, "crowding"), nullptr);
  EXPECT_EQ(day.advice.actions.front().rule, "oxygen");
}

TEST(Crowding, IsSilentForAFewFish) { EXPECT_EQ(action_of(look_with(brood(20), strong_filter()), "crowding"), nullptr); }

TEST(Crowding, LeavesAWeakFilterToItsOwnRule) {
  auto told = told_filter(0.95, 0.2);
  told.outlook.capacity_at_target_mg_n_per_l_per_day = {0.01, 0.02, 0.03};
  const auto day = look_with(brood(100), told);
  ASSERT_NE(action_of(day, "filter_load"), nullptr);
  EXPECT_EQ(action_of(day, "crowding"), nullptr);
}

TEST(Crowding, SendsNoFishAwayForAnAirPumpNobodyDescribed) {
  const auto day = look_with(brood(3000, 300, std::nullopt), strong_filter());
  if (const Action* a = action_of(day, "crowding")) {
    EXPECT_EQ(a->how_much.pattern.find("By {0}"), 0u);
    EXPECT_NE(std::get<Word>(a->how_much.values.front()).text, "oxygen");
  }
}

TEST(Oxygen, LowIsAnsweredWithAir) {
  auto season = brood(100);
  season.drops(29, "oxygen", 14);
  const auto a_day = look_with(season, strong_filter());
  const Action* a = action_of(a_day, "oxygen");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->what.pattern, "Give the water more air.");
  EXPECT_EQ(a->tone, Tone::alarm);
}

TEST(Oxygen, WhereTheWaterIsFullAlreadyMoreAirIsNotAskedFor) {
  auto season = brood(100, 300, 10.0, 4000);  // full water holds some 7.2 mg/L at 8 C
  season.drops(29, "oxygen", 14);             // 7 mg/L
  const auto a_day = look_with(season, strong_filter());
  const Action* a = action_of(a_day, "oxygen");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->key, "oxygen_cooler");
  EXPECT_EQ(a->what.pattern.find("air"), std::string::npos);
}

TEST(Oxygen, MoreThanTheWaterCanHoldIsGasAndNotTooLittle) {
  auto season = brood(100);
  season.drops(29, "oxygen", 29);  // 14.5 mg/L at 8 C
  const auto quiet_day = look_with(season, strong_filter());
  const Action* quiet = action_of(quiet_day, "oxygen");
  ASSERT_NE(quiet, nullptr);
  EXPECT_EQ(quiet->key, "oxygen_gas");
  EXPECT_EQ(quiet->tone, Tone::watch);
  season.add(29, WaterChange{.volume = Volume::from_l(40)}, 9);
  season.drops(30, "oxygen", 29);
  const auto changed_day = look_with(season, strong_filter());
  const Action* changed = action_of(changed_day, "oxygen");
  ASSERT_NE(changed, nullptr);
  EXPECT_EQ(changed->tone, Tone::act);
}

TEST(Oxygen, ManyFryAndNoTestAskForOne) {
  const auto a_day = look_with(brood(400, swum_up_c_days, std::nullopt), strong_filter());
  const Action* a = action_of(a_day, "oxygen");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->key, "oxygen_unknown");
  EXPECT_EQ(a->tone, Tone::watch);
  EXPECT_EQ(a->deeds, std::vector{Deed::test});
}

TEST(Oxygen, EggsAndFewFryWithGoodAirNeedNoTest) {
  EXPECT_EQ(action_of(look_with(brood(100), strong_filter()), "oxygen"), nullptr);
  EXPECT_EQ(action_of(look_with(brood(10, swum_up_c_days, 10.0), strong_filter()), "oxygen"), nullptr);
}

TEST(Oxygen, NoAnimalsNoAction) {
  SmallSeason season;
  season.drops(29, "oxygen", 8);
  EXPECT_EQ(action_of(look_with(season, strong_filter()), "oxygen"), nullptr);
}

}  // namespace
}  // namespace redd::advice
