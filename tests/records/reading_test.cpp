#include "records/reading.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace redd::records {
namespace {

using Form = Reading::Form;

Reading reading(Form form, std::optional<double> value = {}, std::optional<double> upper = {}) {
  Reading r;
  r.form = form;
  r.value = value;
  r.upper_value = upper;
  return r;
}

/// A card with rising steps, the first sometimes zero.
rc::Gen<KitTest> any_card() {
  return rc::gen::exec([] {
    KitTest test;
    test.quantity = Quantity::nitrate;
    test.unit = *rc::gen::element(TestUnit::mg_n_per_l, TestUnit::mg_no3_per_l);
    double step = *rc::gen::inRange(0, 3) / 4.0;
    const int count = *rc::gen::inRange(2, 9);
    for (int i = 0; i < count; ++i) {
      test.steps.push_back(step);
      step += *rc::gen::inRange(1, 2000) / 64.0;
    }
    return test;
  });
}

RC_GTEST_PROP(ObservedInterval, OfStepsTilesTheWholeRange, ()) {
  const KitTest card = *any_card();
  double edge = 0;
  for (std::size_t i = 0; i < card.steps.size(); ++i) {
    const auto seen = observed_interval(card, reading(Form::step, card.steps[i]));
    RC_ASSERT(seen.has_value());
    RC_ASSERT(seen->low == edge);
    RC_ASSERT(seen->low <= seen->mid);
    RC_ASSERT(seen->mid <= seen->high);
    RC_ASSERT(seen->open_below == (i == 0));
    RC_ASSERT(seen->open_above == (i + 1 == card.steps.size()));
    edge = seen->high;
  }
  RC_ASSERT(std::isinf(edge));
}

RC_GTEST_PROP(ObservedInterval, BetweenTwoStepsIsTheTwoSteps, ()) {
  const KitTest card = *any_card();
  for (std::size_t i = 0; i + 1 < card.steps.size(); ++i) {
    const auto seen = observed_interval(card, reading(Form::between, card.steps[i], card.steps[i + 1]));
    RC_ASSERT(seen.has_value());
    RC_ASSERT(seen->low == canonical_value(card.unit, card.steps[i]));
    RC_ASSERT(seen->high == canonical_value(card.unit, card.steps[i + 1]));
    RC_ASSERT(!observed_interval(card, reading(Form::between, card.steps[i + 1], card.steps[i])));
    if (i + 2 >= card.steps.size()) continue;
    const auto wide = observed_interval(card, reading(Form::between, card.steps[i], card.steps[i + 2]));  // not sure which
    RC_ASSERT(wide.has_value());
    RC_ASSERT(wide->low == canonical_value(card.unit, card.steps[i]));
    RC_ASSERT(wide->high == canonical_value(card.unit, card.steps[i + 2]));
  }
  RC_ASSERT(!observed_interval(card, reading(Form::step, card.steps[0] + 1e-3)));
}

RC_GTEST_PROP(ObservedInterval, OfDropsIsOneDropWide, ()) {
  KitTest test;
  test.quantity = Quantity::alkalinity;
  test.method = Method::drop_count;
  test.unit = TestUnit::german_degrees;
  test.per_drop = *rc::gen::inRange(1, 100) / 16.0;
  const int drops = *rc::gen::inRange(1, 60);
  const auto seen = observed_interval(test, reading(Form::drops, drops));
  RC_ASSERT(seen.has_value());
  const double one = canonical_value(test.unit, *test.per_drop);
  RC_ASSERT(std::abs(seen->high - seen->low - one) < 1e-9 * drops);
  RC_ASSERT(std::abs(seen->high - drops * one) < 1e-9 * drops);
}

TEST(ObservedInterval, BeyondTheCardKnowsOneSideOnly) {
  KitTest card;
  card.quantity = Quantity::nitrite;
  card.unit = TestUnit::mg_n_per_l;
  card.steps = {0.1, 0.5, 2};
  const auto below = observed_interval(card, reading(Form::below_first)), above = observed_interval(card, reading(Form::above_last));
  ASSERT_TRUE(below && above);
  EXPECT_EQ(below->low, 0);
  EXPECT_EQ(below->high, 0.1);
  EXPECT_TRUE(below->open_below);
  EXPECT_EQ(above->low, 2);
  EXPECT_TRUE(std::isinf(above->high));
}

TEST(ObservedInterval, OfAMeterIsItsAccuracyAndNeverBelowZero) {
  KitTest meter;
  meter.method = Method::meter;
  meter.quantity = Quantity::oxygen;
  meter.unit = TestUnit::mg_per_l;
  meter.accuracy = 0.4;
  const auto seen = observed_interval(meter, reading(Form::number, 9.1));
  ASSERT_TRUE(seen);
  EXPECT_NEAR(seen->low, 8.7, 1e-12);
  EXPECT_NEAR(seen->high, 9.5, 1e-12);
  EXPECT_EQ(observed_interval(meter, reading(Form::number, 0.1))->low, 0);
}

TEST(ObservedInterval, IsNothingWhenFormAndMethodDiffer) {
  KitTest card, drops, meter;
  card.steps = {6, 7, 8};
  drops.method = Method::drop_count;
  drops.per_drop = 1;
  meter.method = Method::meter;
  for (const Form form : {Form::drops, Form::number}) EXPECT_FALSE(observed_interval(card, reading(form, 7)));
  for (const Form form : {Form::step, Form::between, Form::below_first, Form::above_last, Form::number}) EXPECT_FALSE(observed_interval(drops, reading(form, 7, 8)));
  for (const Form form : {Form::step, Form::between, Form::below_first, Form::above_last, Form::drops}) EXPECT_FALSE(observed_interval(meter, reading(form, 7, 8)));
  for (const Form form : {Form::step, Form::between}) EXPECT_FALSE(observed_interval(card, reading(form)));
}

TEST(CanonicalValue, ConvertsTheBasisPrintedOnTheCard) {
  // IUPAC abridged atomic weights 2021: N 14.007, H 1.008, O 15.999; the usual factors to four digits.
  EXPECT_NEAR(printed_value(TestUnit::mg_no3_per_l, 1.0), 4.4267, 2e-4);
  EXPECT_NEAR(printed_value(TestUnit::mg_no2_per_l, 1.0), 3.2844, 2e-4);
  EXPECT_NEAR(printed_value(TestUnit::mg_nh4_per_l, 1.0), 1.2878, 2e-4);
  EXPECT_NEAR(printed_value(TestUnit::mg_nh3_per_l, 1.0), 1.2159, 2e-4);
  // One German degree is 10 mg CaO/L: 17.848 mg CaCO3/L, 0.35664 meq/L.
  EXPECT_NEAR(canonical_value(TestUnit::german_degrees, 1.0), 0.35664, 1e-4);
}

RC_GTEST_PROP(CanonicalValue, IsUndoneByPrintedValue, ()) {
  const auto unit = static_cast<TestUnit>(*rc::gen::inRange(0, 13));
  const double value = *rc::gen::inRange(0, 100000) / 128.0;
  RC_ASSERT(std::abs(printed_value(unit, canonical_value(unit, value)) - value) <= 1e-12 * std::max(1.0, value));
}

}  // namespace
}  // namespace redd::records
