#include "planning/evaporation.h"

#include <gtest/gtest.h>

#include "support/water_season.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

Evaporation of(const SmallSeason& season, int day) {
  const auto made = asked_water(season, day);
  return evaporation_of(made->season, made->records, made->belief, made->at);
}

TEST(Evaporation, IsWhatWasToppedUpAfterTheFirstTime) {
  SmallSeason season;
  for (const int day : {10, 17, 24}) season.add(day, records::TopUp{Volume::from_l(3.5)});
  const auto found = of(season, 25);
  EXPECT_EQ(found.basis, Evaporation::Basis::top_ups);
  EXPECT_NEAR(found.l_per_day.mid, 0.5, 1e-9);  // seven litres in fourteen days
  EXPECT_EQ(found.records.size(), 3u);
}

TEST(Evaporation, OneTopUpOrAnOldOneTeachesNothing) {
  SmallSeason season;
  season.add(10, records::TopUp{Volume::from_l(3)});
  EXPECT_EQ(of(season, 12).basis, Evaporation::Basis::surface);
  season.add(14, records::TopUp{Volume::from_l(3)});
  EXPECT_EQ(of(season, 15).basis, Evaporation::Basis::top_ups);
  EXPECT_EQ(of(season, 60).basis, Evaporation::Basis::surface);
}

TEST(Evaporation, ALidKeepsMostIn) {
  records::TankBuild build;
  build.length_cm = 120, build.width_cm = 50;
  build.lid = records::TankBuild::Lid::none;
  SmallSeason open, lidded;
  open.add(0, build, 2);
  build.lid = records::TankBuild::Lid::sheet;
  lidded.add(0, build, 2);
  EXPECT_GT(of(open, 5).l_per_day.high, 4.0 * of(lidded, 5).l_per_day.high);
  EXPECT_GE(of(open, 5).l_per_day.low, 0.0);
  const auto unknown = of(SmallSeason(), 5).l_per_day;
  EXPECT_LE(unknown.low, unknown.mid);
  EXPECT_GT(unknown.high, 5.0 * unknown.low);
}

}  // namespace
}  // namespace redd::planning
