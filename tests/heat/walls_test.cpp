#include "heat/walls.h"

#include <gtest/gtest.h>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

TEST(Conductance, OfAnOrdinaryGlassTankIsAboutElevenWattsPerDegree) {
  // Sum of faces worked out elsewhere: 9-13 W/K for these measures.
  EXPECT_GT(conductance(glass_tank()).w_per_k(), 9.0);
  EXPECT_LT(conductance(glass_tank()).w_per_k(), 13.0);
}

TEST(Conductance, FoamAllRoundCutsItToAFifth) {
  TankWalls foamed = glass_tank();
  foamed.side_foam_m = 0.025;
  foamed.lid = LidKind::foam;
  foamed.base = BaseKind::foam;
  EXPECT_NEAR(conductance(foamed).w_per_k(), 2.2, 0.3);  // worked out elsewhere: 2.2
  foamed.bare_sides = 1;                                 // worked out elsewhere: 3-4 with a viewing pane
  EXPECT_GT(conductance(foamed).w_per_k(), 3.0);
  EXPECT_LE(conductance_estimate(foamed).mid.w_per_k(), 5.0);
  EXPECT_DOUBLE_EQ(conductance_estimate(foamed).high.w_per_k(), 2.0 * conductance_estimate(foamed).mid.w_per_k());
}

TEST(Conductance, OfVolumeAloneAgreesWithTheFacesWithinItsDoubt) {
  for (const TankWalls& walls : {TankWalls{.length_m = 0.6, .width_m = 0.35, .water_depth_m = 0.36}, glass_tank(),
                                 TankWalls{.length_m = 1.2, .width_m = 0.5, .water_depth_m = 0.5, .wall_m = 0.010}}) {
    const auto rule = conductance_from_volume(Volume::from_l(1000 * walls.length_m * walls.width_m * walls.water_depth_m));
    EXPECT_NEAR(conductance(walls).w_per_k() / rule.mid.w_per_k(), 1.0, 0.15);
    EXPECT_EQ(rule.support, Support::assumed);
  }
}

TEST(Faces, CoverTheTankOnce) {
  TankWalls walls = glass_tank();
  for (const int bare : {0, 1, 2}) {
    walls.bare_sides = bare;
    walls.side_foam_m = 0.05;
    double sides_m2 = 0.0, bare_m2 = 0.0;
    for (const Face& face : faces(walls)) {
      if (face.kind == FaceKind::side) sides_m2 += face.area_m2;
      if (face.kind == FaceKind::side && face.bare) bare_m2 += face.area_m2;
    }
    EXPECT_NEAR(sides_m2, 2 * 1.35 * 0.47, 1e-12);
    EXPECT_NEAR(bare_m2, bare * 0.90 * 0.47, 1e-12);
  }
}

TEST(Lid, KeepsHeatOut) {
  TankWalls open = glass_tank(), foam = glass_tank();
  open.lid = LidKind::none;
  foam.lid = LidKind::foam;
  EXPECT_GT(conductance(open), conductance(glass_tank()));
  EXPECT_GT(conductance(glass_tank()), conductance(foam));
}

TEST(OuterSurface, OfBareGlassIsColdAndOfFoamNearlyTheRoom) {
  // Worked out elsewhere: 9.0 C at 22/8 C; 20 C behind 25 mm of foam.
  const std::vector<Layer> glass{{0.006, 1.0}}, foamed{{0.006, 1.0}, {0.025, 0.033}};
  EXPECT_NEAR(outer_surface(u_value_w_per_m2_k(glass, 0.13), FaceKind::side, c(8), c(22)).c(), 8.8, 0.3);
  EXPECT_NEAR(outer_surface(u_value_w_per_m2_k(foamed, 0.13), FaceKind::side, c(8), c(22)).c(), 20.0, 0.1);
}

}  // namespace
}  // namespace redd::heat
