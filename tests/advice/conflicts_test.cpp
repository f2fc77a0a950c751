#include "advice/conflicts.h"

#include <gtest/gtest.h>

#include "advice/made_situation.h"

namespace redd::advice {
namespace {

using namespace testing;
using std::chrono::days;

/// As told: the first is ranked higher.
std::vector<Action> resolved(const Situation& s, std::vector<Action> actions) {
  resolve_conflicts(s, actions);
  return actions;
}

Date from_of(const Action& a) { return local_day({}, a.from.value_or(Instant{})); }

TEST(Conflicts, TheFilterIsNotCleanedOnTheDayOfABigChange) {
  Made made_day;
  const Situation s = made_day.situation();
  const Action clean = made(s, "clean", Tone::watch, Aim::deadline, {Deed::clean_filter});
  const auto apart = resolved(s, {change(s, "ammonia", 0.4, Tone::act), clean});
  EXPECT_EQ(from_of(apart[1]), s.today() + filter_rest);
  EXPECT_EQ(local_day({}, apart[1].by), s.today() + filter_rest);
  EXPECT_TRUE(apart[1].moved.has_value());
  EXPECT_FALSE(apart[0].moved.has_value());
  EXPECT_FALSE(resolved(s, {change(s, "nitrate", 0.2, Tone::watch), clean})[1].moved.has_value()) << "a small change does no harm";
}

TEST(Conflicts, WhatCanWaitIsMovedWhicheverItIs) {
  Made made_day;
  const Situation s = made_day.situation();
  const auto apart = resolved(s, {made(s, "clean", Tone::watch, Aim::animals, {Deed::clean_filter}), change(s, "nitrate", 0.5, Tone::watch)});
  EXPECT_EQ(from_of(apart[1]), s.today() + filter_rest);
  EXPECT_FALSE(apart[0].moved.has_value());
}

TEST(Conflicts, MovedOntoAClosedDayGoesToTheNextOpenOne) {
  Made made_day(16);  // a Wednesday: three days on is a Saturday
  const Situation s = made_day.situation();
  const auto apart = resolved(s, {change(s, "ammonia", 0.5, Tone::act), made(s, "clean", Tone::watch, Aim::deadline, {Deed::clean_filter})});
  EXPECT_EQ(from_of(apart[1]), s.today() + days(5));
}

TEST(Conflicts, ASetPointAndABigChangeKeepHoursApart) {
  Made made_day;
  const Situation s = made_day.situation();
  const Action chill = made(s, "chill", Tone::watch, Aim::deadline, {Deed::set_temperature});
  EXPECT_EQ(from_of(resolved(s, {change(s, "nitrite", 0.3, Tone::act), chill})[1]), s.today() + days(1));
  Action urgent = chill;
  urgent.aim = Aim::animals;
  urgent.tone = Tone::act;
  const auto same_day = resolved(s, {change(s, "nitrite", 0.3, Tone::act), urgent});
  EXPECT_EQ(*same_day[1].from, s.now + std::chrono::hours(4));
  urgent.tone = Tone::alarm;
  const auto alarm = resolved(s, {change(s, "nitrite", 0.3, Tone::alarm), urgent});
  EXPECT_FALSE(alarm[1].from.has_value()) << "an alarm does not wait";
  EXPECT_EQ(alarm[1].cautions.size(), 1u);
  EXPECT_FALSE(resolved(s, {change(s, "nitrite", 0.1, Tone::act), chill})[1].moved.has_value());
}

TEST(Conflicts, TheChangeComesBeforeTheDose) {
  Made made_day;
  const Situation s = made_day.situation();
  const Action dose = made(s, "buffer", Tone::watch, Aim::animals, {Deed::dose});
  EXPECT_EQ(from_of(resolved(s, {change(s, "ammonia", 0.2, Tone::act), dose})[1]), s.today() + days(1));
  Action crash = dose;
  crash.tone = Tone::act;
  const auto lower = resolved(s, {crash, change(s, "nitrate", 0.2, Tone::watch)});
  EXPECT_EQ(from_of(lower[1]), s.today() + days(2));
  const auto both = resolved(s, {crash, change(s, "nitrite", 0.2, Tone::act)});
  EXPECT_TRUE(both[0].moved.has_value()) << "the dose waits for a change that cannot";
  EXPECT_FALSE(both[1].moved.has_value());
  EXPECT_FALSE(resolved(s, {made(s, "chlorine", Tone::alarm, Aim::animals, {Deed::dose}), change(s, "nitrite", 0.2, Tone::act)})[0].moved.has_value());
}

TEST(Conflicts, NoFoodBeforeTheRetest) {
  Made made_day;
  const Situation s = made_day.situation();
  const Action feed = made(s, "feeding", Tone::act, Aim::animals, {Deed::feed});
  for (const bool food_first : {false, true}) {
    const Action high = change(s, "ammonia", 0.2, Tone::alarm);
    const auto actions = resolved(s, food_first ? std::vector{feed, high} : std::vector{high, feed});
    EXPECT_EQ(from_of(of_key(actions, "feeding")), s.today() + days(1));
    const Action repeat = made(s, "contradiction/nitrite", Tone::act, Aim::animals, {Deed::test});
    const auto same_day = resolved(s, food_first ? std::vector{feed, repeat} : std::vector{repeat, feed});
    EXPECT_EQ(*of_key(same_day, "feeding").from, s.now + std::chrono::hours(1));
  }
  EXPECT_FALSE(resolved(s, {made(s, "weekly_test", Tone::act, Aim::animals, {Deed::test}), feed})[1].moved.has_value()) << "fry are not starved for a routine test";
}

TEST(Conflicts, FeedAndFeedLessAreOneWord) {
  Made made_day;
  const Situation s = made_day.situation();
  const auto actions = resolved(s, {made(s, "less", Tone::act, Aim::animals, {Deed::feed_less}), made(s, "feeding", Tone::act, Aim::animals, {Deed::feed})});
  ASSERT_EQ(actions.size(), 1u);
  EXPECT_EQ(actions[0].key, "feeding+less");
  EXPECT_NE(actions[0].cautions.front().pattern.find("Food is due too"), std::string::npos);
}

TEST(Conflicts, LessFoodTomorrowLeavesTodaysFoodAlone) {
  Made made_day;
  const Situation s = made_day.situation();
  EXPECT_EQ(resolved(s, {made(s, "feeding", Tone::watch, Aim::animals, {Deed::feed}), made(s, "less", Tone::watch, Aim::animals, {Deed::feed_less}, 1)}).size(), 2u);
}

TEST(Conflicts, WaterThatWouldMakeItWorseIsNotChangedForAnotherReason) {
  Made made_day;
  const Situation s = made_day.situation();
  const auto actions = resolved(s, {made(s, "ammonia/other_water", Tone::act, Aim::animals, {Deed::ask_for_help}), change(s, "nitrate", 0.2, Tone::watch, 7)});
  ASSERT_EQ(actions.size(), 1u);
  EXPECT_FALSE(actions[0].water_change.has_value());
}

TEST(Conflicts, WhatWasDoneTodayCountsToo) {
  Made made_day;
  records::WaterChange done;
  done.volume = Volume::from_l(100);
  made_day.add(done, 15);
  const Situation s = made_day.situation();
  EXPECT_EQ(from_of(resolved(s, {made(s, "clean", Tone::watch, Aim::deadline, {Deed::clean_filter})})[0]), s.today() + filter_rest);
  EXPECT_EQ(from_of(resolved(s, {made(s, "chill", Tone::watch, Aim::deadline, {Deed::set_temperature})})[0]), s.today() + days(1));
  EXPECT_FALSE(resolved(s, {made(s, "temperature/band", Tone::alarm, Aim::animals, {Deed::set_temperature})})[0].moved.has_value());
}

TEST(Conflicts, WorkOfAnotherDayIsLeftWhereItStands) {
  Made made_day;
  const Situation s = made_day.situation();
  Action clean = made(s, "clean", Tone::watch, Aim::deadline, {Deed::clean_filter}, 10);
  clean.from = s.now + days(8);
  EXPECT_FALSE(resolved(s, {change(s, "ammonia", 0.5, Tone::act), clean})[1].moved.has_value());
}

}  // namespace
}  // namespace redd::advice
