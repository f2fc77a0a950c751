#include "lessons/game.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "lessons/class_season.h"

namespace redd::lessons {
namespace {

using redd::testing::ClassSeason;
using redd::testing::on_day;

const std::string nitrate_1 = "k/nitrate/2031-01-07", kh_1 = "k/kh/2031-01-07";

TEST(Game, OffersTheOpenQuestionsOnly) {
  const ClassSeason season(8);
  const auto game = season.game(8);
  EXPECT_FALSE(game.open.empty());
  for (const auto& open : game.open) EXPECT_TRUE(open.question.opened_on >= *date_from_iso("2031-01-14") || open.question.kind == Question::Kind::temperature) << open.question.key;
  EXPECT_TRUE(game.settled.empty());  // nobody guessed
  EXPECT_FALSE(game.whole_class);
}

TEST(Game, AQuestionLapsesAfterTwoWeeks) {
  const ClassSeason season(1);
  EXPECT_FALSE(season.game(15).open.empty());
  EXPECT_TRUE(season.game(16).open.empty());
}

TEST(Game, ScoresTeamsClassAndModelOnceTheReadingIsIn) {
  ClassSeason season(1);
  season.chips(3, nitrate_1, "Team Otter", {0, 10, 0, 0, 0, 0});
  season.chips(3, nitrate_1, "Team Heron", {0, 0, 0, 0, 0, 10});
  season.quiet_tests(8);  // nitrate reads 5, the second step
  const auto game = season.game(8);
  ASSERT_EQ(game.settled.size(), 1u);
  const auto& s = game.settled[0];
  ASSERT_EQ(s.guesses.size(), 2u);
  EXPECT_EQ(s.guesses[0].team, "Team Otter");
  EXPECT_DOUBLE_EQ(s.guesses[0].score.points, 100.0);
  EXPECT_LT(s.guesses[1].score.points, 0.0);
  EXPECT_NEAR(s.class_guess.shares[1], 0.5, 1e-12);
  EXPECT_GT(s.class_guess.score.points, 0.5 * (s.guesses[0].score.points + s.guesses[1].score.points));  // the mean of guesses beats the mean of scores
  EXPECT_GT(s.model_score.points, 0.0);
  EXPECT_LT(s.model_score.points, 100.0);
  ASSERT_TRUE(game.whole_class);
  EXPECT_EQ(game.whole_class->questions, 1);
  ASSERT_EQ(game.teams.size(), 2u);
  EXPECT_EQ(game.teams[0].team, "Team Otter");
  EXPECT_GT(game.teams[0].skill, 0.99);
  EXPECT_LT(game.teams[1].skill, 0.0);
  EXPECT_EQ(game.running.size(), 1u);
}

TEST(Game, ARangeCostsItsWidthAndTenTimesTheMiss) {
  ClassSeason season(1);
  season.range(3, kh_1, "Team Otter", 5, 7);
  season.range(3, kh_1, "Team Heron", 8, 9);
  season.quiet_tests(8);  // six drops
  const auto game = season.game(8);
  ASSERT_EQ(game.settled.size(), 1u);
  EXPECT_NEAR(game.settled[0].guesses[0].score.loss, 2.0, 1e-12);
  EXPECT_NEAR(game.settled[0].guesses[1].score.loss, 1.0 + 10.0 * 2.0, 1e-12);
  EXPECT_NEAR(game.settled[0].guesses[0].score.points, 100.0 * (1.0 - 2.0 / 10.0), 1e-12);
  EXPECT_TRUE(game.settled[0].model_crps);
}

TEST(Game, WhatComesWithOrAfterTheReadingIsTooLate) {
  ClassSeason season(1);
  season.range(3, kh_1, "Team Otter", 4, 9);
  season.quiet_tests(8);
  season.range(8, kh_1, "Team Otter", 6, 6, 9);   // changes its mind after the test
  season.range(8, kh_1, "Team Heron", 6, 6, 8);   // in the very minute of the test
  const auto game = season.game(8);
  ASSERT_EQ(game.settled.size(), 1u);
  ASSERT_EQ(game.settled[0].guesses.size(), 1u);
  EXPECT_EQ(game.settled[0].guesses[0].low, 4.0);
}

TEST(Game, AGuessLoggedLaterButDatedBackIsTooLate) {
  ClassSeason season(1);
  season.quiet_tests(8);
  season.range(9, kh_1, "Team Otter", 6, 6);
  season.log().back().entry.at = on_day(3);
  EXPECT_TRUE(season.game(9).settled.empty());
}

TEST(Game, TheNewestGuessOfATeamCountsAndAnUndoneOneDoesNot) {
  ClassSeason season(1);
  season.range(2, kh_1, "Team Otter", 1, 2);
  season.range(3, kh_1, "Team Otter", 5, 6);
  const auto id = season.range(3, kh_1, "Team Heron", 5, 6);
  season.add(4, records::Undo{id});
  season.quiet_tests(8);
  const auto game = season.game(8);
  ASSERT_EQ(game.settled[0].guesses.size(), 1u);
  EXPECT_EQ(game.settled[0].guesses[0].low, 5.0);
}

TEST(Game, CapitalsAndBlanksMakeNoOtherTeam) {
  ClassSeason season(1);
  season.range(2, kh_1, "Team Otter", 1, 2);
  season.range(3, kh_1, " team  otter", 5, 6);
  season.quiet_tests(8);
  season.range(9, "k/kh/2031-01-14", "TEAM OTTER", 5, 6);
  season.quiet_tests(15);
  const auto game = season.game(15);
  ASSERT_EQ(game.settled.size(), 2u);
  ASSERT_EQ(game.settled[1].guesses.size(), 1u);
  EXPECT_EQ(game.settled[1].guesses[0].low, 5.0);
  ASSERT_EQ(game.teams.size(), 1u);
  EXPECT_EQ(game.teams[0].team, "TEAM OTTER");
  EXPECT_EQ(game.teams[0].questions, 2);
}

TEST(Game, AReadingWrittenDownBeforeTheQuestionWasKnownSettlesNothing) {
  ClassSeason season(1);
  season.range(3, kh_1, "Team Otter", 5, 6);
  season.drops(9, "kh", 6);
  season.log().back().entry.at = on_day(1, 7);
  for (const auto& s : season.game(9).settled) EXPECT_NE(s.question.key, kh_1);
}

TEST(Game, WhoWasWrittenDownThenIsShownAsThen) {
  ClassSeason season(1);
  season.range(3, kh_1, "Team Otter", 5, 7);
  const auto then = season.game(4);
  season.quiet_tests(8);
  const auto again = season.game(4);
  ASSERT_EQ(then.open.size(), again.open.size());
  EXPECT_TRUE(again.settled.empty());
  const auto open = std::ranges::find(again.open, kh_1, [](const OpenQuestion& o) { return o.question.key; });
  ASSERT_NE(open, again.open.end());
  EXPECT_EQ(open->teams_in, std::vector<std::string>{"Team Otter"});
}

TEST(ProblemsOfAGuess, NameWhatDoesNotFit) {
  ClassSeason season(1);
  const auto game = season.game(3);
  const auto code = [&](const records::Guess& guess) {
    const auto problems = problems_of(guess, game);
    return problems.empty() ? std::string() : problems.front().code;
  };
  EXPECT_EQ(code({.question = kh_1, .team = "Team Otter", .low = 5, .high = 6}), "");
  EXPECT_EQ(code({.question = nitrate_1, .team = "Team Otter", .chips = {0, 10, 0, 0, 0, 0}}), "");
  EXPECT_EQ(code({.question = nitrate_1, .team = "Team Otter", .chips = {10, 0}}), "chips_do_not_fit");
  EXPECT_EQ(code({.question = kh_1, .team = "Team Otter", .chips = {10, 0, 0, 0, 0, 0}}), "missing");
  EXPECT_EQ(code({.question = kh_1, .team = "Team Otter", .low = -1, .high = 6}), "out_of_range");
  EXPECT_EQ(code({.question = kh_1, .team = "Team Otter", .low = 5, .high = 600}), "out_of_range");
  EXPECT_EQ(code({.question = "temperature/2031-01-06", .team = "Team Otter", .low = 46, .high = 47}), "out_of_range");
  EXPECT_EQ(code({.question = "temperature/2031-01-06", .team = "Team Otter", .low = 7, .high = 9}), "");
  EXPECT_EQ(code({.question = "k/kh/2030-01-01", .team = "Team Otter", .low = 5, .high = 6}), "no_such_question");
  season.range(3, kh_1, "Team Otter", 5, 6);
  season.quiet_tests(8);
  const auto problems = problems_of({.question = kh_1, .team = "Team Heron", .low = 5, .high = 6}, season.game(8));
  ASSERT_FALSE(problems.empty());
  EXPECT_EQ(problems.front().code, "question_closed");
}

}  // namespace
}  // namespace redd::lessons
