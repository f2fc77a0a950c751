// Two cards of one quantity: which comes first, and when the other is due.
#include "sitting/hand_over.h"

#include <gtest/gtest.h>

#include "support/kits.h"

namespace redd::sitting {
namespace {

using namespace redd::testing;
using Form = records::Reading::Form;
using records::Quantity;

KitTest range(const char* key, std::vector<double> steps) {
  KitTest test = card(key, {}, Quantity::ph);
  test.steps = std::move(steps);
  return test;
}
const KitTest low = range("low", {6.2, 6.5, 6.8, 7.1, 7.4});
const KitTest high = range("high", {7.2, 7.5, 7.8, 8.1});

records::Reading read(Form form, std::optional<double> value = std::nullopt, std::optional<double> upper = std::nullopt) {
  return {.form = form, .value = value, .upper_value = upper};
}

TEST(HandOver, BeginsWithTheFirstInKitOrderWhenNothingIsExpected) {
  EXPECT_EQ(hand_over(low, high, std::nullopt)->first, "low");
  EXPECT_EQ(hand_over(high, low, std::nullopt)->first, "high");
}

TEST(HandOver, BeginsWithTheCardThatHoldsTheExpectedValueBetter) {
  EXPECT_EQ(hand_over(low, high, 6.6)->first, "low");
  EXPECT_EQ(hand_over(low, high, 7.7)->first, "high");
  EXPECT_EQ(hand_over(high, low, 7.25)->first, "low");
  EXPECT_EQ(hand_over(low, high, 9.5)->first, "high") << "beyond both: the nearer";
}

TEST(HandOver, MakesTheOtherDueFromWhereItsRangeBegins) {
  const auto up = *hand_over(low, high, 6.5), down = *hand_over(low, high, 7.8);
  EXPECT_TRUE(up.at_or_above);
  EXPECT_DOUBLE_EQ(up.printed, 7.2);
  EXPECT_FALSE(down.at_or_above);
  EXPECT_DOUBLE_EQ(down.printed, 7.4);
}

TEST(HandOver, AcrossAGapStartsAtTheEndOfTheFirst) {
  const auto up = *hand_over(range("a", {6, 6.5, 7}), range("b", {7.5, 8}), 6.2);
  EXPECT_DOUBLE_EQ(up.printed, 7.0);
}

TEST(HandOver, IsForTwoColourCardsOfOneQuantityThatShareARange) {
  auto meter = high;
  meter.method = records::Method::meter;
  EXPECT_FALSE(hand_over(low, meter, 7.0));
  auto other = high;
  other.quantity = Quantity::nitrate;
  EXPECT_FALSE(hand_over(low, other, 7.0));
  EXPECT_FALSE(hand_over(low, range("inside", {6.4, 7.0}), 7.0)) << "a finer card within the range is no high card";
  EXPECT_FALSE(hand_over(low, low, 7.0));
}

TEST(HandOver, ComparesCardsInOneUnit) {
  KitTest as_n = card("as_n", {}, Quantity::nitrate), as_no3 = as_n;
  as_n.unit = records::TestUnit::mg_n_per_l;
  as_n.steps = {0, 5, 10};
  as_no3.key = "as_no3";
  as_no3.unit = records::TestUnit::mg_no3_per_l;
  as_no3.steps = {30, 60, 120};  // 6.8 to 27 mg N/L
  const auto rule = hand_over(as_n, as_no3, 3.0);
  ASSERT_TRUE(rule);
  EXPECT_EQ(rule->first, "as_n");
  EXPECT_NEAR(rule->printed, 6.78, 0.01);
}

TEST(OtherIsDue, AtAndBeyondTheSeam) {
  const auto up = *hand_over(low, high, 6.5);
  EXPECT_FALSE(other_is_due(up, read(Form::step, 7.1)));
  EXPECT_TRUE(other_is_due(up, read(Form::step, 7.4)));
  EXPECT_TRUE(other_is_due(up, read(Form::between, 7.1, 7.4)));
  EXPECT_FALSE(other_is_due(up, read(Form::between, 6.8, 7.1)));
  EXPECT_TRUE(other_is_due(up, read(Form::above_last)));
  EXPECT_FALSE(other_is_due(up, read(Form::below_first)));
  const auto down = *hand_over(low, high, 7.8);
  EXPECT_TRUE(other_is_due(down, read(Form::step, 7.2)));
  EXPECT_FALSE(other_is_due(down, read(Form::step, 7.5)));
  EXPECT_TRUE(other_is_due(down, read(Form::between, 7.2, 7.5)));
  EXPECT_TRUE(other_is_due(down, read(Form::below_first)));
  EXPECT_FALSE(other_is_due(down, read(Form::above_last)));
}

TEST(OtherIsDue, WhenNothingIsKnown) {
  const auto up = *hand_over(low, high, 6.5);
  EXPECT_TRUE(other_is_due(up, read(Form::step)));
  EXPECT_TRUE(other_is_due(up, read(Form::number, 6.4)));
}

TEST(UsualTests, LeaveTheOtherCardForLater) {
  const Kit kit = kit_of({card("nitrate", {}), low, high});
  const std::vector<std::size_t> all{0, 1, 2};
  const auto usual = usual_tests(kit, all, {});
  EXPECT_EQ(usual.now, (std::vector<std::size_t>{0, 1}));
  ASSERT_EQ(usual.later.size(), 1U);
  EXPECT_EQ(usual.later[0].then, "high");
  EXPECT_EQ(usual_tests(kit, all, {{Quantity::ph, 8.0}}).now, (std::vector<std::size_t>{0, 2}));
  EXPECT_EQ(usual_tests(kit, {0, 2}, {}).now, (std::vector<std::size_t>{0, 2})) << "without the low card the high one is no later one";
}

TEST(LastRead, IsTheNewestOfEachQuantityOnAnyCard) {
  const Kit kit = kit_of({low, high, card("nitrate", {})});
  std::vector<records::Record> log;
  const auto add = [&](records::Body body) {
    records::Record record;
    record.id = static_cast<records::RecordId>(log.size() + 1);
    record.entry.body = std::move(body);
    log.push_back(record);
  };
  const auto reading_on = [&](const char* test, double step) {
    add(records::Reading{.kit = kit.key, .test = test, .form = Form::step, .value = step});
  };
  add(kit);
  reading_on("low", 6.8);
  reading_on("high", 7.8);
  const auto known = last_read(kit, log);
  ASSERT_EQ(known.size(), 1U) << "nitrate was never read";
  EXPECT_NEAR(known[0].value, 7.8, 0.2);
}

}  // namespace
}  // namespace redd::sitting
