#include "planning/new_water.h"

#include <gtest/gtest.h>

#include "chemistry/dosing.h"
#include "planning/water_change.h"

namespace redd::planning {
namespace {

const auto c = [](double value) { return Temperature::from_c(value); };

records::SourceWater described() {
  records::SourceWater tap;
  tap.key = tap.name = "tap";
  tap.total_ammonia = NitrogenConc::from_mg_n_per_l(0.1);
  tap.nitrite = NitrogenConc::from_mg_n_per_l(0);
  tap.nitrate = NitrogenConc::from_mg_n_per_l(1);
  tap.alkalinity = Alkalinity::from_meq_per_l(2);
  tap.hardness = Hardness::from_meq_per_l(3);
  tap.temperature = c(6);
  tap.chlorine_mg_per_l = 2.0;
  return tap;
}

TEST(NewWater, WhatIsOnRecordIsTakenAndNothingIsSaidToBeUnknown) {
  const auto water = new_water(described(), 7, {});
  EXPECT_DOUBLE_EQ(water.total_ammonia_mg_n_per_l.mid, 0.1);
  EXPECT_DOUBLE_EQ(water.alkalinity_meq_per_l.mid, 2.0);
  EXPECT_TRUE(water.chlorine_known);
  EXPECT_TRUE(water.unknown.empty());
  EXPECT_EQ(water.record, 7);
}

TEST(NewWater, NeutralisedChloramineLeavesItsAmmonia) {
  auto tap = described();
  tap.chloramine = true;
  const auto water = new_water(tap, 0, {});
  const double freed = chemistry::ammonia_released_by(2.0).mg_n_per_l();
  EXPECT_DOUBLE_EQ(water.freed_ammonia_mg_n_per_l, freed);
  EXPECT_NEAR(water.total_ammonia_mg_n_per_l.mid, 0.1 + freed, 1e-12);
  EXPECT_GE(water.total_ammonia_mg_n_per_l.low, freed);
}

TEST(NewWater, UnknownChlorineIsReckonedAsTheMostThatIsLawful) {
  auto tap = described();
  tap.chlorine_mg_per_l.reset();
  EXPECT_DOUBLE_EQ(new_water(tap, 0, {}).chlorine_mg_per_l, 4.0);
  tap.chloramine = true;
  EXPECT_GT(new_water(tap, 0, {}).freed_ammonia_mg_n_per_l, 0.7);
  EXPECT_FALSE(new_water(tap, 0, {}).chlorine_known);
}

TEST(NewWater, NothingOnRecordIsSaidThingByThing) {
  const auto water = new_water(std::nullopt, 0, {});
  EXPECT_GE(water.unknown.size(), 6u);
  EXPECT_EQ(water.nitrate_mg_n_per_l.support, Support::assumed);
  EXPECT_LT(water.nitrate_mg_n_per_l.low, water.nitrate_mg_n_per_l.high);
  EXPECT_FALSE(water.hardness_meq_per_l);
}

TEST(Gas, IsInBalanceWithoutWarmingAndRisesWithIt) {
  EXPECT_DOUBLE_EQ(gas_fraction_on_warming(c(9), c(9)), 1.0);
  EXPECT_LT(gas_fraction_on_warming(c(15), c(9)), 1.0);
  double last = 1.0;
  for (const double to : {6.0, 8.0, 10.0, 14.0}) {
    EXPECT_GT(gas_fraction_on_warming(c(5), c(to)), last);
    last = gas_fraction_on_warming(c(5), c(to));
  }
  EXPECT_DOUBLE_EQ(gas_fraction_after(0.0, 1.2), 1.0);
  EXPECT_DOUBLE_EQ(gas_fraction_after(1.0, 1.2), 1.2);
}

TEST(Tempering, LeavesTheTankWithinADegreeAtEitherEnd) {
  for (const double fraction : {0.1, 0.25, 0.5}) {
    const auto t = tempering(fraction, c(8), c(20));
    EXPECT_FALSE(t.as_it_comes);
    EXPECT_NEAR(fraction * (t.high - c(8)).c(), largest_step.c(), 1e-9);
    EXPECT_NEAR(fraction * (t.low - c(8)).c(), -largest_step.c(), 1e-9);
  }
  EXPECT_TRUE(tempering(0.1, c(8), c(12)).as_it_comes);
  EXPECT_FALSE(tempering(0.2, c(8), c(12)).as_it_comes);
  EXPECT_FALSE(tempering(0.1, c(8), std::nullopt).as_it_comes);  // not known is never taken for fit
}

TEST(LargestFraction, MovesTheTankByADegreeAtMost) {
  EXPECT_DOUBLE_EQ(largest_fraction_untempered(c(8), c(8.5)), 1.0);
  EXPECT_DOUBLE_EQ(largest_fraction_untempered(c(8), c(18)), 0.1);
  EXPECT_DOUBLE_EQ(largest_fraction_untempered(c(12), c(2)), 0.1);
}

TEST(MinutesToRefill, KeepToADegreeAnHourAndNeverHurry) {
  EXPECT_EQ(minutes_to_refill(TemperatureChange::from_c(0)), 15);
  EXPECT_EQ(minutes_to_refill(TemperatureChange::from_c(0.5)), 30);
  EXPECT_EQ(minutes_to_refill(TemperatureChange::from_c(-0.51)), 35);
  EXPECT_EQ(minutes_to_refill(TemperatureChange::from_c(1)), 60);
}

}  // namespace
}  // namespace redd::planning
