#include "heat/holdable.h"

#include <algorithm>
#include <array>

#include "quantities/result.h"

namespace redd::heat {
namespace {

constexpr Power no_power = Power::from_w(0.0);

/// Tank and equipment at one corner of the doubt.
struct World {
  TankHeat tank;
  Equipment equipment;
};

World world(const TankHeat& tank, const Equipment& equipment, double conductance_factor, double chiller_factor) {
  World made{tank, equipment};
  made.tank.conductance = conductance_factor * tank.conductance;
  if (made.equipment.chiller) made.equipment.chiller->rated = chiller_factor * made.equipment.chiller->rated;
  return made;
}

/// The chiller as far as it can be counted on in this share of the time.
std::optional<Chiller> chiller_at(const Equipment& equipment, double largest_duty) {
  if (!equipment.chiller || equipment.chiller_works == Working::stuck_off) return std::nullopt;
  Chiller chiller = *equipment.chiller;
  if (equipment.chiller_works == Working::normal) chiller.rated = largest_duty * chiller.rated;
  return chiller;
}

Power heater_of(const Equipment& equipment, bool wanted) {
  const bool on = equipment.heater_works == Working::stuck_on || (wanted && equipment.heater_works == Working::normal);
  return on ? equipment.heater : no_power;
}

Temperature coldest(World w, const RoomDay& room, double largest_duty) {
  w.tank.pump = w.tank.pump + w.tank.light + heater_of(w.equipment, false);  // the warmest hour may well be a lit one
  w.tank.light = no_power;
  return settles_at(w.tank, chiller_at(w.equipment, largest_duty), warmest_of(room));
}

Temperature warmest(World w, const RoomDay& room) {
  w.tank.pump = w.tank.pump + heater_of(w.equipment, true);
  w.tank.light = no_power;
  const bool stuck_on = w.equipment.chiller_works == Working::stuck_on;
  return settles_at(w.tank, stuck_on ? w.equipment.chiller : std::nullopt, coldest_of(room));
}

/// Change over the day with the machines forced one way.
TemperatureChange day_change(World w, const RoomDay& room, Temperature from, Working chiller, Working heater) {
  if (w.equipment.chiller_works == Working::normal) w.equipment.chiller_works = chiller;
  if (w.equipment.heater_works == Working::normal) w.equipment.heater_works = heater;
  return trajectory(w.tank, w.equipment, {from}, room, std::array{from}, TemperatureChange::from_c(1.0)).water.back() - from;
}

TemperatureChange at_least_zero(TemperatureChange change) { return std::max(change, TemperatureChange::from_c(0.0)); }

/// Duty and energy at the set-point, hour by hour in the steady state, for the most likely tank; the verdict for the cautious one.
void judge_set_point(DayAbility& day, const TankHeat& tank, const Equipment& equipment, const World& cautious, const RoomDay& room,
                     Temperature set_point) {
  const auto chiller = chiller_at(equipment, 1.0), cautious_chiller = chiller_at(cautious.equipment, 1.0);
  const Chiller none{.rated = no_power};
  double duty_sum = 0.0, worst = 0.0;
  for (int hour = 0; hour < 24; ++hour) {
    const auto flat = [&](TankHeat at) {  // the tank as it is in this hour
      at.pump = own_heat(at, hour) - at.damp + heater_of(equipment, false);
      at.light = no_power;
      return at;
    };
    const Temperature air = room[static_cast<std::size_t>(hour)];
    const Held here = held(flat(tank), chiller.value_or(none), set_point, air);
    duty_sum += here.duty_fraction;
    worst = std::max(worst, held(flat(cautious.tank), cautious_chiller.value_or(none), set_point, air).duty_fraction);
    const Power lacking = std::max(no_power, -1.0 * heat_balance(flat(tank), set_point, air).total);
    const Power idle = heater_of(equipment, false);
    day.electric = day.electric + (here.electric + idle + std::min(lacking, heater_of(equipment, true) - idle)) * Hours(1.0);
  }
  day.duty_fraction = duty_sum / 24.0;
  day.warmest_hour_duty_fraction = worst;
  day.holding = holding_at(worst);
}

}  // namespace

std::vector<DayAbility> holdable_range(const TankHeat& tank, const Equipment& equipment, const HeatDoubt& doubt, std::span<const RoomDay> rooms,
                                       std::span<const Temperature> set_points, double largest_duty) {
  require(set_points.size() == 1 || set_points.size() == rooms.size(), "holdable_range", "one set-point, or one for each day");
  // Which end of the conductance is the cautious one depends on whether room or pump warms more, so both are asked.
  const std::array weak{world(tank, equipment, doubt.conductance.high, doubt.chiller.low), world(tank, equipment, doubt.conductance.low, doubt.chiller.low)};
  TankHeat dry = tank;
  dry.damp = no_power;
  const std::array loose{world(dry, equipment, doubt.conductance.high, doubt.chiller.high), world(dry, equipment, doubt.conductance.low, doubt.chiller.high)};
  std::vector<DayAbility> days;
  days.reserve(rooms.size());
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    const RoomDay& room = rooms[i];
    const Temperature set_point = set_points[set_points.size() == 1 ? 0 : i];
    const auto fall = [&](const World& w) { return -day_change(w, room, set_point, Working::stuck_on, Working::stuck_off); };
    const auto rise = [&](const World& w) { return day_change(w, room, set_point, Working::stuck_off, Working::stuck_on); };
    DayAbility day{std::max(coldest(weak[0], room, largest_duty), coldest(weak[1], room, largest_duty)),
                   std::min(warmest(loose[0], room), warmest(loose[1], room)),
                   at_least_zero(std::min(fall(weak[0]), fall(weak[1]))),
                   at_least_zero(std::min(rise(loose[0]), rise(loose[1]))),
                   Holding::held, 0.0, 0.0, Energy::from_j(0.0)};
    const double set_point_high = heat_balance(weak[0].tank, set_point, warmest_of(room)).total.w();
    const double set_point_low = heat_balance(weak[1].tank, set_point, warmest_of(room)).total.w();
    judge_set_point(day, tank, equipment, set_point_high >= set_point_low ? weak[0] : weak[1], room, set_point);
    days.push_back(day);
  }
  return days;
}

}  // namespace redd::heat
