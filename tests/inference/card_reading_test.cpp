#include "inference/card_reading.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "numerics/random.h"
#include "support/small_season.h"

namespace redd::inference {
namespace {

using redd::testing::SmallSeason;
using Form = records::Reading::Form;

TestReading read(const char* test, Form form, std::optional<double> value, std::optional<double> upper = {}) {
  auto reading = SmallSeason::reading(test, form, value);
  reading.upper_value = upper;
  return {*records::find_test(SmallSeason::kit(), test), reading};
}

ValueBehind behind(std::vector<TestReading> readings) { return *value_behind(readings); }

TEST(ValueBehind, AStepIsARangeAroundItNotANumber) {
  const auto v = behind({read("ammonia", Form::step, 0.4)});
  EXPECT_LT(v.value.low, 0.3);
  EXPECT_GT(v.value.high, 0.6);
  EXPECT_NEAR(v.value.mid, 0.4, 0.12);
}

TEST(ValueBehind, BetweenTwoStepsLiesBetweenTheirOwnRanges) {
  const auto lower = behind({read("ammonia", Form::step, 0.4)}), between = behind({read("ammonia", Form::between, 0.4, 0.8)}),
             upper = behind({read("ammonia", Form::step, 0.8)});
  EXPECT_LT(lower.value.mid, between.value.mid);
  EXPECT_LT(between.value.mid, upper.value.mid);
}

TEST(ValueBehind, NotSureWhichOfSeveralStepsLeavesThemAll) {
  const auto wide = behind({read("ammonia", Form::between, 0.2, 1.6)}), narrow = behind({read("ammonia", Form::between, 0.4, 0.8)});
  EXPECT_LT(wide.value.low, narrow.value.low);
  EXPECT_GT(wide.value.high, narrow.value.high);
}

TEST(ValueBehind, TheFirstStepIsNeverZero) {
  const auto v = behind({read("ammonia", Form::step, 0)});
  EXPECT_GT(v.value.high, 0.1);
  EXPECT_GE(v.value.low, 0.0);
}

TEST(ValueBehind, AboveTheLastStepHasNoUpperBound) {
  EXPECT_TRUE(behind({read("nitrite", Form::above_last, {})}).open_above);
  EXPECT_TRUE(behind({read("nitrite", Form::step, 0.8)}).open_above);
  EXPECT_FALSE(behind({read("nitrite", Form::step, 0.4)}).open_above);
}

TEST(ValueBehind, RisesWithEveryStepOfTheCard) {
  double before = -1.0;
  for (const double step : {0.0, 0.2, 0.4, 0.8, 1.6, 3.2}) {
    const double mid = behind({read("ammonia", Form::step, step)}).value.mid;
    EXPECT_GT(mid, before);
    before = mid;
  }
}

TEST(ValueBehind, AgreeingReplicatesNarrowAndContraryOnesAreCalledSo) {
  const auto one = behind({read("nitrate", Form::step, 10)}), three = behind({read("nitrate", Form::step, 10), read("nitrate", Form::step, 10), read("nitrate", Form::step, 10)});
  EXPECT_LT(three.value.high - three.value.low, one.value.high - one.value.low);
  EXPECT_FALSE(three.disagree);
  EXPECT_TRUE(behind({read("nitrate", Form::step, 0), read("nitrate", Form::step, 80)}).disagree);
}

TEST(ValueBehind, DropsCountFromTheDropBefore) {
  const auto v = behind({read("kh", Form::drops, 6)});
  const double degree = Alkalinity::from_german_degrees(1).meq_per_l();
  EXPECT_NEAR(v.value.mid, 2.75 * degree, 0.15 * degree);
  EXPECT_LT(v.value.low, 2.5 * degree);
  EXPECT_GT(v.value.high, 3.0 * degree);
}

TEST(ValueBehind, AReadingThatDoesNotFitItsTestSaysNothing) {
  const auto wrong = read("kh", Form::step, 3.0);
  EXPECT_FALSE(value_behind(std::span(&wrong, 1)).has_value());
}

// The claim behind the 90 %: a truth drawn evenly along the card and read with the stated error lies inside nine times in ten.
TEST(ValueBehind, NineInTenTruthsLieInside) {
  const auto test = *records::find_test(SmallSeason::kit(), "ph");
  numerics::RandomStream random(20310106, 1);
  int inside = 0, total = 0;
  for (int i = 0; i < 4000; ++i) {
    const double place = random.uniform_between(-4.0, 9.0);           // evenly along the card and four steps beyond, as the prior is
    const double eye = place + reader_error_steps * random.normal();  // what the eye lands on
    const double step = std::clamp(std::round(eye), 0.0, 5.0);
    const double truth = 6.4 + 0.4 * place;
    const TestReading seen{test, SmallSeason::reading("ph", Form::step, test.steps[static_cast<std::size_t>(step)])};
    const auto v = value_behind(std::span(&seen, 1));
    inside += v->value.low <= truth && (v->open_above || truth <= v->value.high);
    ++total;
  }
  const double share = static_cast<double>(inside) / total;
  // An open reading claims no upper end, so its 5 % above are inside too: 90 % of the closed and 95 % of the open ones.
  EXPECT_GT(share, 0.89);
  EXPECT_LT(share, 0.94);
}

}  // namespace
}  // namespace redd::inference
