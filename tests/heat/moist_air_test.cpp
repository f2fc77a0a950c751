#include "heat/moist_air.h"

#include <gtest/gtest.h>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

TEST(DewPoint, OfSaturatedAirIsItsTemperature) {
  for (const double t : {-5.0, 8.0, 22.0, 40.0}) EXPECT_NEAR(dew_point({c(t), 1.0}).c(), t, 1e-9);
}

TEST(DewPoint, FallsAboutADegreeForEveryFivePercent) {
  // Rule of thumb of [lawrence2005] above 50 % humidity.
  EXPECT_NEAR(dew_point({c(22), 0.90}).c() - dew_point({c(22), 0.80}).c(), 2.0, 0.3);
}

TEST(Sweating, BareGlassBeginsAtAboutFortyFourPercentAtTwentyTwoDegrees) {
  const std::vector<Layer> glass{{0.010, 1.0}};
  const Temperature surface = outer_surface(u_value_w_per_m2_k(glass, 0.13), FaceKind::side, c(8), c(22));
  EXPECT_NEAR(sweating_humidity_fraction(surface, c(22)), 0.44, 0.01);  // worked out elsewhere
  EXPECT_TRUE(sweats(surface, {c(22), 0.46}));
  EXPECT_FALSE(sweats(surface, {c(22), 0.40}));
  EXPECT_EQ(condensation_kg_per_m2_h(surface, {c(22), 0.40}), 0.0);
}

TEST(Condensation, BringsTensOfWattsPerSquareMetre) {
  // Worked out elsewhere from the same analogy: 38 W/m2 on 9 C glass at 24 C and 60 %; about 1.3 kg/(m2 day).
  const double kg_per_m2_h = condensation_kg_per_m2_h(c(9), {c(24), 0.60});
  EXPECT_NEAR(kg_per_m2_h * condensing_heat_j_per_kg(c(9)) / 3600.0, 38.0, 2.0);
  EXPECT_NEAR(24 * kg_per_m2_h, 1.3, 0.1);
  EXPECT_NEAR(condensation_kg_per_m2_h(c(8), {c(26), 0.60}) * condensing_heat_j_per_kg(c(8)) / 3600.0, 57.0, 3.0);
  EXPECT_GT(condensation_on_walls(glass_tank(), c(8), {c(26), 0.7}).w(), 30.0);
  EXPECT_EQ(condensation_on_walls(glass_tank(), c(20), {c(22), 0.4}).w(), 0.0);
}

TEST(Surface, OfColdWaterGivesWaterAwayInDryAirAndCollectsItInDamp) {
  // 10 C water in a 21 C room: the sign turns at 49 % (worked out elsewhere).
  const auto dry = surface_exchange(c(10), {c(21), 0.47}), damp = surface_exchange(c(10), {c(21), 0.51});
  EXPECT_GT(dry.evaporation_kg_per_m2_h, 0.0);
  EXPECT_LT(dry.heat_w_per_m2, 0.0);
  EXPECT_LT(damp.evaporation_kg_per_m2_h, 0.0);
  EXPECT_GT(damp.heat_w_per_m2, 0.0);
}

TEST(Surface, EvaporationOfColdWaterIsSmall) {
  // 21 C, 40 %, over 10 C water: 0.012 kg/(m2 h) and 8 W/m2 (worked out elsewhere).
  const auto exchange = surface_exchange(c(10), {c(21), 0.40});
  EXPECT_NEAR(exchange.evaporation_kg_per_m2_h, 0.012, 0.001);
  EXPECT_NEAR(exchange.heat_w_per_m2, -8.0, 0.5);
}

TEST(Surface, WarmWaterInCoolAirEvaporatesByNaturalConvection) {
  EXPECT_GT(surface_exchange(c(28), {c(22), 0.5}).evaporation_kg_per_m2_h, 5e-5 * (3780 - 1322));
}

TEST(SurfaceGain, NeverCountsOnEvaporation) {
  EXPECT_EQ(surface_gain(0.4, false, c(10), {c(21), 0.30}).w(), 0.0);
  EXPECT_GT(surface_gain(0.4, false, c(10), {c(24), 0.70}).w(), 5.0);
  EXPECT_EQ(surface_gain(0.4, true, c(10), {c(24), 0.70}).w(), 0.0);
}

}  // namespace
}  // namespace redd::heat
