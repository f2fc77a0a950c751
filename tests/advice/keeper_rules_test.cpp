// Rules that a keeper's day brings up beside the water: receiving, light, release, pH, the thermometer, the filter's proof, a stopped pump.
#include <gtest/gtest.h>

#include <algorithm>

#include "advice/advise.h"
#include "support/small_season.h"

namespace redd::advice {
namespace {

using redd::testing::SmallSeason;
using records::EquipmentEvent;

const Action* action_with(const Advice& advice, std::string_view key) {
  const auto found = std::ranges::find_if(advice.actions, [&](const Action& a) { return a.key == key || a.key.find(key) != std::string::npos; });
  return found == advice.actions.end() ? nullptr : &*found;
}

bool has(const Action& a, Deed deed) { return std::ranges::find(a.deeds, deed) != a.deeds.end(); }

Date date_of(int day) { return *date_from_iso("2031-01-06") + std::chrono::days(day); }

SmallSeason with_eggs() {
  SmallSeason season;
  season.step(2, "nitrite", 0.8);
  season.step(5, "nitrite", 0);
  season.temperature(7, 8);
  season.eggs(8, 250);
  season.quiet_tests(14);
  season.temperature(14, 8);
  return season;
}

records::SeasonSetup& setup_of(SmallSeason& season) { return std::get<records::SeasonSetup>(season.log().front().entry.body); }

TEST(Ammonia, NoneReadAtAPhOffItsCardAsksForThePhBeforeAnyWater) {
  auto season = with_eggs();
  season.step(16, "ammonia", 0);
  season.add(16, SmallSeason::reading("ph", records::Reading::Form::above_last, {}));
  season.temperature(16, 8);
  const auto advice = season.look(16).advice;
  const Action* closer = action_with(advice, "ammonia/closer");
  ASSERT_NE(closer, nullptr);
  EXPECT_GE(closer->tone, Tone::act);
  for (const Action& a : advice.actions) EXPECT_FALSE(a.water_change.has_value() && a.key.find("ammonia") != std::string::npos) << a.key;
}

TEST(Ammonia, TooMuchAtAPhOffAHighCardChangesWaterNow) {
  // A quarter of a milligram is too much already at the card's top, whatever pH lies above it.
  auto season = with_eggs();
  auto& kit = std::get<records::Kit>(season.log()[1].entry.body);
  kit.tests[0].steps = {0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3};
  kit.tests[3].steps = {6.6, 7.2, 7.8, 8.4, 9.0};
  season.step(16, "ammonia", 0.25);
  season.add(16, SmallSeason::reading("ph", records::Reading::Form::above_last, {}));
  season.temperature(16, 8);
  const auto view = season.look(16);
  const auto& ammonia = *view.belief.find(inference::Quantity::total_ammonia);
  ASSERT_GT(ammonia.value.low, 0.2);
  ASSERT_LT(ammonia.value.high, 0.3);
  ASSERT_FALSE(ammonia.open_above);
  ASSERT_TRUE(view.belief.find(inference::Quantity::ph)->open_above);
  EXPECT_EQ(action_with(view.advice, "ammonia/closer"), nullptr);
  const Action* change = action_with(view.advice, "ammonia");
  ASSERT_NE(change, nullptr);
  EXPECT_EQ(change->tone, Tone::alarm);
  ASSERT_TRUE(change->water_change.has_value());
  EXPECT_FALSE(std::ranges::count(change->deeds, Deed::wait));
  EXPECT_EQ(change->what.pattern.find("If the repeat"), std::string::npos);
}

TEST(Nitrite, OfWaterNobodyTestedAQuarterAtMostIsChanged) {
  auto season = with_eggs();
  season.log().erase(season.log().begin() + 2);  // the tap is not described
  season.step(16, "nitrite", 0.8);
  const auto advice = season.look(16).advice;
  const Action* change = action_with(advice, "nitrite");
  ASSERT_NE(change, nullptr);
  ASSERT_TRUE(change->water_change.has_value());
  EXPECT_LE(change->water_change->fraction, 0.25);
  EXPECT_NE(change->cautions.front().pattern.find("not on record"), std::string::npos);
}

SmallSeason planned(int egg_day) {
  SmallSeason season;
  setup_of(season).egg_day = date_of(egg_day);
  return season;
}

void team_reads(SmallSeason& season, int day, const char* team, double ammonia) {
  records::Reading reading = SmallSeason::reading("ammonia", records::Reading::Form::step, ammonia);
  reading.team = team;
  season.add(day, reading);
}

TEST(Receiving, AnAssumedDayIsAskedForAndNothingIsGotReady) {
  auto season = planned(40);
  setup_of(season).egg_day_assumed = true;
  EXPECT_EQ(action_with(season.look(11).advice, "receiving/ask_day"), nullptr);
  // Also once the day has passed: it was nobody's promise.
  for (const int day : {12, 39, 40, 41, 60}) {
    const auto looked = season.look(day);
    const Action* ask = action_with(looked.advice, "receiving/ask_day");
    ASSERT_NE(ask, nullptr) << day;
    EXPECT_NE(ask->because.front().sentence.pattern.find("is not known"), std::string::npos);
    EXPECT_EQ(action_with(looked.advice, "receiving/ready"), nullptr) << day;
  }
  EXPECT_EQ(action_with(season.look(41).advice, "egg_day/log_eggs"), nullptr);
}

TEST(EggDay, WhatRestsOnAnAssumedDaySaysSoUntilEggsCome) {
  auto season = planned(10);
  season.step(4, "ammonia", 1.6);
  season.step(4, "nitrite", 0.4);
  const auto says = [&](int day) {
    const auto looked = season.look(day);
    bool because = false;
    for (const Action& a : looked.advice.actions)
      if (a.rule == "egg_day" || a.rule == "ripening")
        for (const Reason& r : a.because) because = because || r.sentence.pattern.find("arrive is not known") != std::string::npos;
    const bool gap = std::ranges::any_of(looked.belief.gaps, [](const Sentence& s) { return s.pattern.find("arrive is not known") != std::string::npos; });
    EXPECT_EQ(because, gap);
    return gap;
  };
  EXPECT_FALSE(says(5));
  setup_of(season).egg_day_assumed = true;
  EXPECT_TRUE(says(5));
  season.eggs(6);
  EXPECT_FALSE(says(7));
}

TEST(EggDay, AnAssumedDayPressesNobody) {
  const auto worst = [](bool assumed) {
    auto season = planned(10);
    setup_of(season).egg_day_assumed = assumed;
    season.step(4, "ammonia", 1.6);
    season.step(4, "nitrite", 0.4);
    season.temperature(4, 20);
    Tone tone = Tone::good;
    const auto looked = season.look(5);
    for (const Action& a : looked.advice.actions)
      if (a.rule == "egg_day") {
        tone = std::max(tone, a.tone);
        EXPECT_EQ(assumed, a.what.pattern.find("supplier") == std::string::npos && a.what.pattern.find("Start to chill the tank {0}.") == std::string::npos) << a.what.pattern;
        if (assumed) EXPECT_GT(local_day({}, a.by), date_of(5)) << a.key;
      }
    return tone;
  };
  EXPECT_EQ(worst(false), Tone::act);
  EXPECT_EQ(worst(true), Tone::watch);
}

TEST(Receiving, IsGotReadyForTheDayBeforeAndOnTheDay) {
  auto season = planned(10);
  EXPECT_EQ(action_with(season.look(8).advice, "receiving/ready"), nullptr);
  EXPECT_NE(action_with(season.look(9).advice, "receiving/ready"), nullptr);
  EXPECT_NE(action_with(season.look(10).advice, "receiving/ready"), nullptr);
  EXPECT_EQ(action_with(season.look(11).advice, "receiving/ready"), nullptr);
}

TEST(Receiving, AsksToTemperOnlyRightAfterAndOnlyAcrossAStep) {
  const auto arrived = [](double box_c) {
    SmallSeason season;
    season.temperature(8, 8);
    records::EggReceipt eggs;
    eggs.count = 100;
    eggs.box = Temperature::from_c(box_c);
    season.add(8, eggs, 9);
    return season;
  };
  EXPECT_NE(action_with(arrived(14).look(8, 10).advice, "receiving/temper"), nullptr);
  EXPECT_NE(action_with(arrived(3).look(8, 10).advice, "receiving/temper"), nullptr);
  EXPECT_EQ(action_with(arrived(9).look(8, 10).advice, "receiving/temper"), nullptr);
  EXPECT_EQ(action_with(arrived(14).look(8, 16).advice, "receiving/temper"), nullptr);
}

TEST(Light, IsAskedOffOverEggsUntilItIsOff) {
  auto season = with_eggs();
  season.add(14, EquipmentEvent{EquipmentEvent::Equipment::light, EquipmentEvent::Event::switched_on, {}}, 9);
  EXPECT_EQ(action_with(season.look(14, 9).advice, "light"), nullptr);  // a lesson's look
  ASSERT_NE(action_with(season.look(14, 12).advice, "light"), nullptr);
  season.add(14, EquipmentEvent{EquipmentEvent::Equipment::light, EquipmentEvent::Event::switched_off, {}}, 13);
  EXPECT_EQ(action_with(season.look(14, 15).advice, "light"), nullptr);
}

TEST(Release, IsPlannedBeforeThePermitEndsAndNeverDecidedAfter) {
  auto season = with_eggs();
  setup_of(season).release_until = date_of(40);
  EXPECT_EQ(action_with(season.look(20).advice, "release"), nullptr);
  const auto before = season.look(30).advice, after = season.look(41).advice;
  const Action *plan = action_with(before, "release/plan"), *missed = action_with(after, "release/missed");
  ASSERT_NE(plan, nullptr);
  EXPECT_EQ(plan->aim, Aim::deadline);
  EXPECT_LE(local_day({}, plan->by), date_of(40));
  ASSERT_NE(missed, nullptr);
  EXPECT_TRUE(has(*missed, Deed::ask_for_help));
  EXPECT_EQ(action_with(after, "release/plan"), nullptr);
}

TEST(PhOutside, IsSpokenOfAlsoWhenAmmoniaReadsNone) {
  auto season = with_eggs();
  season.step(15, "ammonia", 0);
  season.add(15, SmallSeason::reading("ph", records::Reading::Form::above_last, std::nullopt));
  const auto advice = season.look(15, 12).advice;
  EXPECT_NE(action_with(advice, "ph/high"), nullptr);
  EXPECT_NE(advice.headline.tone, Tone::good);
}

TEST(Thermometer, IsAskedForWhenNobodyReadItForDays) {
  EXPECT_EQ(action_with(with_eggs().look(16).advice, "temperature/measure"), nullptr);
  const auto advice = with_eggs().look(20).advice;
  const Action* a = action_with(advice, "temperature/measure");
  ASSERT_NE(a, nullptr);
  EXPECT_GE(a->tone, Tone::act);
}

TEST(FilterProof, ADoseGoneInTheColdIsNotAskedForAgain) {
  auto season = planned(14);
  season.temperature(7, 8);
  season.add(8, records::Dose{records::Substance::ammonium_chloride, Mass::from_g(0.8), {}});
  season.step(9, "ammonia", 0);
  season.step(9, "nitrite", 0);
  season.step(9, "ph", 7.2);
  EXPECT_EQ(action_with(season.look(9, 12).advice, "egg_day/ready"), nullptr);

  auto unfed = planned(14);
  unfed.temperature(7, 8);
  unfed.step(9, "ammonia", 0);
  unfed.step(9, "nitrite", 0);
  unfed.step(9, "ph", 7.2);
  const auto asked = unfed.look(9, 12).advice;
  const Action* prove = action_with(asked, "egg_day/ready");
  ASSERT_NE(prove, nullptr);
  EXPECT_TRUE(has(*prove, Deed::dose));
  const auto late = unfed.look(13, 12).advice;
  prove = action_with(late, "egg_day/ready");
  ASSERT_NE(prove, nullptr);
  EXPECT_FALSE(has(*prove, Deed::dose));  // it may not be gone when the eggs come
}

TEST(FilterProof, NoAmmoniaIsAdvisedOnceEggsMayBeIn) {
  auto season = planned(10);
  season.temperature(9, 8);
  season.quiet_tests(9);
  for (const Action& a : season.look(12).advice.actions) EXPECT_FALSE(has(a, Deed::dose)) << a.key;
}

TEST(StoppedPump, KeepsWaterMovingFirst) {
  auto season = with_eggs();
  season.add(14, EquipmentEvent{EquipmentEvent::Equipment::pump, EquipmentEvent::Event::failed, {}}, 9);
  const auto advice = season.look(14, 10).advice;
  EXPECT_EQ(advice.actions.front().rule, "equipment");
  EXPECT_NE(advice.actions.front().what.pattern.find("water moving"), std::string::npos);
}

TEST(WeeklySitting, IsNotPutOffByTwoTestsInBetween) {
  auto season = with_eggs();
  season.step(18, "ammonia", 0);
  season.step(18, "nitrite", 0);
  const auto advice = season.look(21).advice;
  EXPECT_NE(std::ranges::find_if(advice.actions, [](const Action& a) { return a.rule == "weekly_test" && a.tone >= Tone::watch; }), advice.actions.end());
}

TEST(RepeatFirst, AChangeWaitsForTheRepeatOfContradictingTests) {
  auto season = with_eggs();
  season.temperature(15, 8);
  season.step(15, "ph", 7.6);
  team_reads(season, 15, "Team Otter", 0);
  team_reads(season, 15, "Team Dipper", 3.2);
  for (const Action& a : season.look(15, 12).advice.actions) EXPECT_FALSE(has(a, Deed::change_water)) << a.key;
}

}  // namespace
}  // namespace redd::advice
