#include "inference/counts.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/small_season.h"

namespace redd::inference {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using records::Count;
using What = records::Count::What;
using State = LossWatch::State;

Date date_of(int day) { return *date_from_iso("2031-01-06") + std::chrono::days(day); }  // day 0 is a Monday

Counts counts_at(const SmallSeason& season, int day) {
  const auto now = on_day(day, 12);
  const auto view = season.look(day);
  return counts_of(view.records, view.belief, {}, now);
}

/// 200 eggs on Tuesday the 8th day, long before hatch; none dead each school day until `last`.
SmallSeason quiet_eggs(int last) {
  SmallSeason season;
  season.temperature(7, 6);
  season.eggs(8, 200);
  for (int day = 8; day <= last; ++day)
    if (day % 7 < 5) season.add(day, Count{What::dead_eggs, 0});
  return season;
}

TEST(LossWatch, ASingleDeathIsAsExpected) {
  auto season = quiet_eggs(21);
  season.add(22, Count{What::dead_eggs, 1});
  const auto counts = counts_at(season, 22);
  EXPECT_EQ(counts.losses.state, State::as_expected);
  EXPECT_EQ(counts.losses.recent_died, 1);
  EXPECT_GT(counts.losses.expected_per_day, 0.05);
  EXPECT_LT(counts.losses.expected_per_day, 0.4);
}

TEST(LossWatch, ManyAtOnceAreMoreThanExpectedSinceThatDay) {
  auto season = quiet_eggs(21);
  const auto found = season.add(22, Count{What::dead_eggs, 8});
  const auto losses = counts_at(season, 22).losses;
  EXPECT_EQ(losses.state, State::more_than_expected);
  EXPECT_EQ(losses.since, date_of(22));
  EXPECT_EQ(losses.found, date_of(22));
  EXPECT_EQ(losses.died, 8);
  EXPECT_LT(losses.expected, 1.0);
  EXPECT_EQ(losses.records, std::vector<RecordId>{found});
  EXPECT_EQ(losses.false_alarm_days, 300);
}

TEST(LossWatch, AFewEachDayAddUpAndTheBeginningIsNamed) {
  auto season = quiet_eggs(21);
  for (int day = 22; day <= 25; ++day) season.add(day, Count{What::dead_eggs, 2});
  const auto losses = counts_at(season, 25).losses;
  EXPECT_EQ(losses.state, State::more_than_expected);
  EXPECT_EQ(losses.since, date_of(22));
  EXPECT_GE(losses.died, 8);
}

TEST(LossWatch, MondayAnswersForTheWeekend) {
  auto monday = quiet_eggs(25);          // Friday the 25th day
  monday.add(28, Count{What::dead_eggs, 3});
  const auto weekend = counts_at(monday, 28).losses;
  EXPECT_EQ(weekend.looks.back().from, date_of(26));
  EXPECT_EQ(weekend.looks.back().to, date_of(28));
  EXPECT_NEAR(weekend.looks.back().expected, 3.0 * weekend.looks[weekend.looks.size() - 2].expected, 0.05);

  auto tuesday = quiet_eggs(28);
  tuesday.add(29, Count{What::dead_eggs, 3});
  const auto day = counts_at(tuesday, 29).losses;
  EXPECT_EQ(day.looks.back().from, date_of(29));
  EXPECT_GT(day.looks.back().sum - day.looks.back().limit, weekend.looks.back().sum - weekend.looks.back().limit);
}

TEST(LossWatch, FoundOnMondayMayHaveDiedSinceSaturday) {
  auto season = quiet_eggs(25);
  season.add(28, Count{What::dead_eggs, 9});
  const auto losses = counts_at(season, 28).losses;
  EXPECT_EQ(losses.state, State::more_than_expected);
  EXPECT_EQ(losses.since, date_of(26));
  EXPECT_EQ(losses.found, date_of(28));
}

TEST(LossWatch, WithoutALookForDeadItIsNotKnown) {
  auto season = quiet_eggs(18);
  EXPECT_EQ(counts_at(season, 21).losses.state, State::as_expected);
  EXPECT_EQ(counts_at(season, 23).losses.state, State::not_known);
  SmallSeason never;
  never.eggs(8, 200);
  EXPECT_EQ(counts_at(never, 14).losses.state, State::not_known);
}

TEST(LossWatch, AnAlarmStandsUntilALookThreeDaysLater) {
  auto season = quiet_eggs(21);
  season.add(22, Count{What::dead_eggs, 8});
  season.add(23, Count{What::dead_eggs, 0});
  EXPECT_EQ(counts_at(season, 24).losses.state, State::more_than_expected);
  EXPECT_EQ(counts_at(season, 28).losses.state, State::more_than_expected) << "nobody has counted since";
  season.add(25, Count{What::dead_eggs, 0});
  EXPECT_EQ(counts_at(season, 25).losses.state, State::as_expected);
}

TEST(LossWatch, WhatWasMoreThanExpectedIsRememberedForAWeek) {
  auto season = quiet_eggs(21);
  const auto found = season.add(22, Count{What::dead_eggs, 8});
  EXPECT_FALSE(counts_at(season, 22).losses.lately) << "it is an alarm";
  season.add(24, Count{What::dead_eggs, 1});
  season.add(25, Count{What::dead_eggs, 0});
  const auto losses = counts_at(season, 25).losses;
  EXPECT_EQ(losses.state, State::as_expected);
  ASSERT_TRUE(losses.lately);
  EXPECT_EQ(losses.lately->first, date_of(22));
  EXPECT_EQ(losses.lately->last, date_of(22));
  EXPECT_EQ(losses.lately->died, 8);
  EXPECT_EQ(losses.lately->died_since, 1);
  EXPECT_LT(losses.lately->expected, 1.0);
  EXPECT_EQ(losses.lately->records, std::vector<RecordId>{found});
  season.add(29, Count{What::dead_eggs, 0});
  EXPECT_TRUE(counts_at(season, 29).losses.lately);
  season.add(30, Count{What::dead_eggs, 0});
  EXPECT_FALSE(counts_at(season, 30).losses.lately);
}

TEST(LossWatch, HatchIsAllowedMore) {
  // Eggs near hatch when they come: hatching is due about two weeks later.
  auto dying = [](int from, What what) {
    SmallSeason season;
    for (int day = 0; day < 60; ++day) season.temperature(day, 8);
    season.eggs(8, 380);
    const auto view = season.look(10);
    const auto hatch = biology::day_of(view.belief.brood.forecast->stage(biology::Stage::hatch).lot.median);
    const int day = static_cast<int>((hatch - date_of(0)).count()) + from;
    season.add(day, Count{what, 4});
    return counts_at(season, day);
  };
  EXPECT_EQ(loss_phase(BroodBelief{}, {}, date_of(9)), LossPhase::alevin) << "nothing is known: little is expected";
  const auto hatching = dying(0, What::dead_eggs);
  EXPECT_EQ(hatching.losses.looks.back().phase, LossPhase::hatching);
  EXPECT_GT(hatching.losses.looks.back().expected, 0.3);
}

TEST(LossWatch, ABadSeasonDoesNotMakeDyingUsual) {
  auto season = quiet_eggs(10);
  for (int day = 11; day <= 32; ++day) season.add(day, Count{What::dead_eggs, 3});
  const auto losses = counts_at(season, 32).losses;
  EXPECT_EQ(losses.season_ratio, 2.0);
  EXPECT_EQ(losses.state, State::more_than_expected);
}

TEST(LossWatch, SaysWhatToLookAtAndWhatChanged) {
  auto season = quiet_eggs(21);
  season.step(14, "nitrite", 0.05);
  const auto change = season.add(21, records::WaterChange{Volume::from_l(40)});
  const auto old_change = season.add(12, records::WaterChange{Volume::from_l(20)});
  season.add(22, Count{What::dead_eggs, 8});
  const auto losses = counts_at(season, 22).losses;
  ASSERT_EQ(losses.checks.size(), 6u);
  const char* order[] = {"Temperature", "Air", "Ammonia", "Nitrite", "Total chlorine", "More dead"};
  for (std::size_t i = 0; i < 6; ++i) EXPECT_TRUE(losses.checks[i].sentence.pattern.starts_with(order[i])) << losses.checks[i].sentence.pattern;
  EXPECT_NE(losses.checks[4].sentence.pattern.find("not noted as dechlorinated"), std::string::npos);
  EXPECT_EQ(losses.checks[4].records, std::vector<RecordId>{change});
  ASSERT_EQ(losses.changes.size(), 1u);
  EXPECT_EQ(losses.changes[0].records, std::vector<RecordId>{change});
  EXPECT_NE(losses.changes[0].records.front(), old_change);
}

TEST(LossWatch, OfAReleasedBroodSaysNothing) {
  auto season = quiet_eggs(21);
  season.add(60, records::Release{200, "Brook"});
  const auto counts = counts_at(season, 61);
  EXPECT_TRUE(counts.released);
  EXPECT_EQ(counts.losses.state, State::no_animals);
}

TEST(StageSurvival, BelowOnlyWhenTheWholeRangeIs) {
  const auto eggs = [](int died) {
    auto season = quiet_eggs(21);
    season.add(22, Count{What::dead_eggs, died});
    return counts_at(season, 22).stages.front();
  };
  EXPECT_EQ(eggs(4).verdict, StageSurvival::Verdict::not_below);
  EXPECT_EQ(eggs(24).verdict, StageSurvival::Verdict::cannot_tell) << "88 % of 200: the range reaches into the typical";
  EXPECT_EQ(eggs(40).verdict, StageSurvival::Verdict::below);
  EXPECT_FALSE(eggs(4).finished);
  EXPECT_EQ(eggs(24).entered, 200);
}

TEST(StageSurvival, MissingAnimalsCountAgainstTheWholeWay) {
  auto season = quiet_eggs(21);
  season.add(70, Count{What::dead_fry, 2});
  season.add(71, Count{What::alive, 100});
  const auto counts = counts_at(season, 71);
  EXPECT_EQ(counts.stages.back().stage, SurvivalStage::whole);
  EXPECT_GT(counts.stages.back().survival_fraction.mid, 0.98) << "of those found dead";
  EXPECT_EQ(counts.stages.back().verdict, StageSurvival::Verdict::below);
  ASSERT_TRUE(counts.counted_fraction);
  EXPECT_NEAR(counts.counted_fraction->mid, 0.5, 0.02);
}

TEST(SurvivalCurve, DropsOnTheDayFoundAndKeepsTheDayBefore) {
  auto season = quiet_eggs(25);
  season.add(28, Count{What::dead_eggs, 10});
  season.add(40, records::Release{50, "Brook"});
  season.add(41, Count{What::dead_eggs, 14});
  const auto curve = counts_at(season, 41).curve;
  ASSERT_EQ(curve.size(), 2u);
  EXPECT_EQ(curve[0].found, date_of(28));
  EXPECT_EQ(curve[0].from, date_of(26));
  EXPECT_NEAR(curve[0].survival_fraction.mid, 0.95, 1e-12);
  EXPECT_EQ(curve[1].at_risk, 140);
  EXPECT_NEAR(curve[1].survival_fraction.mid, 0.95 * 0.9, 1e-12);
}

TEST(Counts, AreEmptyBeforeEggsCome) {
  const auto counts = counts_at(SmallSeason(), 5);
  EXPECT_FALSE(counts.received_on);
  EXPECT_EQ(counts.losses.state, State::no_animals);
  EXPECT_TRUE(counts.stages.empty());
}

TEST(TypicalSurvival, IsWhereALotEndsThatLosesAsExpected) {
  using biology::expected_loss_fraction_per_day;
  const auto after = [](std::initializer_list<std::pair<LossPhase, int>> days) {
    double alive = 1.0;
    for (const auto& [phase, count] : days) alive *= std::pow(1.0 - expected_loss_fraction_per_day(phase), count);
    return alive;
  };
  const auto within = [](double survival, SurvivalStage stage) {
    const auto typical = biology::typical_survival(stage);
    return typical.low_fraction <= survival && survival <= typical.high_fraction;
  };
  EXPECT_TRUE(within(after({{LossPhase::arrival, 3}, {LossPhase::egg, 25}, {LossPhase::hatching, 7}}), SurvivalStage::egg));
  EXPECT_TRUE(within(after({{LossPhase::hatching, 3}, {LossPhase::alevin, 28}}), SurvivalStage::alevin));
  EXPECT_TRUE(within(after({{LossPhase::first_feeding, 31}, {LossPhase::fry, 30}}), SurvivalStage::fry));
}

}  // namespace
}  // namespace redd::inference
