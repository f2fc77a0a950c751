// Sittings small enough to lay out by hand.
#include "sitting/timetable.h"

#include <gtest/gtest.h>

#include "support/kits.h"

namespace redd::sitting {
namespace {

using namespace redd::testing;

KitTest slow(const char* key) { return card(key, {hands(Do::fill, 30), waiting(300), reading(15, 120)}); }
KitTest quick(const char* key) { return card(key, {hands(Do::fill, 30), reading(15)}); }
KitTest dip() { return card("dip", {hands(Do::fill, 5), waiting(60), reading(15, 30)}); }

std::string code_of(const Result<Timetable>& result) { return result ? "none" : result.problems().front().code; }

TEST(Timetable, FillsTheWaitOfOneTestWithAnother) {
  const auto table = timetable(kit_of({quick("b"), slow("a")}), {});
  ASSERT_TRUE(table);
  EXPECT_EQ(table->lasts, seconds(345)) << "b fits into the wait of a";
  EXPECT_EQ(table->one_after_another, seconds(390));
  EXPECT_EQ(table->hands_on, seconds(90));
  EXPECT_EQ(table->switches, 2);
  ASSERT_EQ(table->turns.size(), 3U);
  EXPECT_EQ(table->turns[0].test, 1U);
  EXPECT_EQ(table->turns[0].waits_until, seconds(330));
  EXPECT_EQ(table->turns[2].starts, seconds(330));
  EXPECT_EQ(table->turns[2].read_by, seconds(450));
  EXPECT_EQ(table->turns[1].parts.size(), 2U);
}

TEST(Timetable, HoldsATestBackWhoseReadingWouldMeetAnother) {
  // Both waits are of one length and the windows leave no room: the second fill has to come 5 s later than it could.
  const Kit kit = kit_of({card("a", {hands(Do::fill, 10), waiting(60), reading(15, 15)}), card("b", {hands(Do::fill, 10), waiting(60), reading(15, 15)})});
  const auto table = timetable(kit, {});
  ASSERT_TRUE(table);
  EXPECT_EQ(table->lasts, seconds(100));
  EXPECT_EQ(table->turns[1].starts, seconds(15));
}

TEST(Timetable, TwoPairsOfHandsShareTheWork) {
  const auto table = timetable(kit_of({quick("a"), quick("b")}), {.hands = 2});
  EXPECT_EQ(table->lasts, seconds(45));
  EXPECT_EQ(table->switches, 0);
}

TEST(Timetable, OfEquallyShortOrdersSwitchesLeastAndKeepsToTheKit) {
  const auto table = timetable(kit_of({quick("a"), quick("b"), quick("c")}), {});
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(table->turns[i].test, i);
  // A short wait is stood through when that costs nothing.
  const auto two = timetable(kit_of({slow("a"), card("b", {hands(Do::fill, 10), waiting(20), reading(10)})}), {});
  EXPECT_EQ(two->switches, 2);
}

TEST(Timetable, ReadsTheColoursOfOneStripFromOneDip) {
  const Kit kit = kit_of({dip(), card("pad", {waiting(60), reading(15, 30)}), card("early", {reading(15, 60)})});
  const auto table = timetable(kit, {});
  ASSERT_TRUE(table);
  EXPECT_EQ(table->lasts, seconds(95));
  EXPECT_EQ(table->switches, 0) << "one strip is one vial";
  EXPECT_EQ(table->turns[1].test, 2U);
  EXPECT_EQ(table->turns[1].read_by, seconds(65));
  EXPECT_EQ(table->remarks.size(), 2U);
}

TEST(Timetable, SaysWhichColoursOfAStripCollide) {
  std::vector<KitTest> pads{dip(), quick("other")};
  for (const char* key : {"p1", "p2"}) pads.insert(pads.begin() + 1, card(key, {waiting(60), reading(15, 30)}));
  EXPECT_EQ(code_of(timetable(kit_of(pads), {.hands = 2})), "none");
  const auto refused = timetable(kit_of(pads), {});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.problems()[0].code, "windows_collide");
  const std::string& sentence = refused.problems()[0].sentence;
  EXPECT_NE(sentence.find("second pair"), std::string::npos) << sentence;
  EXPECT_NE(sentence.find("\"p1\""), std::string::npos) << sentence;
  EXPECT_EQ(sentence.find("\"other\""), std::string::npos) << sentence;
}

TEST(Timetable, LeavesTheOtherCardForLaterAndSaysWhatItWouldAdd) {
  auto low = card("low", {hands(Do::fill, 30), reading(15)}, records::Quantity::ph), high = low;
  low.steps = {6, 6.5, 7};
  high.key = "high";
  high.steps = {6.8, 7.5, 8};
  const auto table = timetable(kit_of({low, high}), {});
  EXPECT_EQ(table->lasts, seconds(45));
  EXPECT_EQ(table->lasts_with_later, seconds(90));
  ASSERT_EQ(table->later.size(), 1U);
  EXPECT_EQ(timetable(kit_of({low, high}), {.tests = {"high", "low"}})->turns.size(), 2U);
}

TEST(Timetable, RefusesWhatItCannotLayOut) {
  const Kit kit = kit_of({slow("a"), slow("b")});
  EXPECT_EQ(code_of(timetable(kit, {.tests = {"c"}})), "unknown_test");
  EXPECT_EQ(code_of(timetable(kit, {.tests = {"a", "a"}})), "given_twice");
  EXPECT_EQ(code_of(timetable(kit, {.hands = 0})), "not_one_or_two_hands");
  EXPECT_EQ(code_of(timetable(kit, {.hands = 3})), "not_one_or_two_hands");
  EXPECT_EQ(code_of(timetable(kit_of({card("a", {{.what = Do::wait}})}), {})), "wait_without_seconds");
  std::vector<KitTest> many;
  for (int i = 0; i < 21; ++i) many.push_back(slow(("t" + std::to_string(i)).c_str()));
  EXPECT_EQ(code_of(timetable(kit_of(many), {})), "too_many_tests");
}

TEST(Timetable, SaysWhatItAssumed) {
  const auto table = timetable(kit_of({card("bare", {})}), {});
  ASSERT_EQ(table->remarks.size(), 1U);
  EXPECT_TRUE(table->shortest);
}

TEST(ContinueFrom, TakesUpARunningWait) {
  const Kit kit = kit_of({slow("a"), quick("b")});
  const auto rest = continue_from(kit, {}, {{"a", 1, seconds(290)}});
  ASSERT_TRUE(rest);
  EXPECT_EQ(rest->turns[0].test, 1U) << "b takes 45 s; the colour, ready in 10, still counts then";
  EXPECT_EQ(rest->lasts, seconds(45 + 15));
  EXPECT_FALSE(rest->one_after_another);
}

TEST(ContinueFrom, TakesUpATestInTheMiddleOfATurn) {
  const Kit kit = kit_of({card("a", {hands(Do::fill, 30), hands(Do::drops, 20), waiting(60), reading(15)})});
  const auto rest = continue_from(kit, {}, {{"a", 1, seconds(5)}});
  EXPECT_EQ(rest->lasts, seconds(20 + 60 + 15));
  EXPECT_EQ(rest->turns[0].parts.front().step, 1);
}

TEST(ContinueFrom, KnowsThatAWaitIsOver) {
  const Kit kit = kit_of({slow("a")});
  EXPECT_EQ(continue_from(kit, {}, {{"a", 2, seconds(40)}})->turns[0].read_by, seconds(80)) << "the wait itself counted as done";
  EXPECT_EQ(continue_from(kit, {}, {{"a", 1, seconds(340)}})->turns[0].read_by, seconds(80));
  EXPECT_EQ(continue_from(kit, {}, {{"a", 3, seconds(0)}})->turns.size(), 0U) << "all done";
}

TEST(ContinueFrom, WaitsForHandsThatAreStillBusy) {
  const auto rest = continue_from(kit_of({quick("a")}), {}, {}, {seconds(12)});
  EXPECT_EQ(rest->turns[0].starts, seconds(12));
  EXPECT_EQ(rest->lasts, seconds(57));
}

TEST(ContinueFrom, SaysThatAColourNoLongerCounts) {
  const Kit kit = kit_of({slow("a"), quick("b")});
  EXPECT_EQ(code_of(continue_from(kit, {}, {{"a", 1, seconds(405)}})), "none");
  const auto late = continue_from(kit, {}, {{"a", 1, seconds(406)}});
  ASSERT_FALSE(late);
  EXPECT_EQ(late.problems()[0].code, "read_too_late");
  EXPECT_NE(late.problems()[0].sentence.find("\"a\""), std::string::npos);
}

TEST(ContinueFrom, SaysWhichRunningColoursCollide) {
  const Kit kit = kit_of({slow("a"), slow("b"), slow("c")});
  const auto late = continue_from(kit, {}, {{"a", 1, seconds(400)}, {"c", 1, seconds(401)}});
  ASSERT_FALSE(late);
  EXPECT_EQ(late.problems()[0].code, "windows_collide");
  EXPECT_NE(late.problems()[0].sentence.find("\"a\" and \"c\""), std::string::npos) << late.problems()[0].sentence;
  EXPECT_EQ(code_of(continue_from(kit, {.hands = 2}, {{"a", 1, seconds(400)}, {"c", 1, seconds(401)}})), "none");
}

TEST(ContinueFrom, KnowsAStripByItsDip) {
  const Kit kit = kit_of({dip(), card("pad", {waiting(60), reading(15, 30)})});
  EXPECT_EQ(continue_from(kit, {}, {{"dip", 1, seconds(50)}})->lasts, seconds(10 + 15 + 15));
  EXPECT_EQ(continue_from(kit, {}, {{"dip", 3, seconds(0)}, {"pad", 0, seconds(70)}})->turns[0].read_by, seconds(20));
  EXPECT_EQ(code_of(continue_from(kit, {}, {{"dip", 3, seconds(0)}})), "strip_without_time");
}

TEST(ContinueFrom, RefusesAStateThatCannotBe) {
  const Kit kit = kit_of({slow("a")});
  EXPECT_EQ(code_of(continue_from(kit, {}, {{"z", 1, seconds(0)}})), "unknown_test");
  EXPECT_EQ(code_of(continue_from(kit, {}, {{"a", 1, seconds(0)}, {"a", 1, seconds(0)}})), "given_twice");
  EXPECT_EQ(code_of(continue_from(kit, {}, {{"a", 4, seconds(0)}})), "unknown_step");
  EXPECT_EQ(code_of(continue_from(kit, {}, {{"a", -1, seconds(0)}})), "unknown_step");
  EXPECT_EQ(code_of(continue_from(kit, {}, {}, {seconds(0), seconds(0)})), "wrong_length");
}

}  // namespace
}  // namespace redd::sitting
