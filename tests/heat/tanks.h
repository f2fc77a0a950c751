#pragma once
// Ordinary tanks and chillers for the tests of heat.

#include "heat/balance.h"
#include "heat/walls.h"

namespace redd::heat {

inline Temperature c(double value) { return Temperature::from_c(value); }
inline Power w(double value) { return Power::from_w(value); }
inline Conductance w_per_k(double value) { return Conductance::from_w_per_k(value); }

/// 200 L, bare.
inline TankHeat bare_tank(double ua_w_per_k = 10.0, double pump_w = 15.0) {
  return {.capacity = heat_capacity(Volume::from_l(200)), .conductance = w_per_k(ua_w_per_k), .pump = w(pump_w)};
}
/// 250 W at 8 C in a 21 C room.
inline Chiller small_chiller(double at_8_c_w = 250.0) { return chiller_known_at(w(at_8_c_w), c(8), c(21)); }
inline Chiller constant_chiller(double power_w) { return {.rated = w(power_w), .water_slope_per_c = 0.0, .room_slope_per_c = 0.0}; }

/// 190 L of bare glass with a lid on a wooden base.
inline TankWalls glass_tank() { return {.length_m = 0.90, .width_m = 0.45, .water_depth_m = 0.47}; }

}  // namespace redd::heat
