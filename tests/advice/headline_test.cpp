#include "advice/headline.h"

#include <gtest/gtest.h>

#include "advice/made_situation.h"

namespace redd::advice {
namespace {

using namespace testing;

TEST(Headline, SaysWhatTheFirstActionSays) {
  Made made_day;
  const Situation s = made_day.situation();
  const Action first = made(s, "nitrite", Tone::act, Aim::animals, {Deed::change_water});
  const auto headline = headline_of(s, {first}, {});
  EXPECT_EQ(headline.tone, Tone::act);
  EXPECT_EQ(headline.sentence.pattern, first.concern.pattern);
}

TEST(Headline, IsNeverCalmWhileSomethingPutAsideStands) {
  Made made_day;
  const Situation s = made_day.situation();
  Action aside = made(s, "nitrite", Tone::act, Aim::animals, {Deed::change_water});
  aside.answer.emplace();
  aside.answer->answer = records::AdviceAnswer::Answer::skipped;
  const Action calm = made(s, "weekly_test", Tone::good, Aim::deadline, {Deed::test}, 5);
  EXPECT_EQ(headline_of(s, {calm}, {aside}).tone, Tone::watch);
  EXPECT_EQ(headline_of(s, {calm}, {aside}).sentence.pattern, "What you put aside still stands.");
  EXPECT_EQ(headline_of(s, {}, {aside}).tone, Tone::watch);
  EXPECT_EQ(headline_of(s, {calm}, {}).tone, Tone::good);
}

TEST(Headline, WithNothingKnownIsNotCalm) {
  Made made_day;
  Situation s = made_day.situation();
  s.water[WaterKey::nitrite].tone = Tone::unknown;
  const Action calm = made(s, "weekly_test", Tone::good, Aim::deadline, {Deed::test}, 5);
  EXPECT_EQ(headline_of(s, {calm}, {}).tone, Tone::unknown);
  EXPECT_EQ(headline_of(s, {}, {}).tone, Tone::unknown);
}

}  // namespace
}  // namespace redd::advice
