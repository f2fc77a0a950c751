#include "heat/chiller.h"

#include <gtest/gtest.h>

#include "heat/tanks.h"

namespace redd::heat {
namespace {

const Chiller plate{.rated = Power::from_w(300)};

TEST(CoolingPower, IsThePlatesAtItsOwnPointAndTwoThirdsOfItInColdWater) {
  EXPECT_DOUBLE_EQ(cooling_power(plate, c(20), c(25)).w(), 300.0);
  const double share = cooling_power(plate, c(8), c(25)).w() / 300.0;
  EXPECT_GT(share, 0.60);  // from memory: 60-70 % of a 20 C rating at 8 C
  EXPECT_LT(share, 0.70);
}

TEST(CoolingPower, FallsWithColderWaterAndWarmerRoom) {
  EXPECT_LT(cooling_power(plate, c(6), c(22)), cooling_power(plate, c(8), c(22)));
  EXPECT_LT(cooling_power(plate, c(8), c(30)), cooling_power(plate, c(8), c(22)));
  EXPECT_DOUBLE_EQ(cooling_power(small_chiller(), c(8), c(21)).w(), 250.0);
}

TEST(Cop, IsAboutTwoAtTheTank) {
  // The same model worked out elsewhere: 1.97 at 4 C, 2.21 at 8 C, 2.52 at 12 C, all in a 22 C room; 1.82 at 8 C in a 30 C room.
  EXPECT_NEAR(cop(plate, c(4), c(22)), 1.97, 0.01);
  EXPECT_NEAR(cop(plate, c(8), c(22)), 2.21, 0.01);
  EXPECT_NEAR(cop(plate, c(12), c(22)), 2.52, 0.01);
  EXPECT_NEAR(cop(plate, c(8), c(30)), 1.82, 0.01);
}

TEST(Cop, StaysFiniteWhenTheRoomIsColderThanTheWater) {
  EXPECT_GT(cop(plate, c(20), c(-5)), 0.0);
  EXPECT_LT(cop(plate, c(20), c(-5)), 5.0);
}

TEST(HeatToRoom, IsWhatWasTakenAndWhatWasDrawn) {
  const double q = cooling_power(plate, c(8), c(22)).w();
  EXPECT_NEAR(heat_to_room(plate, c(8), c(22)).w(), q * (1 + 1 / cop(plate, c(8), c(22))), 1e-9);
}

}  // namespace
}  // namespace redd::heat
