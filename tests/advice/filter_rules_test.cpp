#include <gtest/gtest.h>

#include <algorithm>

#include "advice/assess_filter.h"
#include "support/told_filter.h"

namespace redd::advice {
namespace {

using namespace redd::testing;
using inference::FilterDoubt;

SmallSeason ripening() {
  SmallSeason season;
  season.temperature(29, 22);
  season.step(28, "ammonia", 0.4);
  season.step(28, "nitrite", 0.8);
  season.drops(28, "kh", 6);
  return season;
}

const Action* action_of(const season::DayView& day, std::string_view rule) {
  const auto found = std::ranges::find(day.advice.actions, rule, &Action::rule);
  return found == day.advice.actions.end() ? nullptr : &*found;
}

bool says(const std::vector<Reason>& reasons, std::string_view part) {
  return std::ranges::any_of(reasons, [&](const Reason& r) { return r.sentence.pattern.find(part) != std::string::npos; });
}

TEST(FilterAssessment, ForecastsWarnOnWeakGroundButDoNotCalm) {
  auto told = told_filter(0.95, 0.95);
  EXPECT_EQ(readiness_tone(told), Tone::good);
  EXPECT_EQ(capacity_tone(told), Tone::good);
  told.doubts.push_back({FilterDoubt::readings_disagree, "They disagree.", {}});
  EXPECT_EQ(readiness_tone(told), Tone::unknown);
  EXPECT_EQ(capacity_tone(told), Tone::unknown);
  told.by_probability = told.outlook.carries_coming_load_probability = 0.2;
  EXPECT_EQ(readiness_tone(told), Tone::act);
  EXPECT_EQ(capacity_tone(told), Tone::act);
}

TEST(FilterAssessment, WorseChancesAreNeverJudgedBetter) {
  Tone last = Tone::act;
  for (const double p : {0.1, 0.49, 0.5, 0.7, 0.89, 0.9, 1.0}) {
    const Tone tone = readiness_tone(told_filter(p, p));
    EXPECT_LE(tone, last) << p;
    EXPECT_EQ(tone, capacity_tone(told_filter(p, p)));
    last = tone;
  }
  EXPECT_EQ(last, Tone::good);
}

TEST(RaiseTheOdds, ProposesWhatHelpsMostWithItsNumbers) {
  const auto day = look_with(ripening(), told_filter(0.6, 0.6));
  const Action* a = action_of(day, "raise_the_odds");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->what.pattern, "Begin to chill {0} later, and chill over a week.");
  EXPECT_EQ(a->tone, Tone::watch);
  EXPECT_FALSE(says(a->because, "sodium bicarbonate"));  // no clear change is no advice
}

TEST(RaiseTheOdds, IsSilentWhenReadyIsLikely) { EXPECT_EQ(action_of(look_with(ripening(), told_filter(0.95, 0.95)), "raise_the_odds"), nullptr); }

TEST(RaiseTheOdds, AsksForALaterDateWhenTimeIsShortAndTheBroodTooHeavy) {
  const auto late = look_with(ripening(), told_filter(0.1, 0.3, 30, 40));
  ASSERT_NE(action_of(late, "raise_the_odds"), nullptr);
  EXPECT_NE(action_of(late, "raise_the_odds")->what.pattern.find("later date"), std::string::npos);
  EXPECT_EQ(action_of(late, "raise_the_odds")->tone, Tone::act);
}

TEST(RaiseTheOdds, DoesNotSendEggsAwayThatTheFilterWouldCarry) {
  const auto day = look_with(ripening(), told_filter(0.1, 0.97, 30, 40));
  const Action* a = action_of(day, "raise_the_odds");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->what.pattern.find("later date"), std::string::npos);
  EXPECT_EQ(a->tone, Tone::watch);
}

TEST(RaiseTheOdds, WithoutAnythingThatHelpsTheDateMoves) {
  auto told = told_filter(0.1, 0.3);
  told.measures->effects.clear();
  EXPECT_NE(action_of(look_with(ripening(), told), "raise_the_odds")->what.pattern.find("later date"), std::string::npos);
}

/// Nobody said when the eggs come: Redd takes a day of its own.
SmallSeason with_assumed_day(int egg_day) {
  SmallSeason season = ripening();
  auto& setup = std::get<SeasonSetup>(season.log().front().entry.body);
  setup.egg_day = local_day({}, on_day(egg_day));
  setup.egg_day_assumed = true;
  return season;
}

TEST(RaiseTheOdds, ADayThatIsOnlyAssumedIsAskedForAndNotPutOff) {
  auto told = told_filter(0.1, 0.3, 30, 40);
  told.measures->effects.clear();
  const auto day = look_with(with_assumed_day(40), told);
  for (const Action& a : day.advice.actions) EXPECT_EQ(a.what.pattern.find("later da"), std::string::npos) << a.what.pattern;
  EXPECT_EQ(action_of(day, "raise_the_odds"), nullptr);
  const Action* ask = action_of(day, "receiving");
  ASSERT_NE(ask, nullptr);
  EXPECT_EQ(ask->tone, Tone::watch);
  EXPECT_NE(ask->how_much.pattern.find("no eggs should come before"), std::string::npos);
  EXPECT_TRUE(says(ask->because, "passes its test"));

  auto carries = told_filter(0.1, 0.97, 30, 40);
  carries.measures->effects.clear();
  const auto calm = look_with(with_assumed_day(40), carries);
  ASSERT_NE(action_of(calm, "raise_the_odds"), nullptr);
  EXPECT_TRUE(action_of(calm, "raise_the_odds")->what.pattern.starts_with("Let the filter ripen on"));
}

TEST(RaiseTheOdds, ForAnAssumedDayStillSaysWhatHelpsAndPressesNobody) {
  const auto day = look_with(with_assumed_day(40), told_filter(0.1, 0.3, 30, 40));
  const Action* a = action_of(day, "raise_the_odds");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->what.pattern, "Begin to chill {0} later, and chill over a week.");
  for (const char* rule : {"raise_the_odds", "egg_day", "ripening"})
    if (const Action* other = action_of(day, rule)) EXPECT_LE(other->tone, Tone::watch) << rule;
}

TEST(FilterLoad, WarnsOfAWeakFilterAndPressesWhenTheDayIsNear) {
  EXPECT_EQ(action_of(look_with(ripening(), told_filter(0.95, 0.95)), "filter_load"), nullptr);
  const auto planned = look_with(ripening(), told_filter(0.95, 0.3));
  ASSERT_NE(action_of(planned, "filter_load"), nullptr);
  EXPECT_EQ(action_of(planned, "filter_load")->tone, Tone::watch);  // no animals yet

  SmallSeason fry = ripening();
  fry.eggs(20, 700);
  auto told = told_filter(0.95, 0.3);
  told.by_day.reset();
  told.measures.reset();
  told.outlook.coming_load_day = 38;
  ASSERT_NE(action_of(look_with(fry, told), "filter_load"), nullptr);
  EXPECT_EQ(action_of(look_with(fry, told), "filter_load")->tone, Tone::act);
}

TEST(FilterLoad, SaysNothingWithoutALoad) {
  auto told = told_filter(0.95, 0.1);
  told.outlook.coming_load_mg_n_per_l_per_day = 0;
  EXPECT_EQ(action_of(look_with(ripening(), told), "filter_load"), nullptr);
}

TEST(DoubtedReading, IsRepeatedOnceAndForgottenAfterTheRepeat) {
  SmallSeason season = ripening();
  const auto id = season.step(29, "nitrite", 0);
  auto told = told_filter(0.95, 0.95);
  told.doubts.push_back({FilterDoubt::readings_disagree, "The readings disagree.", {id}});
  ASSERT_NE(action_of(look_with(season, told), "doubted_reading"), nullptr);
  EXPECT_EQ(action_of(look_with(season, told), "doubted_reading")->because.front().records, std::vector{id});
  season.step(30, "nitrite", 0.8, 9);
  EXPECT_EQ(action_of(look_with(season, told), "doubted_reading"), nullptr);
}

TEST(DoubtedReading, LeavesToTheCardWhatTheCardShows) {
  SmallSeason season = ripening();
  season.step(30, "nitrite", 0.8, 9);
  const auto low = season.step(30, "nitrite", 0, 10);  // two teams that cannot both be right
  auto told = told_filter(0.95, 0.95);
  told.doubts.push_back({FilterDoubt::readings_disagree, "The readings disagree.", {low}});
  const auto day = look_with(season, told);
  ASSERT_NE(action_of(day, "contradiction"), nullptr);
  EXPECT_EQ(action_of(day, "doubted_reading"), nullptr);
}

TEST(DoubtedReading, NamesASuspectKit) {
  auto told = told_filter(0.95, 0.95);
  told.doubts.push_back({FilterDoubt::suspect_kit, "The kit is off.", {3}});
  ASSERT_NE(action_of(look_with(ripening(), told), "doubted_reading"), nullptr);
  EXPECT_NE(action_of(look_with(ripening(), told), "doubted_reading")->what.pattern.find("kit"), std::string::npos);
}

TEST(DoubtedReading, ReadingsThatAgreeWithEachOtherAreBelievedAgainstTheModel) {
  SmallSeason season = ripening();
  season.eggs(20);
  const auto first = season.step(29, "nitrite", 0.8), second = season.step(30, "nitrite", 0.8);
  auto told = told_filter(0.99, 0.99);
  told.lost_track = planning::LostTrack{inference::Quantity::nitrite, 29.3, true, {first, second}};
  EXPECT_EQ(capacity_tone(told), Tone::unknown);
  const auto day = look_with(season, told);
  const auto doubted = std::ranges::count(day.advice.actions, "doubted_reading", &Action::rule);
  EXPECT_EQ(doubted, 1);
  EXPECT_NE(action_of(day, "doubted_reading")->what.pattern.find("what changed"), std::string::npos);
  EXPECT_LT(action_of(day, "doubted_reading")->tone, day.advice.actions.front().tone);  // nitrite itself is seen to first
}

TEST(Ripening, TellsTheChanceForEggDay) {
  EXPECT_TRUE(says(action_of(look_with(ripening(), told_filter(0.6, 0.6)), "ripening")->because, "ready on egg day"));
  EXPECT_FALSE(says(action_of(ripening().look(30), "ripening")->because, "ready on egg day"));
}

TEST(FilterAdvice, NeverTakesAwayAnAlarm) {
  SmallSeason season = ripening();
  season.eggs(20);
  season.step(30, "ammonia", 3.2, 9);
  season.step(30, "ph", 8.4, 9);
  const auto without = season.look(30).advice.headline.tone;
  ASSERT_EQ(without, Tone::alarm);
  EXPECT_EQ(look_with(season, told_filter(1.0, 1.0)).advice.headline.tone, without);
}

}  // namespace
}  // namespace redd::advice
