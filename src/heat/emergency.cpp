#include "heat/emergency.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace redd::heat {
namespace {

/// Never counts as later than any time.
bool sooner(const std::optional<Hours>& a, const std::optional<Hours>& b) { return a && (!b || *a < *b); }

/// One crossing over the doubt of the conductance: which end is sooner depends on the limit, so all three are worked out.
template <class TimeFor>
CrossingTime over_doubt(TankHeat tank, const Estimate<Conductance>& conductance, Temperature limit, TimeFor&& time_for) {
  std::array<std::optional<Hours>, 3> times;
  const std::array values{conductance.low, conductance.mid, conductance.high};
  std::ranges::transform(values, times.begin(), [&](Conductance ua) {
    tank.conductance = ua;
    return time_for(tank);
  });
  const auto likely = times[1];
  std::ranges::sort(times, sooner);
  return {limit, times[0], likely, times[2]};
}

/// With everything off that cools; zero when the water is beyond the limit already.
std::optional<Hours> drift_time(const TankHeat& tank, LimitSide side, Temperature water, Temperature room, Temperature limit) {
  if (side == LimitSide::too_warm ? water >= limit : water <= limit) return Hours(0.0);
  return relaxation(tank.capacity, tank.conductance, room, mean_own_heat(tank)).time_to(water, limit);
}

}  // namespace

std::vector<CrossingTime> outage_times(const TankHeat& tank, const Estimate<Conductance>& conductance, LimitSide side, Temperature water,
                                       Temperature room, std::span<const Temperature> limits) {
  std::vector<CrossingTime> all;
  for (const Temperature limit : limits)
    all.push_back(over_doubt(tank, conductance, limit, [&](const TankHeat& each) { return drift_time(each, side, water, room, limit); }));
  return all;
}

std::vector<CrossingTime> stuck_on_times(const TankHeat& tank, const Estimate<Conductance>& conductance, const Chiller& chiller,
                                         Temperature water, Temperature room, std::span<const Temperature> limits) {
  std::vector<CrossingTime> all;
  for (const Temperature limit : limits)
    all.push_back(over_doubt(tank, conductance, limit, [&](const TankHeat& each) { return time_to_cool(each, chiller, water, limit, room); }));
  return all;
}

double heat_taken_by_ice_j_per_g(Temperature ice, Temperature water) {
  return ice_melting_j_per_g - ice_j_per_g_k * ice.c() + water_j_per_l_k / 1000.0 * water.c();
}

Mass ice_for_drop(Volume water, TemperatureChange drop, Temperature after, Temperature ice) {
  return Mass::from_g((heat_capacity(water) * drop).j() / heat_taken_by_ice_j_per_g(ice, after));
}

Mass ice_to_hold(Power gain, Hours span, Temperature water, Temperature ice) {
  return Mass::from_g(std::max(0.0, (gain * span).j()) / heat_taken_by_ice_j_per_g(ice, water));
}

std::optional<Hours> hours_held_by_ice(Mass ice, Power gain, Temperature water, Temperature ice_at) {
  if (gain.w() <= 0.0) return std::nullopt;
  return Hours(ice.g() * heat_taken_by_ice_j_per_g(ice_at, water) / gain.w() / 3600.0);
}

std::optional<Temperature> after_melting(Mass water, Temperature water_at, Mass ice, Temperature ice_at) {
  const double c_j_per_g_k = water_j_per_l_k / 1000.0;
  const double to_melt_j = ice.g() * (ice_melting_j_per_g - ice_j_per_g_k * ice_at.c());
  const double final_c = (water.g() * c_j_per_g_k * water_at.c() - to_melt_j) / ((water.g() + ice.g()) * c_j_per_g_k);
  if (final_c < 0.0) return std::nullopt;
  return Temperature::from_c(final_c);
}

double largest_water_change(Temperature tank, Temperature source, TemperatureChange most) {
  const double apart_c = std::fabs((source - tank).c());
  return apart_c <= most.c() ? 1.0 : std::max(0.0, most.c()) / apart_c;
}

Temperature tempered_source(Temperature tank, Temperature source, double fraction, TemperatureChange most) {
  const double widest_c = most.c() / fraction;
  return tank + TemperatureChange::from_c(std::clamp((source - tank).c(), -widest_c, widest_c));
}

InsulationBuys insulation_buys(const TankHeat& before, Conductance insulated, const Chiller& chiller, Temperature set_point, Temperature room,
                               Temperature limit) {
  TankHeat after = before;
  after.conductance = insulated;
  const Held bare = held(before, chiller, set_point, room), foamed = held(after, chiller, set_point, room);
  const auto until_limit = [&](TankHeat tank) {
    tank.pump = tank.light = Power::from_w(0.0);
    return drift_time(tank, LimitSide::too_warm, set_point, room, limit);
  };
  std::optional<Power> same;
  if (foamed.duty_fraction > 0.0) same = (bare.duty_fraction / foamed.duty_fraction) * cooling_power(chiller, set_point, room);
  return {bare.to_remove, foamed.to_remove, bare.duty_fraction, foamed.duty_fraction, bare.electric_per_week() - foamed.electric_per_week(),
          same, until_limit(before), until_limit(after)};
}

}  // namespace redd::heat
