// Laws of heat: energy is kept, warmth from outside never helps to chill, and insulation never hurries the warming.
#include <array>

#include "heat/emergency.h"
#include "heat/holdable.h"
#include "heat/trajectory.h"
#include "properties/generators.h"

namespace redd::properties {
namespace {

using namespace heat;

Temperature any_temperature(double low_c, double high_c) { return Temperature::from_c(*between(low_c, high_c)); }

TankHeat any_tank() {
  return {.capacity = heat_capacity(Volume::from_l(*between(40, 400))), .conductance = Conductance::from_w_per_k(*between(1, 25)),
          .pump = Power::from_w(*between(0, 40)), .light = Power::from_w(*between(0, 30))};
}
Chiller any_chiller() { return {.rated = Power::from_w(*between(30, 900)), .water_slope_per_c = *between(0, 0.05)}; }
RoomDay any_day() {
  RoomDay day = steady_room(any_temperature(5, 32));
  for (Temperature& hour : day) hour = any_temperature(5, 32);
  return day;
}

RC_GTEST_PROP(Heat, EnergyIsKeptOverATrajectory, ()) {
  const TankHeat tank = any_tank();
  const Equipment equipment{.chiller = any_chiller(), .heater = Power::from_w(*between(0, 300)),
                            .chiller_works = *rc::gen::element(Working::normal, Working::stuck_on, Working::stuck_off)};
  const RoomDay day = any_day();
  const std::array changes{WaterChangeAt{7, *between(0, 1), any_temperature(2, 25)}};
  const auto run = trajectory(tank, equipment, {any_temperature(1, 25)}, day, std::array{any_temperature(3, 18)},
                              TemperatureChange::from_c(*between(0.05, 3)), 0, Hours(1), changes);
  const double stored_j = (tank.capacity * (run.water.back() - run.water.front())).j();
  const double in_j = (run.gained - run.removed + run.from_heater + run.from_changes).j();
  RC_ASSERT(std::abs(stored_j - in_j) < 1e-6 * (1e6 + std::abs(run.gained.j()) + std::abs(run.removed.j())));
  for (const double duty : run.duty) RC_ASSERT(duty >= 0.0 && duty <= 1.0);
}

RC_GTEST_PROP(Heat, AWarmerRoomNeverMakesTheChillerHoldBetter, ()) {
  const TankHeat tank = any_tank();
  const Chiller chiller = any_chiller();
  const Temperature set_point = any_temperature(4, 14), room = any_temperature(5, 32), warmer = room + TemperatureChange::from_c(*between(0.01, 8));
  const Held cool = held(tank, chiller, set_point, room), warm = held(tank, chiller, set_point, warmer);
  RC_ASSERT(warm.duty_fraction >= cool.duty_fraction);
  RC_ASSERT(warm.settles_at >= cool.settles_at);
  RC_ASSERT(static_cast<int>(warm.holding) <= static_cast<int>(cool.holding));
  const auto quick = time_to_cool(tank, chiller, Temperature::from_c(20), set_point, room);
  const auto slow = time_to_cool(tank, chiller, Temperature::from_c(20), set_point, warmer);
  if (slow) RC_ASSERT(quick && quick->count() <= slow->count() * (1 + 1e-9));
}

RC_GTEST_PROP(Heat, ABiggerChillerNeverHoldsWorse, ()) {
  const TankHeat tank = any_tank();
  Chiller chiller = any_chiller();
  const Temperature set_point = any_temperature(4, 14), room = any_temperature(5, 32);
  const Held small = held(tank, chiller, set_point, room);
  chiller.rated = 1.3 * chiller.rated;
  RC_ASSERT(held(tank, chiller, set_point, room).duty_fraction <= small.duty_fraction);
  RC_ASSERT(held(tank, chiller, set_point, room).settles_at <= small.settles_at);
}

RC_GTEST_PROP(Heat, MoreInsulationNeverWarmsFaster, ()) {
  TankHeat tank = any_tank();
  const Temperature water = any_temperature(4, 12), limit = water + TemperatureChange::from_c(*between(0.5, 8));
  const Temperature room = limit + TemperatureChange::from_c(*between(0.1, 10));  // a room warm enough to get there by itself
  const auto time = [&] { return relaxation(tank.capacity, tank.conductance, room, mean_own_heat(tank)).time_to(water, limit); };
  const auto bare = time();
  tank.conductance = *between(0.2, 0.99) * tank.conductance;
  const auto insulated = time();
  RC_ASSERT(bare.has_value());
  RC_ASSERT(!insulated || insulated->count() >= bare->count() * (1 - 1e-12));
}

RC_GTEST_PROP(Heat, FoamLowersTheConductanceOfAnyTank, ()) {
  TankWalls walls{.length_m = *between(0.3, 2), .width_m = *between(0.2, 0.8), .water_depth_m = *between(0.2, 0.8), .wall_m = *between(0.003, 0.02)};
  const Conductance bare = conductance(walls);
  walls.side_foam_m = *between(0.005, 0.1);
  const Conductance all_sides = conductance(walls);
  walls.bare_sides = 1;
  RC_ASSERT(all_sides < conductance(walls));
  RC_ASSERT(conductance(walls) < bare);
}

RC_GTEST_PROP(Heat, ThePlannersBoundsHoldInTheSimulatedDay, ()) {
  TankHeat tank = any_tank();
  const Equipment equipment{.chiller = any_chiller(), .heater = Power::from_w(*between(0, 200))};
  const RoomDay day = any_day();
  const std::vector<RoomDay> rooms{day};
  const auto ability = holdable_range(tank, equipment, doubt_without_log, rooms, std::array{any_temperature(4, 14)}).front();
  RC_PRE(ability.coldest.c() + 0.2 < ability.warmest.c() && ability.coldest.c() > 0.0);
  const Temperature wanted = ability.coldest + *between(0.2, 1.0) * (ability.warmest - ability.coldest);
  // A worse tank and chiller than the middle, but inside the doubt.
  tank.conductance = *between(1 / 1.5, 1.5) * tank.conductance;
  Equipment real = equipment;
  real.chiller->rated = *between(0.7, 1.1) * real.chiller->rated;
  const auto run = trajectory(tank, real, {wanted}, day, std::array{wanted}, TemperatureChange::from_c(0.2));
  RC_ASSERT(run.warmest.c() <= wanted.c() + 0.11);
  RC_ASSERT(run.coldest.c() >= wanted.c() - 0.21);
}

RC_GTEST_PROP(Heat, TimeToCoolIsWhenTheTrajectoryGetsThere, ()) {
  TankHeat tank = any_tank();
  tank.light = Power::from_w(0);
  const Chiller chiller = any_chiller();
  const Temperature room = any_temperature(15, 30), to = any_temperature(5, 12);
  const auto time = time_to_cool(tank, chiller, room, to, room);
  RC_PRE(time.has_value() && time->count() > 1.0 && time->count() < 200.0);
  // Read straight between the ends of steps, an exponential of time constant tau is late by up to step^2 / (8 tau). A small tank on a strong
  // chiller has a tau of an hour and a half: hours as steps would be off by 0.08.
  const Hours step(0.1);
  const std::vector<Temperature> rooms(2010, room);
  const auto run = trajectory(tank, {.chiller = chiller, .chiller_works = Working::stuck_on}, {room}, rooms, std::array{to}, TemperatureChange::from_c(1), 0, step);
  const auto seen = first_at_or_below(run, to);
  RC_ASSERT(seen.has_value());
  RC_ASSERT(std::abs(seen->count() - time->count()) < 0.005 * time->count() + 0.01);
}

RC_GTEST_PROP(Heat, TheSurfaceGainsHeatExactlyWhenItCollectsWater, ()) {
  const Temperature water = any_temperature(2, 25);
  const RoomAir air{any_temperature(8, 32), *between(0.1, 1)};
  const auto exchange = surface_exchange(water, air);
  RC_ASSERT((exchange.heat_w_per_m2 > 0.0) == (dew_point(air) > water));
  RC_ASSERT(surface_gain(0.5, false, water, air).w() >= 0.0);
  RC_ASSERT(dew_point(air).c() <= air.temperature.c() + 1e-9);
}

RC_GTEST_PROP(Heat, AWaterChangeWithinItsLimitKeepsTheTankWithinIt, ()) {
  const Temperature tank = any_temperature(3, 14), source = any_temperature(1, 28);
  const auto most = TemperatureChange::from_c(*between(0.1, 3));
  const double fraction = largest_water_change(tank, source, most);
  RC_ASSERT(std::abs((fraction * (source - tank)).c()) <= most.c() + 1e-9);
  const double wanted = *between(0.05, 1);
  RC_ASSERT(std::abs((wanted * (tempered_source(tank, source, wanted, most) - tank)).c()) <= most.c() + 1e-9);
}

}  // namespace
}  // namespace redd::properties
