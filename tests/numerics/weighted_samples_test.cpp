#include "numerics/weighted_samples.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "numerics/random.h"

namespace redd::numerics {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

TEST(LogSumExp, NeitherOverflowsNorUnderflows) {
  EXPECT_NEAR(log_sum_exp(std::vector{1000.0, 1000.0}), 1000.0 + std::log(2.0), 1e-12);
  EXPECT_NEAR(log_sum_exp(std::vector{-1000.0, -1000.0, -infinity}), -1000.0 + std::log(2.0), 1e-12);
  EXPECT_EQ(log_sum_exp(std::vector{-infinity}), -infinity);
  EXPECT_EQ(log_sum_exp(std::vector<double>{}), -infinity);
}

TEST(NormalisedWeights, GiveNothingToTheImpossibleAndToNoNumber) {
  const auto w = normalised_weights(std::vector{0.0, std::log(3.0), -infinity, std::nan("")});
  EXPECT_NEAR(w[0], 0.25, 1e-15);
  EXPECT_NEAR(w[1], 0.75, 1e-15);
  EXPECT_EQ(w[2], 0.0);
  EXPECT_EQ(w[3], 0.0);
}

TEST(EffectiveSampleSize, IsTheNumberOfEquallyHeavyParticles) {
  EXPECT_NEAR(effective_sample_size(std::vector<double>(40, -7.0)), 40.0, 1e-12);
  EXPECT_NEAR(effective_sample_size(std::vector{0.0, 0.0, -infinity, -infinity}), 2.0, 1e-12);
  EXPECT_EQ(effective_sample_size(std::vector{-infinity, -infinity}), 0.0);
}

TEST(WeightedQuantile, OfEqualWeightsIsThePlainOne) {
  const std::vector values{5.0, 1.0, 4.0, 2.0, 3.0}, weights(5, 0.2);
  EXPECT_NEAR(weighted_quantile(values, weights, 0.5), 3.0, 1e-12);
  EXPECT_NEAR(weighted_quantile(values, weights, 0.3), 2.0, 1e-12);
  EXPECT_NEAR(weighted_quantile(values, weights, 0.0), 1.0, 1e-12);
  EXPECT_NEAR(weighted_quantile(values, weights, 1.0), 5.0, 1e-12);
}

TEST(FittedNormal, FindsMeanAndCovariance) {
  ParticleTable table(2, 20000);
  const std::vector<double> weights(20000, 1.0 / 20000);
  for (std::size_t i = 0; i < table.columns(); ++i) {
    RandomStream stream(1, 0, static_cast<std::uint32_t>(i));
    const double a = stream.normal(), b = stream.normal();
    table(0, i) = 3.0 + 2.0 * a;
    table(1, i) = -1.0 + 1.2 * a + 1.6 * b;  // covariance 4, 2.4, 4
  }
  const auto fit = fitted_normal(table, weights, 2, 0.0);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->mean[0], 3.0, 0.06);
  EXPECT_NEAR(fit->root(0, 0), 2.0, 0.04);
  EXPECT_NEAR(fit->root(1, 0), 1.2, 0.05);
  EXPECT_NEAR(fit->root(1, 1), 1.6, 0.04);
  const auto shrunk = fitted_normal(table, weights, 2, 1.0);
  ASSERT_TRUE(shrunk);
  EXPECT_NEAR(shrunk->root(1, 0), 0.0, 1e-12);
}

TEST(FittedNormal, RefusesACoordinateWithoutSpread) {
  ParticleTable table(1, 4);
  EXPECT_FALSE(fitted_normal(table, std::vector<double>(4, 0.25), 1, 0.1));
  EXPECT_FALSE(fitted_normal(table, std::vector<double>(4, 0.0), 1, 0.1));
}

}  // namespace
}  // namespace redd::numerics
