#include "advice/ranking.h"

#include <gtest/gtest.h>

#include "advice/made_situation.h"

namespace redd::advice {
namespace {

using namespace testing;
using Keys = std::vector<std::string>;

Keys ranked(const Situation& s, std::vector<Action> actions) {
  rank(s, actions);
  return keys_of(actions);
}

TEST(Ranking, AlarmsComeBeforeAllAndWhatIsInOrderLast) {
  Made made_day;
  const Situation s = made_day.situation();
  EXPECT_EQ(ranked(s, {made(s, "good", Tone::good, Aim::animals, {Deed::test}), made(s, "watch", Tone::watch, Aim::animals, {Deed::test}),
                       made(s, "act", Tone::act, Aim::lesson, {Deed::test}), made(s, "alarm", Tone::alarm, Aim::animals, {Deed::mend}, 1)}),
            (Keys{"alarm", "act", "watch", "good"}));
}

TEST(Ranking, AnimalsComeBeforeDeadlinesAndDeadlinesBeforeLessons) {
  Made made_day;
  const Situation s = made_day.situation();
  for (const Tone tone : {Tone::act, Tone::watch})
    EXPECT_EQ(ranked(s, {made(s, "lesson", tone, Aim::lesson, {Deed::count}), made(s, "deadline", tone, Aim::deadline, {Deed::plan}), made(s, "animals", tone, Aim::animals, {Deed::test})}),
              (Keys{"animals", "deadline", "lesson"}));
}

TEST(Ranking, AMonthAheadNeverStandsBeforeTomorrow) {
  Made made_day;
  const Situation s = made_day.situation();
  EXPECT_EQ(ranked(s, {made(s, "month", Tone::watch, Aim::animals, {Deed::plan}, 30), made(s, "week", Tone::watch, Aim::animals, {Deed::plan}, 6),
                       made(s, "tomorrow", Tone::watch, Aim::lesson, {Deed::test}, 1)}),
            (Keys{"tomorrow", "week", "month"}));
}

TEST(Ranking, OnAFridayMondayIsAsNearAsTomorrow) {
  Made made_day(18);
  const Situation s = made_day.situation();
  EXPECT_EQ(ranked(s, {made(s, "tomorrow", Tone::watch, Aim::lesson, {Deed::test}, 1), made(s, "monday", Tone::watch, Aim::animals, {Deed::test}, 3)}), (Keys{"monday", "tomorrow"}));
}

TEST(Ranking, AmongEqualsWhatAMinuteAvertsDecides) {
  Made made_day;
  const Situation s = made_day.situation();
  Action cheap = made(s, "cheap", Tone::act, Aim::animals, {Deed::dose}), dear = made(s, "dear", Tone::act, Aim::animals, {Deed::change_water});
  dear.effort_minutes = 30;
  EXPECT_EQ(ranked(s, {dear, cheap}), (Keys{"cheap", "dear"}));
  dear.stake = 0.5;
  cheap.stake = 0.01;
  EXPECT_EQ(ranked(s, {cheap, dear}), (Keys{"dear", "cheap"}));
}

TEST(Ranking, WhatHasToWaitItsTurnStandsBehindItsEqual) {
  Made made_day;
  const Situation s = made_day.situation();
  Action later = made(s, "later", Tone::act, Aim::animals, {Deed::feed});
  later.from = s.now + std::chrono::hours(1);
  EXPECT_EQ(ranked(s, {later, made(s, "first", Tone::act, Aim::animals, {Deed::test})}), (Keys{"first", "later"}));
}

}  // namespace
}  // namespace redd::advice
