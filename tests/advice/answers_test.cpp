#include "advice/answers.h"

#include <gtest/gtest.h>

#include "advice/made_situation.h"

namespace redd::advice {
namespace {

using namespace testing;
using records::AdviceAnswer;
using std::chrono::days;
constexpr auto done = AdviceAnswer::Answer::done, skipped = AdviceAnswer::Answer::skipped, not_now = AdviceAnswer::Answer::not_now;

/// One action resting on record 1 of day 10, answered on the morning of day 15, as it is asked some days later.
struct Asked {
  std::vector<Action> asked, aside;
};
Asked asked_after(int days_later, AdviceAnswer::Answer answer, Tone tone, Aim aim, std::optional<int> until = {}, bool seen_since = false, bool done_since = false) {
  Made made_day(15 + days_later);
  made_day.add(records::Reading{}, 10);
  const Date day = local_day({}, redd::testing::on_day(15));
  made_day.add(AdviceAnswer{answer, "matter+other", until ? std::optional(day + days(*until)) : std::nullopt, {}}, 15);
  if (seen_since) made_day.add(records::Reading{}, 15, 11);
  if (done_since) made_day.add(records::WaterChange{}, 15, 11);
  const Situation s = made_day.situation();
  Action a = made(s, "matter", tone, aim, {Deed::test});
  a.because.front().records = {1};
  if (seen_since || done_since) a.because.front().records.push_back(3);
  a.again = Days(3);
  Asked result;
  result.asked = {a};
  result.aside = take_answered(s, result.asked);
  return result;
}
bool is_asked(int days_later, AdviceAnswer::Answer answer, Tone tone, Aim aim, std::optional<int> until = {}, bool seen = false, bool did = false) {
  const auto result = asked_after(days_later, answer, tone, aim, until, seen, did);
  EXPECT_EQ(result.asked.size() + result.aside.size(), 1u);
  for (const Action& a : result.aside) EXPECT_TRUE(a.answer && a.answer->back && *a.answer->back > local_day({}, redd::testing::on_day(15 + days_later)));
  return !result.asked.empty();
}

TEST(Answers, SpeakOfEveryPartOfAJoinedKey) {
  EXPECT_TRUE(answers("ammonia+nitrate", "nitrate"));
  EXPECT_TRUE(answers("nitrate", "ammonia+nitrate"));
  EXPECT_FALSE(answers("nitrate/retest", "nitrate"));
  EXPECT_EQ(joined_keys("b+a", "a+c"), "a+b+c");
}

TEST(Answers, AnAlarmForAnimalsIsNeverSilenced) {
  for (const auto answer : {done, skipped, not_now})
    for (const int later : {0, 1, 10}) {
      const auto result = asked_after(later, answer, Tone::alarm, Aim::animals, answer == not_now ? std::optional(20) : std::nullopt);
      ASSERT_EQ(result.asked.size(), 1u);
      ASSERT_TRUE(result.asked.front().answer.has_value());
      EXPECT_EQ(result.asked.front().answer->answer, answer);
    }
}

TEST(Answers, DoneIsNotAskedAgainUntilItsTimeAndThenSaysSo) {
  for (const Tone tone : {Tone::watch, Tone::act}) {
    EXPECT_FALSE(is_asked(0, done, tone, Aim::animals));
    EXPECT_FALSE(is_asked(2, done, tone, Aim::animals));
    EXPECT_TRUE(is_asked(3, done, tone, Aim::animals));
    EXPECT_TRUE(asked_after(3, done, tone, Aim::animals).asked.front().answer.has_value());
  }
}

TEST(Answers, ANewReadingRenewsTheReasonButTheWorkItselfDoesNot) {
  EXPECT_TRUE(is_asked(0, done, Tone::watch, Aim::animals, {}, true));
  EXPECT_FALSE(asked_after(0, done, Tone::watch, Aim::animals, {}, true).asked.front().answer.has_value());
  EXPECT_TRUE(is_asked(0, skipped, Tone::watch, Aim::deadline, {}, true));
  EXPECT_FALSE(is_asked(0, done, Tone::watch, Aim::animals, {}, false, true)) << "the water change that was asked for";
}

TEST(Answers, WhatAnimalsNeedComesBackTheDayAfterItWasSkipped) {
  EXPECT_FALSE(is_asked(0, skipped, Tone::act, Aim::animals));
  EXPECT_TRUE(is_asked(1, skipped, Tone::act, Aim::animals));
  EXPECT_TRUE(asked_after(1, skipped, Tone::act, Aim::animals).asked.front().answer.has_value());
}

TEST(Answers, ASkippedDeadlineOrLessonIsLetGoThisOnce) {
  for (const Aim aim : {Aim::deadline, Aim::lesson}) {
    EXPECT_FALSE(is_asked(1, skipped, Tone::act, aim));
    EXPECT_FALSE(is_asked(6, skipped, Tone::watch, aim));
    EXPECT_TRUE(is_asked(7, skipped, Tone::watch, aim));
    EXPECT_FALSE(asked_after(7, skipped, Tone::watch, aim).asked.front().answer.has_value());
  }
}

TEST(Answers, NotNowWaitsForItsDayElseForTomorrow) {
  EXPECT_FALSE(is_asked(4, not_now, Tone::watch, Aim::deadline, 5));
  EXPECT_TRUE(is_asked(5, not_now, Tone::watch, Aim::deadline, 5));
  EXPECT_FALSE(is_asked(0, not_now, Tone::act, Aim::animals));
  EXPECT_TRUE(is_asked(1, not_now, Tone::act, Aim::animals));
  EXPECT_FALSE(is_asked(2, not_now, Tone::watch, Aim::animals, 5, true)) << "a new quiet reading keeps the bargain";
  EXPECT_TRUE(is_asked(2, not_now, Tone::act, Aim::animals, 5, true)) << "a new bad one does not";
}

TEST(Answers, TheNewestAnswerCounts) {
  Made made_day(16);
  made_day.add(AdviceAnswer{skipped, "matter", {}, {}}, 15);
  made_day.add(AdviceAnswer{not_now, "matter", local_day({}, redd::testing::on_day(16)), {}}, 15, 10);
  const Situation s = made_day.situation();
  std::vector<Action> actions{made(s, "matter", Tone::watch, Aim::deadline, {Deed::plan})};
  EXPECT_TRUE(take_answered(s, actions).empty());
}

}  // namespace
}  // namespace redd::advice
