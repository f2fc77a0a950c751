#include "advice/merging.h"

#include <gtest/gtest.h>

#include "advice/made_situation.h"
#include "advice/ranking.h"

namespace redd::advice {
namespace {

using namespace testing;

std::vector<Action> merged(const Situation& s, std::vector<Action> actions) {
  rank(s, actions);
  merge(s, actions);
  return actions;
}

TEST(Merging, TheLargestChangeDoesTheWorkOfAllWhereTheMostPressingStood) {
  Made made_day;
  const Situation s = made_day.situation();
  Action nitrate = change(s, "nitrate", 0.4, Tone::watch, 7), ammonia = change(s, "ammonia", 0.2, Tone::alarm);
  nitrate.what = {"Change 40 %."};
  ammonia.cautions = {{"No food."}};
  ammonia.because = {{{"Ammonia is high."}, {4}}};
  const auto actions = merged(s, {nitrate, made(s, "test", Tone::act, Aim::animals, {Deed::test}), ammonia});
  ASSERT_EQ(actions.size(), 2u);
  const Action& one = actions.front();
  EXPECT_EQ(one.key, "ammonia+nitrate");
  EXPECT_EQ(one.tone, Tone::alarm);
  EXPECT_EQ(one.by, ammonia.by);
  EXPECT_DOUBLE_EQ(one.water_change->fraction, 0.4);
  EXPECT_EQ(one.what.pattern, "Change 40 %.");
  EXPECT_EQ(one.because.size(), 2u);
  EXPECT_EQ(one.cautions.size(), 1u);
}

TEST(Merging, TestsOfOneDayAreOneSitting) {
  Made made_day;
  const Situation s = made_day.situation();
  const auto actions = merged(s, {made(s, "weekly_test", Tone::watch, Aim::deadline, {Deed::test}), made(s, "vigilance", Tone::act, Aim::animals, {Deed::test}),
                                  made(s, "nitrite/retest", Tone::watch, Aim::animals, {Deed::test}, 2)});
  ASSERT_EQ(actions.size(), 2u);
  EXPECT_EQ(actions.front().key, "vigilance+weekly_test");
  EXPECT_NE(actions.front().how_much.pattern.find("same sitting"), std::string::npos);
  EXPECT_EQ(actions.front().effort_minutes, 15);
  EXPECT_EQ(actions.back().key, "nitrite/retest") << "another day is another sitting";
}

TEST(Merging, ADoseWithATestIsNoSitting) {
  Made made_day;
  const Situation s = made_day.situation();
  EXPECT_EQ(merged(s, {made(s, "proof", Tone::watch, Aim::deadline, {Deed::dose, Deed::test}), made(s, "test", Tone::watch, Aim::deadline, {Deed::test})}).size(), 2u);
}

TEST(Merging, ADoubtIsRepeatedOnce) {
  Made made_day;
  const Situation s = made_day.situation();
  Action direct = made(s, "contradiction/nitrite", Tone::act, Aim::animals, {Deed::test}), doubted = made(s, "doubted_reading/record_7", Tone::watch, Aim::animals, {Deed::test}, 1);
  direct.because.front().records = doubted.because.front().records = {7};
  EXPECT_EQ(keys_of(merged(s, {direct, doubted})), std::vector<std::string>{"contradiction/nitrite"});
  doubted.because.front().records = {8};
  EXPECT_EQ(merged(s, {direct, doubted}).size(), 2u);
}

TEST(FalseCalm, NothingToDoDoesNotStandBesideSomethingToDo) {
  Made made_day;
  const Situation s = made_day.situation();
  std::vector<Action> actions{made(s, "weekly_test", Tone::good, Aim::deadline, {Deed::test}, 6), made(s, "nitrite/retest", Tone::watch, Aim::animals, {Deed::test}, 2)};
  drop_false_calm(s, actions, {});
  EXPECT_EQ(keys_of(actions), std::vector<std::string>{"nitrite/retest"});
  actions = {made(s, "weekly_test", Tone::good, Aim::deadline, {Deed::test}, 6), made(s, "milestones/hatch", Tone::watch, Aim::deadline, {Deed::count}, 5)};
  actions.back().beside_calm = true;
  drop_false_calm(s, actions, {});
  EXPECT_EQ(actions.size(), 2u);
}

TEST(FalseCalm, WhatWasSkippedAndStillStandsTakesTheCalmAway) {
  Made made_day;
  const Situation s = made_day.situation();
  Action aside = made(s, "nitrite", Tone::act, Aim::animals, {Deed::change_water});
  aside.answer.emplace();
  std::vector<Action> actions{made(s, "weekly_test", Tone::good, Aim::deadline, {Deed::test}, 6)};
  drop_false_calm(s, actions, {aside});
  EXPECT_EQ(actions.front().tone, Tone::watch);
  aside.tone = Tone::watch;  // done, and only to be watched
  actions = {made(s, "weekly_test", Tone::good, Aim::deadline, {Deed::test}, 6)};
  drop_false_calm(s, actions, {aside});
  EXPECT_EQ(actions.front().tone, Tone::good);
}

}  // namespace
}  // namespace redd::advice
