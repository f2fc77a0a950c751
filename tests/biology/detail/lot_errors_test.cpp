// The small Gaussian against sums over a fine grid.
#include "biology/detail/lot_errors.h"

#include <gtest/gtest.h>

#include <cmath>

#include "numerics/normal.h"

namespace redd::biology::detail {
namespace {

constexpr std::size_t hatch = 1, swim_up = 2;

TEST(LotErrors, StartWithTheStatedSpread) {
  const LotErrors errors(0.08, 0.08, 0.06);
  EXPECT_NEAR(std::sqrt(errors.variance(hatch)), 0.08, 1e-12);
  EXPECT_NEAR(std::sqrt(errors.variance(0)), std::hypot(0.08, 0.08), 1e-12);
  EXPECT_NEAR(std::sqrt(errors.variance(swim_up)), std::hypot(0.7 * 0.08, 0.06), 1e-12);
}

TEST(LotErrors, LearnAValueByTheRulesOfNormalDistributions) {
  LotErrors errors(0.08, 0.08, 0.06);
  const double log_density = errors.learn_value(hatch, 0.10, 0.02 * 0.02);
  const double total = 0.08 * 0.08 + 0.02 * 0.02;
  EXPECT_NEAR(log_density, std::log(numerics::normal_density(0.10 / std::sqrt(total)) / std::sqrt(total)), 1e-12);
  EXPECT_NEAR(errors.mean(hatch), 0.10 * 0.0064 / total, 1e-12);
  EXPECT_NEAR(errors.variance(hatch), 0.0064 * 0.0004 / total, 1e-12);
  // A hatch exactly observed leaves swim-up its own error and moves it by 0.7.
  LotErrors sure(0.08, 0.08, 0.06);
  sure.learn_value(hatch, 0.10, 0.0);
  EXPECT_NEAR(sure.mean(swim_up), 0.07, 1e-12);
  EXPECT_NEAR(std::sqrt(sure.variance(swim_up)), 0.06, 1e-9);
}

TEST(LotErrors, LearnNotYetByItsFirstTwoMoments) {
  const double bound = 0.05, noise = 0.03;
  LotErrors errors(0.08, 0.08, 0.06);
  double log_evidence = 0.0;
  errors.learn_not_yet(hatch, bound, noise * noise, &log_evidence);
  double weight = 0.0, mean = 0.0, square = 0.0;
  constexpr double step = 1e-4;
  for (double x = -0.8; x <= 0.8; x += step) {
    const double w = numerics::normal_density(x / 0.08) / 0.08 * numerics::normal_cdf((x - bound) / noise) * step;
    weight += w;
    mean += w * x;
    square += w * x * x;
  }
  mean /= weight;
  EXPECT_NEAR(log_evidence, std::log(weight), 1e-6);
  EXPECT_NEAR(errors.mean(hatch), mean, 1e-6);
  EXPECT_NEAR(errors.variance(hatch), square / weight - mean * mean, 1e-7);
}

TEST(LotErrors, LearnNothingFromANotYetLongBefore) {
  LotErrors errors(0.08, 0.08, 0.06);
  double log_evidence = 1.0;
  const auto used = errors.learn_not_yet(hatch, -2.0, 1e-4, &log_evidence);
  EXPECT_EQ(used.variance, 0.0);
  EXPECT_NEAR(log_evidence, 0.0, 1e-9);
  EXPECT_EQ(errors.mean(hatch), 0.0);
}

TEST(LotErrors, DrawWithTheirOwnCovariance) {
  LotErrors errors(0.08, 0.08, 0.06);
  errors.learn_value(hatch, 0.1, 1e-4);
  // The rows of the root, one unit normal at a time, rebuild the variances.
  Triple variance{};
  const Triple middle = errors.draw({0, 0, 0});
  for (std::size_t k = 0; k < 3; ++k) {
    Triple unit{};
    unit[k] = 1.0;
    const Triple drawn = errors.draw(unit);
    for (std::size_t i = 0; i < 3; ++i) variance[i] += (drawn[i] - middle[i]) * (drawn[i] - middle[i]);
  }
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(variance[i], errors.variance(i), 1e-12);
}

}  // namespace
}  // namespace redd::biology::detail
