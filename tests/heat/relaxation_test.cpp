#include "heat/relaxation.h"

#include <gtest/gtest.h>

#include <cmath>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

const Relaxation drift{c(20), Hours(24)};

TEST(Relaxation, GoesMostOfTheWayInATimeConstant) {
  EXPECT_NEAR(drift.after(c(8), Hours(24)).c(), 20 - 12 * std::exp(-1.0), 1e-12);
  EXPECT_DOUBLE_EQ(drift.after(c(8), Hours(0)).c(), 8.0);
  EXPECT_DOUBLE_EQ(drift.after(c(20), Hours(100)).c(), 20.0);
}

TEST(Relaxation, TimeToIsTheInverseOfAfter) {
  EXPECT_NEAR(drift.after(c(8), drift.time_to(c(8), c(13)).value()).c(), 13.0, 1e-12);
  EXPECT_EQ(drift.time_to(c(8), c(8))->count(), 0.0);
}

TEST(Relaxation, WhatLiesBehindOrBeyondIsNeverReached) {
  EXPECT_FALSE(drift.time_to(c(8), c(7)));
  EXPECT_FALSE(drift.time_to(c(8), c(21)));
  EXPECT_FALSE(drift.time_to(c(8), c(20)));
  EXPECT_FALSE(drift.time_to(c(20), c(19)));
}

TEST(Relaxation, MeanOverASpanIsThatOfManySmallSteps) {
  double sum = 0.0;
  for (int i = 0; i < 10000; ++i) sum += drift.after(c(8), Hours(6.0 * (i + 0.5) / 10000)).c();
  EXPECT_NEAR(drift.mean_over(c(8), Hours(6)).c(), sum / 10000, 1e-7);
  EXPECT_NEAR(drift.mean_over(c(8), Hours(1e-9)).c(), 8.0, 1e-6);
}

TEST(TimeConstant, NeedsReadingsThatMoveTowardsTheRoom) {
  EXPECT_NEAR(time_constant_from(c(8), drift.after(c(8), Hours(5)), Hours(5), c(20))->count(), 24.0, 1e-9);
  EXPECT_FALSE(time_constant_from(c(8), c(7), Hours(5), c(20)));
  EXPECT_FALSE(time_constant_from(c(8), c(21), Hours(5), c(20)));
  EXPECT_FALSE(time_constant_from(c(8), c(9), Hours(0), c(20)));
}

TEST(HeatCapacity, GlassAndGravelAddAFewPercent) {
  const double plain = heat_capacity(Volume::from_l(190)).j_per_k();
  const double with = heat_capacity(Volume::from_l(190), Mass::from_g(30000), Mass::from_g(10000)).j_per_k();
  EXPECT_GT(with / plain, 1.03);
  EXPECT_LT(with / plain, 1.06);
}

}  // namespace
}  // namespace redd::heat
