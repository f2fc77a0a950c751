#include "numerics/normal.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace redd::numerics {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

TEST(NormalCdf, HasTheTabulatedValues) {  // standard tables, from memory
  EXPECT_NEAR(normal_cdf(0.0), 0.5, 1e-16);
  EXPECT_NEAR(normal_cdf(1.0), 0.841344746068543, 1e-14);
  EXPECT_NEAR(normal_cdf(-3.0), 0.00134989803163009, 1e-15);
  EXPECT_NEAR(normal_cdf(-10.0) / 7.61985302416052e-24, 1.0, 1e-12);
}

TEST(NormalQuantile, InvertsTheCdf) {
  for (const double p : {1e-300, 1e-30, 1e-10, 0.001, 0.05, 0.3, 0.5, 0.7, 0.9, 0.999}) EXPECT_NEAR(normal_cdf(normal_quantile(p)) / p, 1.0, 1e-11) << p;
  EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-14);
  EXPECT_EQ(normal_quantile(0.0), -infinity);
  EXPECT_EQ(normal_quantile(1.0), infinity);
  EXPECT_TRUE(std::isnan(normal_quantile(1.5)));
}

TEST(ProbabilityBetween, IsAccurateInBothTails) {
  EXPECT_NEAR(normal_probability_between(-1.0, 1.0), 0.682689492137086, 1e-14);
  EXPECT_NEAR(normal_probability_between(8.0, 9.0) / normal_probability_between(-9.0, -8.0), 1.0, 1e-12);
  EXPECT_DOUBLE_EQ(normal_probability_between(-infinity, infinity), 1.0);
  EXPECT_DOUBLE_EQ(normal_probability_between(1.0, 1.0), 0.0);
}

TEST(LogProbabilityBetween, GoesOnWhereTheProbabilityUnderflows) {
  EXPECT_NEAR(log_normal_probability_between(-1.0, 1.0), std::log(0.682689492137086), 1e-14);
  EXPECT_NEAR(log_normal_probability_between(3.0, infinity), std::log(0.00134989803163009), 1e-12);
  EXPECT_NEAR(log_normal_probability_between(36.99, infinity), log_normal_probability_between(37.01, infinity) + 0.02 * 37.027, 1e-4);
  EXPECT_TRUE(std::isfinite(log_normal_probability_between(100.0, 101.0)));
  EXPECT_NEAR(log_normal_probability_between(100.0, infinity), -0.5 * 100.0 * 100.0 - 0.918938533 - std::log(100.0), 1e-3);
  EXPECT_DOUBLE_EQ(log_normal_probability_between(-101.0, -100.0), log_normal_probability_between(100.0, 101.0));
  EXPECT_TRUE(std::isfinite(log_normal_probability_between(50.0, 50.0 + 1e-13)));
  EXPECT_EQ(log_normal_probability_between(2.0, 1.0), -infinity);
}

}  // namespace
}  // namespace redd::numerics
