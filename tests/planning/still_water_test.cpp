#include "planning/still_water.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace redd::planning {
namespace {

OxygenConc mg(double value) { return OxygenConc::from_mg_o2_per_l(value); }

// Against steps of the rate equation itself, a thousandth of the span each.
RC_GTEST_PROP(StillWaterProperty, ClosedFormFollowsTheRateEquation, ()) {
  const auto between = [](int low, int high, double scale) { return scale * static_cast<double>(*rc::gen::inRange(low, high)); };
  const StillWater water{mg(between(0, 130, 0.1)), mg(between(60, 150, 0.1)), between(0, 100, 0.01), between(0, 50, 0.001), between(1, 8, 0.1)};
  const double span_h = between(1, 200, 0.1);
  constexpr int steps = 4000;
  double c = water.start.mg_o2_per_l();
  for (int i = 0; i < steps; ++i) {
    const auto rate = [&](double at) { return water.transfer_m_per_h / water.depth_m * (water.saturation.mg_o2_per_l() - at) - water.use_mg_o2_per_l_per_h; };
    const double h = span_h / steps, half = c + 0.5 * h * rate(c);
    c += h * rate(half);
  }
  RC_ASSERT(std::abs(oxygen_after(water, Hours(span_h)).mg_o2_per_l() - std::max(0.0, c)) < 1e-3);
}

RC_GTEST_PROP(StillWaterProperty, TimeToALimitIsWhenItIsReached, ()) {
  const auto between = [](int low, int high, double scale) { return scale * static_cast<double>(*rc::gen::inRange(low, high)); };
  const StillWater water{mg(between(60, 130, 0.1)), mg(between(60, 150, 0.1)), between(0, 100, 0.01), between(0, 50, 0.001), between(1, 8, 0.1)};
  const OxygenConc limit = mg(between(10, 60, 0.1));
  const auto time = time_to(water, limit);
  if (time) RC_ASSERT(std::abs(oxygen_after(water, *time).mg_o2_per_l() - limit.mg_o2_per_l()) < 1e-6);
  else RC_ASSERT(oxygen_after(water, Hours(1e4)) >= limit);
}

TEST(StillWater, BelowTheLimitAlreadyIsNoTime) { EXPECT_EQ(*time_to({mg(4), mg(11), 0.0, 0.0}, mg(5)), Hours(0.0)); }

TEST(StillWater, ClosedWaterWithoutAnimalsLastsForEver) { EXPECT_FALSE(time_to({mg(11), mg(11), 0.0, 0.0}, mg(5))); }

TEST(StillWater, AStraightLineWithoutASurface) { EXPECT_NEAR(time_to({mg(11), mg(11), 2.0, 0.0}, mg(5))->count(), 3.0, 1e-12); }

TEST(StillWater, DiffusionFeedsABasketByLessThanAHundredthOfWhatItsAlevinsBreathe) {
  EXPECT_LT(diffusing_mg_o2_per_h(0.01, 0.1, 6.3), 0.01 * 200 * 0.024);
}

}  // namespace
}  // namespace redd::planning
