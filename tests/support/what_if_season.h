#pragma once
// Made seasons for what-ifs, and their bases. Invented.

#include "planning/what_if.h"
#include "support/water_season.h"

namespace redd::testing {

/// A tank whose chiller holds 8 C in an ordinary room with something in hand.
inline TankBuild chilled_tank() {
  TankBuild build;
  build.length_cm = 100, build.width_cm = 50, build.water_height_cm = 40;
  build.wall = TankFace::Wall::glass;
  build.lid = TankBuild::Lid::sheet;
  build.pump = Power::from_w(15);
  build.chiller_cooling = Power::from_w(450);
  build.heater = Power::from_w(100);
  build.room_day = Temperature::from_c(20);
  return build;
}

inline planning::WhatIfBase what_if_base_of(const SmallSeason& season, int day) {
  const auto made = asked_water(season, day);
  const planning::TankDraws draws{planning::what_if_tanks, 1};
  const auto water = planning::water_case(made->asked(), &draws);
  const auto heat = planning::tank_heat(made->season, made->records, made->belief, made->zone, made->at);
  const auto loading = planning::loading_view({made->season, made->records, made->belief, nullptr, made->zone, made->at});
  auto base = planning::what_if_base(water, heat, loading);
  require(base.has_value(), "what_if_base_of", "no base");
  return std::move(base).value();
}

/// Eggs since day 45, tested; looked at on day 56.
inline planning::WhatIfBase chilled_base() {
  auto season = ripe_season();
  season.add(2, chilled_tank());
  return what_if_base_of(season, 56);
}

}  // namespace redd::testing
