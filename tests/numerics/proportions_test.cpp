#include "numerics/proportions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace redd::numerics {
namespace {

TEST(BetaShare, AgreesWithClosedForms) {
  for (const double x : {0.01, 0.2, 0.5, 0.77, 0.99}) {
    EXPECT_NEAR(beta_share(x, 1, 1), x, 1e-14);
    EXPECT_NEAR(beta_share(x, 3, 1), x * x * x, 1e-14);
    EXPECT_NEAR(beta_share(x, 1, 7), 1 - std::pow(1 - x, 7), 1e-13);
    EXPECT_NEAR(beta_share(x, 0.5, 0.5), 2.0 / std::numbers::pi * std::asin(std::sqrt(x)), 1e-13);
    EXPECT_NEAR(beta_share(x, 40, 9) + beta_share(1 - x, 9, 40), 1.0, 1e-13);
  }
  EXPECT_TRUE(std::isnan(beta_share(1.1, 1, 1)));
  EXPECT_TRUE(std::isnan(beta_share(0.5, 0, 1)));
}

TEST(ExactShare, OfNoneFoundHasTheClosedForm) {
  const auto none = exact_share(0, 50);
  EXPECT_EQ(none.low, 0.0);
  EXPECT_EQ(none.mid, 0.0);
  EXPECT_NEAR(none.high, 1 - std::pow(0.05, 1.0 / 50), 1e-10);
  const auto all = exact_share(50, 50);
  EXPECT_NEAR(all.low, std::pow(0.05, 1.0 / 50), 1e-10);
  EXPECT_EQ(all.high, 1.0);
}

TEST(ExactShare, CoversAtLeastAsOftenAsItSays) {  // exact sum over all outcomes of 25 animals, whatever the true share
  constexpr int trials = 25;
  for (double share = 0.02; share < 1.0; share += 0.07) {
    double covered = 0.0;
    for (int hits = 0; hits <= trials; ++hits) {
      const auto interval = exact_share(hits, trials);
      const double chance = std::exp(std::lgamma(trials + 1.0) - std::lgamma(hits + 1.0) - std::lgamma(trials - hits + 1.0) + hits * std::log(share) + (trials - hits) * std::log1p(-share));
      if (interval.low <= share && share <= interval.high) covered += chance;
    }
    EXPECT_GE(covered, 0.9) << share;
    EXPECT_LE(covered, 1.0 + 1e-12);
  }
}

TEST(ExactShare, NarrowsWithTheLot) {
  const auto few = exact_share(9, 10), many = exact_share(900, 1000);
  EXPECT_LT(few.low, many.low);
  EXPECT_GT(few.high, many.high);
}

TEST(TotalFromPart, OfEverythingIsTheCount) {
  const auto all = total_from_part(37, 1.0);
  EXPECT_EQ(all.low, 37.0);
  EXPECT_EQ(all.high, 37.0);
}

TEST(TotalFromPart, IsWideWhenLittleWasLookedAtOrTheyLieTogether) {
  const auto half = total_from_part(80, 0.5), tenth = total_from_part(16, 0.1), huddled = total_from_part(80, 0.5, 4.0);
  EXPECT_EQ(half.mid, 160.0);
  EXPECT_NEAR(tenth.mid, 160.0, 1e-9);
  EXPECT_GT(tenth.high - tenth.low, 2.0 * (half.high - half.low));
  EXPECT_NEAR((huddled.high - huddled.low) / (half.high - half.low), 2.0, 0.15);  // the square root of the clump
  EXPECT_GE(half.low, 80.0);
}

TEST(TotalFromPart, OfNoneFoundStillAllowsSome) {
  const auto none = total_from_part(0, 0.25);
  EXPECT_EQ(none.low, 0.0);
  EXPECT_NEAR(none.high, std::log(0.05) / std::log(0.75), 1e-4);
}

}  // namespace
}  // namespace redd::numerics
