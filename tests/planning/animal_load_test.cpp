#include "planning/animal_load.h"

#include <gtest/gtest.h>

namespace redd::planning {
namespace {

LoadPoint fry(double g, double ration = planned_ration_fraction) { return {.stage = tank::Stage::fry, .each_g = {g, g, g, Support::assumed}, .water = Temperature::from_c(10), .ration_fraction = ration}; }

TEST(AnimalLoad, FedFryAskMoreOfTheFilterThanUnfedOnes) {
  const auto fed = load_of_one(fry(0.3)), unfed = load_of_one(fry(0.3, 0.0));
  EXPECT_GT(fed.nitrogen_mg_n_per_day.mid, 5.0 * unfed.nitrogen_mg_n_per_day.mid);
  EXPECT_GT(fed.bacteria_mg_o2_per_h.mid, 5.0 * unfed.bacteria_mg_o2_per_h.mid);
  EXPECT_DOUBLE_EQ(fed.breathed_mg_o2_per_h.mid, unfed.breathed_mg_o2_per_h.mid);
}

TEST(AnimalLoad, NitrogenCostsOxygenByStoichiometry) {
  const auto egg = load_of_one({.stage = tank::Stage::egg, .water = Temperature::from_c(10)});
  EXPECT_NEAR(egg.bacteria_mg_o2_per_h.mid * 24.0 / egg.nitrogen_mg_n_per_day.mid, 4.57, 0.005);
  EXPECT_EQ(egg.feed_g_per_day, 0.0);
}

TEST(AnimalLoad, DoubtOfTheMassAddsToTheDoubtOfTheRate) {
  auto point = fry(0.3);
  const auto sure = load_of_one(point);
  point.each_g = {0.2, 0.3, 0.45, Support::assumed};
  const auto unsure = load_of_one(point);
  EXPECT_LT(unsure.breathed_mg_o2_per_h.low, sure.breathed_mg_o2_per_h.low);
  EXPECT_GT(unsure.breathed_mg_o2_per_h.high, sure.breathed_mg_o2_per_h.high);
  EXPECT_DOUBLE_EQ(unsure.breathed_mg_o2_per_h.mid, sure.breathed_mg_o2_per_h.mid);
}

TEST(AnimalLoad, EachStageAsksMoreThanTheOneBefore) {
  const auto load = [](tank::Stage stage) { return load_of_one({.stage = stage, .each_g = {0.15, 0.15, 0.15}, .water = Temperature::from_c(8)}); };
  EXPECT_LT(load(tank::Stage::egg).oxygen_mg_o2_per_h().mid, load(tank::Stage::alevin).oxygen_mg_o2_per_h().mid);
  EXPECT_LT(load(tank::Stage::alevin).oxygen_mg_o2_per_h().mid, load(tank::Stage::fry).oxygen_mg_o2_per_h().mid);
}

}  // namespace
}  // namespace redd::planning
