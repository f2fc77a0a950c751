#include "planning/stocking.h"

#include <gtest/gtest.h>

namespace redd::planning {
namespace {

OxygenConc mg(double value) { return OxygenConc::from_mg_o2_per_l(value); }
SpaceCarry room(double g, std::optional<double> flow = {}, double litres = 200) { return carried_by_space(g, Volume::from_l(litres), "brook_trout", flow, mg(11), mg(11)); }

TEST(Stocking, SmallFryGoByNumberAndLargeOnesByMass) {
  EXPECT_EQ(room(0.2).rule, SpaceRule::by_number);
  EXPECT_EQ(room(3.0).rule, SpaceRule::by_mass);
}

TEST(Stocking, RoomNeverGrowsWithTheFish) {
  double last = 1e9;
  for (double g = 0.05; g < 20.0; g *= 1.3) {
    EXPECT_LE(room(g).animals.mid, last * (1 + 1e-12)) << g;
    last = room(g).animals.mid;
  }
}

TEST(Stocking, TwiceTheWaterHasTwiceTheRoom) { EXPECT_NEAR(room(0.5, {}, 400).animals.mid, 2.0 * room(0.5).animals.mid, 1e-9); }

TEST(Stocking, AFlowThatIsATrickleDecides) {
  EXPECT_EQ(room(0.3, 0.1).rule, SpaceRule::flow_index);
  EXPECT_LT(room(0.3, 0.1).animals.mid, room(0.3).animals.mid);
  EXPECT_EQ(room(0.3, 20.0).rule, SpaceRule::by_number);
}

TEST(Stocking, InflowAtFiveMilligramsCarriesNothing) { EXPECT_EQ(mass_by_flow(0.05, 3, 10, mg(5), mg(11)).g(), 0.0); }

TEST(Stocking, SpeciesNobodyNamedGetTheStrictestIndex) {
  for (const auto* key : {"rainbow_trout", "coho", "chinook", "atlantic_salmon"}) EXPECT_GE(density_index_of(key), density_index_of("unheard_of"));
}

}  // namespace
}  // namespace redd::planning
