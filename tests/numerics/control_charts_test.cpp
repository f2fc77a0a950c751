// Laws of the charts; published values are in tests/reference/run_lengths_test.cpp and nist2012_test.cpp.
#include "numerics/control_charts.h"

#include <gtest/gtest.h>

#include <cmath>

#include "numerics/random.h"

namespace redd::numerics {
namespace {

TEST(EwmaRunLength, WithWeightOneIsAShewhartChart) {
  for (const double shift : {0.0, 0.5, 2.0})
    EXPECT_NEAR(*ewma_run_length(1.0, 3.0, shift, Sides::two) / *shewhart_run_length(3.0, shift, Sides::two), 1.0, 1e-9) << shift;
}

TEST(EwmaRunLength, IsSymmetricAndFallsWithTheShift) {
  EXPECT_NEAR(*ewma_run_length(0.2, 2.8, 0.7, Sides::two), *ewma_run_length(0.2, 2.8, -0.7, Sides::two), 1e-8);
  double last = 1e300;
  for (double shift = 0.0; shift < 5.0; shift += 0.25) {
    const double length = *ewma_run_length(0.2, 2.8, shift, Sides::two);
    EXPECT_LT(length, last);
    EXPECT_GE(length, 1.0);
    last = length;
  }
}

// The simulation shares nothing with the integral equation but the definition of the chart.
TEST(RunLengths, AgreeWithSimulation) {
  RandomStream stream(99);
  constexpr int runs = 20000;
  double ewma = 0.0, cusum = 0.0, one_sided = 0.0;
  for (int run = 0; run < runs; ++run) {
    double z = 0.0;
    for (bool in = true; in; ewma += 1.0) in = std::fabs(z = 0.1 * stream.normal(0.5, 1.0) + 0.9 * z) <= 2.7 * std::sqrt(0.1 / 1.9);
    double high = 0.0, low = 0.0;
    for (bool in = true; in; cusum += 1.0) {
      const double x = stream.normal(0.5, 1.0);
      high = std::max(0.0, high + x - 0.5);
      low = std::max(0.0, low - x - 0.5);
      in = high <= 4.0 && low <= 4.0;
    }
    double up = 0.0;
    for (bool in = true; in; one_sided += 1.0) in = (up = std::max(0.0, 0.1 * stream.normal(0.5, 1.0) + 0.9 * up)) <= 2.7 * std::sqrt(0.1 / 1.9);
  }
  EXPECT_NEAR(ewma / runs / *ewma_run_length(0.1, 2.7, 0.5, Sides::two), 1.0, 0.02);
  EXPECT_NEAR(cusum / runs / *cusum_run_length(0.5, 4.0, 0.5, Sides::two), 1.0, 0.025);
  EXPECT_NEAR(one_sided / runs / *ewma_run_length(0.1, 2.7, 0.5, Sides::one), 1.0, 0.02);
}

TEST(RunLengths, RefuseImpossibleDesignsAndEndlessRuns) {
  EXPECT_FALSE(ewma_run_length(0.0, 3.0, 0.0, Sides::two));
  EXPECT_FALSE(ewma_run_length(1.5, 3.0, 0.0, Sides::two));
  EXPECT_FALSE(ewma_run_length(0.2, -1.0, 0.0, Sides::two));
  EXPECT_FALSE(cusum_run_length(-0.1, 4.0, 0.0, Sides::one));
  EXPECT_FALSE(cusum_run_length(0.5, 4.0, 0.0, Sides::one, 5.0));
  EXPECT_FALSE(cusum_run_length(0.5, 50.0, -3.0, Sides::one));
  EXPECT_FALSE(shewhart_run_length(9.0, 0.0, Sides::two));
}

TEST(RunLengths, AVeryLongSideLeavesTheTwoSidedAnswerToTheOther) {
  EXPECT_NEAR(*cusum_run_length(0.5, 20.0, 4.0, Sides::two), *cusum_run_length(0.5, 20.0, 4.0, Sides::one), 1e-9);
}

TEST(Limits, InvertTheRunLength) {
  for (const double wanted : {50.0, 370.0, 1000.0}) {
    EXPECT_NEAR(*ewma_run_length(0.15, *ewma_limit_for(0.15, wanted, Sides::two), 0.0, Sides::two) / wanted, 1.0, 1e-6);
    EXPECT_NEAR(*cusum_run_length(0.25, *cusum_limit_for(0.25, wanted, Sides::one), 0.0, Sides::one) / wanted, 1.0, 1e-6);
  }
  EXPECT_FALSE(ewma_limit_for(0.15, 1.0, Sides::two));
}

TEST(EwmaOf, LimitsWidenToTheirAsymptote) {
  const std::vector<double> values(200, 10.0);
  const auto points = ewma_of(values, 10.0, 2.0, 0.2, 3.0);
  EXPECT_NEAR(points[0].upper_limit, 10.0 + 3.0 * 2.0 * 0.2, 1e-12);
  EXPECT_NEAR(points.back().upper_limit, 10.0 + 3.0 * 2.0 * std::sqrt(0.2 / 1.8), 1e-12);
  for (const auto& point : points) EXPECT_FALSE(point.signals);
}

TEST(SdFromMovingRange, NeedsTwoValues) {
  EXPECT_FALSE(sd_from_moving_range(std::vector<double>{1.0}));
  EXPECT_NEAR(*sd_from_moving_range(std::vector<double>{1.0, 2.0, 1.0}), 1.0 / 1.128, 1e-12);
}

}  // namespace
}  // namespace redd::numerics
