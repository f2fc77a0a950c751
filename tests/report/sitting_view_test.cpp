#include "report/sitting_view.h"

#include <gtest/gtest.h>

#include "support/kits.h"

namespace redd::report {
namespace {

using namespace redd::testing;
using sitting::seconds;

const Kit kit = kit_of({card("slow", {hands(Do::fill, 30), waiting(300), reading(15, 120)}), card("quick", {hands(Do::fill, 30), hands(Do::mix, 10), reading(15)})});

wire::Json json(int hands = 1) { return sitting_json(kit, *sitting::timetable(kit, {.hands = hands}), hands); }

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(SittingJson, SaysHowLongBeforeItBegins) {
  const auto sitting = json();
  EXPECT_EQ(sitting["headline"], "2 tests with one pair of hands: about 6 minutes (one after the other: about 7 minutes).");
  EXPECT_EQ(sitting["lasts_s"], 345);
  EXPECT_EQ(sitting["shortest"], true);
}

TEST(SittingJson, ListsTurnsWithStepsWaitsAndTheTimeToReadBy) {
  const auto turns = json()["turns"];
  ASSERT_EQ(turns.size(), 3U);
  EXPECT_EQ(turns[0]["test"], "slow");
  EXPECT_EQ(turns[0]["hands"], 1);
  EXPECT_EQ(turns[0]["sentence"], "slow: fill; then it waits until 5:30.");
  EXPECT_EQ(turns[0]["waits_until_s"], 330);
  EXPECT_EQ(turns[0]["wait_step"]["step"], 1);
  EXPECT_EQ(turns[1]["sentence"], "quick: fill, mix 10 s, read.");
  EXPECT_EQ(turns[1]["steps"][2]["do"], "read");
  EXPECT_EQ(turns[2]["read_by_text"], "7:30");
  EXPECT_FALSE(turns[1].contains("read_by_s"));
}

TEST(SittingJson, GivesSafetyAndAssumptionsInWords) {
  EXPECT_TRUE(has(json()["safety"][0], "Eye protection"));
  EXPECT_TRUE(has(json()["remarks"].back(), "assumed"));
}

TEST(SittingJson, OfNothingLeftSaysSo) {
  const auto done = sitting::continue_from(kit, {.tests = {"slow"}}, {{"slow", 3, seconds(0)}});
  EXPECT_EQ(sitting_json(kit, *done, 1)["headline"], "Nothing is left to do.");
}

TEST(SittingText, NamesTheHandsWhenThereAreTwo) {
  EXPECT_FALSE(has(sitting_text(kit, *sitting::timetable(kit, {}), 1), "hands 1"));
  EXPECT_TRUE(has(sitting_text(kit, *sitting::timetable(kit, {.hands = 2}), 2), "0:00  hands 2  quick"));
  EXPECT_TRUE(has(sitting_text(kit, *sitting::timetable(kit, {}), 1), "5:45  All read."));
}

TEST(SittingText, SaysWhenTheOtherCardIsDue) {
  auto low = card("low", {hands(Do::fill, 30), reading(15)}, records::Quantity::ph), high = low;
  low.steps = {6.2, 6.8, 7.4};
  high.key = "high";
  high.steps = {7.2, 7.8, 8.4};
  const Kit two = kit_of({low, high});
  const std::string text = sitting_text(two, *sitting::timetable(two, {}), 1);
  EXPECT_TRUE(has(text, "high only if low reads 7.2 or more.")) << text;
  EXPECT_TRUE(has(text, "plan about 2 minutes")) << text;
}

}  // namespace
}  // namespace redd::report
