// What a card says of its steps, and what is assumed where it is silent.
#include "sitting/steps.h"

#include <gtest/gtest.h>

#include "support/kits.h"

namespace redd::sitting {
namespace {

using namespace redd::testing;

std::vector<Step> steps(std::vector<TimedStep> given, bool on_a_strip = false) {
  const auto found = steps_of(kit_of({card("a", std::move(given))}), 0, {}, on_a_strip);
  EXPECT_TRUE(found.has_value());
  return found ? *found : std::vector<Step>{};
}

std::string problem(std::vector<TimedStep> given) {
  const auto found = steps_of(kit_of({card("a", std::move(given))}), 0, {}, false);
  return found ? "none" : found.problems().front().code;
}

TEST(StepsOf, TakeTheSecondsOfTheCardFirst) {
  const auto found = steps({hands(Do::mix, 60), {.what = Do::mix}, reading(7)});
  EXPECT_EQ(found[0].lasts, seconds(60));
  EXPECT_EQ(found[1].lasts, HandTimes{}.mix);
  EXPECT_EQ(found[2].lasts, seconds(7));
}

TEST(StepsOf, CountDropsAndSpoons) {
  const HandTimes times;
  const auto found = steps({{.what = Do::drops, .count = 6}, {.what = Do::drops}, {.what = Do::powder, .count = 2}, {.what = Do::powder}, reading(7)});
  EXPECT_EQ(found[0].lasts, times.bottle + 6 * times.drop);
  EXPECT_EQ(found[1].lasts, times.titration) << "drops without a number are counted until the colour turns";
  EXPECT_EQ(found[2].lasts, 2 * times.spoon);
  EXPECT_EQ(found[3].lasts, times.spoon);
}

TEST(StepsOf, MakeOneWaitOfTwo) {
  const auto found = steps({hands(Do::fill, 5), waiting(30), waiting(60), reading(7)});
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[1].lasts, seconds(90));
}

TEST(StepsOf, GiveTheTimeToReadByOfAWaitToTheReadAfterIt) {
  const auto found = steps({hands(Do::fill, 5), {.what = Do::wait, .seconds = 240, .read_by_seconds = 120}, {.what = Do::read}});
  EXPECT_EQ(found.back().read_by_after_wait, seconds(120));
  EXPECT_FALSE(found.back().assumed);
}

TEST(StepsOf, EndWithAReadAndBeginWithHands) {
  const auto found = steps({{.what = Do::wait, .seconds = 240, .read_by_seconds = 120}});
  ASSERT_EQ(found.size(), 3U);
  EXPECT_TRUE(found.front().assumed);
  EXPECT_EQ(found.front().lasts, HandTimes{}.begin);
  EXPECT_TRUE(found.back().assumed);
  EXPECT_EQ(found.back().what, Do::read);
  EXPECT_EQ(found.back().read_by_after_wait, seconds(120));
  EXPECT_EQ(steps({waiting(10), reading(7)}, true).size(), 2U) << "a strip has been dipped already";
}

TEST(StepsOf, ACardWithoutStepsKeepsTheHandsBusy) {
  const auto found = steps({});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_TRUE(found[0].assumed);
  EXPECT_EQ(found[0].lasts, HandTimes{}.whole_test);
}

TEST(StepsOf, AWaitWithoutSecondsIsNotGuessed) {
  EXPECT_EQ(problem({hands(Do::fill, 5), {.what = Do::wait}, reading(7)}), "wait_without_seconds");
}

TEST(StepsOf, AReadingLongerThanItsWindowIsRefused) {
  EXPECT_EQ(problem({hands(Do::fill, 5), waiting(60), reading(15, 15)}), "none");
  EXPECT_EQ(problem({hands(Do::fill, 5), waiting(60), reading(15, 14)}), "reading_outlasts_its_window");
  EXPECT_EQ(problem({hands(Do::fill, 5), {.what = Do::wait, .seconds = 60, .read_by_seconds = 14}, reading(15)}), "reading_outlasts_its_window");
  EXPECT_EQ(problem({hands(Do::fill, 5), {.what = Do::wait, .seconds = 60, .read_by_seconds = 20}, hands(Do::mix, 6), reading(15)}), "reading_outlasts_its_window");
  EXPECT_EQ(problem({hands(Do::fill, 5), {.what = Do::wait, .seconds = 60, .read_by_seconds = 10}}), "reading_outlasts_its_window");
}

TEST(StripOf, IsTheDippedCardBeforeAColourWithoutASampleOfItsOwn) {
  auto meter = card("meter", {waiting(60), reading(5)});
  meter.method = records::Method::meter;
  const Kit kit = kit_of({card("vial", {hands(Do::fill, 5), hands(Do::drops, 5), reading(5)}), card("lone", {waiting(60), reading(5)}),
                          card("dip", {hands(Do::fill, 2), waiting(60), reading(5)}), card("pad", {waiting(30), reading(5)}), meter,
                          card("second_pad", {reading(5, 60)}), card("no_steps", {})});
  EXPECT_EQ(strip_of(kit, 0), std::nullopt);
  EXPECT_EQ(strip_of(kit, 1), std::nullopt) << "before it stands a vial with drops, not a strip";
  EXPECT_EQ(strip_of(kit, 2), std::nullopt);
  EXPECT_EQ(strip_of(kit, 3), 2U);
  EXPECT_EQ(strip_of(kit, 4), std::nullopt);
  EXPECT_EQ(strip_of(kit, 5), 2U);
  EXPECT_EQ(strip_of(kit, 6), std::nullopt);
}

}  // namespace
}  // namespace redd::sitting
