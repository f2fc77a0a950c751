#include "heat/balance.h"

#include <algorithm>
#include <cmath>

#include "numerics/linear.h"
#include "numerics/roots.h"

namespace redd::heat {
namespace {

/// Heat into the water less what a chiller running without pause takes out.
Power net(const TankHeat& tank, const std::optional<Chiller>& chiller, Temperature water, Temperature room) {
  const Power in = heat_balance(tank, water, room).total;
  return chiller ? in - cooling_power(*chiller, water, room) : in;
}

}  // namespace

Power own_heat(const TankHeat& tank, int hour) {
  const bool lit = hour >= tank.light_from_hour && hour < tank.light_until_hour;
  return tank.pump + tank.damp + (lit ? tank.light : Power::from_w(0.0));
}

Power mean_own_heat(const TankHeat& tank) {
  const int lit_hours = std::clamp(tank.light_until_hour - tank.light_from_hour, 0, 24);
  return tank.pump + tank.damp + lit_hours / 24.0 * tank.light;
}

HeatBalance heat_balance(const TankHeat& tank, Temperature water, Temperature room) {
  const Power walls = tank.conductance * (room - water);
  const Power own = mean_own_heat(tank);
  return {walls, tank.pump, own - tank.pump - tank.damp, tank.damp, walls + own};
}

Temperature settles_at(const TankHeat& tank, const std::optional<Chiller>& chiller, Temperature room) {
  const double ua_w_per_k = tank.conductance.w_per_k();
  const Temperature without = room + TemperatureChange::from_c(mean_own_heat(tank).w() / ua_w_per_k);
  if (!chiller || chiller->rated.w() <= 0.0) return without;
  // Net heat falls as water warms: one crossing, between "without" and where even the warmest water's capacity would take it.
  const double high_c = without.c();
  const double low_c = high_c - cooling_power(*chiller, without, room).w() / ua_w_per_k - 1.0;
  const auto root = numerics::root_between([&](double c) { return net(tank, chiller, Temperature::from_c(c), room).w(); }, low_c, high_c, 1e-10);
  return Temperature::from_c(root.value_or(high_c));  // no sign change only when the capacity is lost to rounding: as without
}

Holding holding_at(double duty_fraction) {
  if (duty_fraction <= 0.0) return Holding::not_needed;
  if (duty_fraction <= tight_duty) return Holding::held;
  if (duty_fraction <= refused_duty) return Holding::tight;
  return duty_fraction < 1.0 ? Holding::refused : Holding::never_reached;
}

Held held(const TankHeat& tank, const Chiller& chiller, Temperature set_point, Temperature room) {
  const Power need = std::max(Power::from_w(0.0), heat_balance(tank, set_point, room).total);
  const Power most = cooling_power(chiller, set_point, room);
  const Temperature settles = settles_at(tank, chiller, room);
  // A machine that takes nothing out has endless duty; 1e9 keeps the number finite.
  const double duty = need.w() <= 0.0 ? 0.0 : most.w() > 0.0 ? std::min(1e9, need.w() / most.w()) : 1e9;
  const Temperature water = duty >= 1.0 ? settles : set_point;
  return {holding_at(duty), duty, settles, need, std::min(1.0, duty) * electric_power(chiller, water, room)};
}

double cost_per_week(Power electric, double price_per_kwh) { return (electric * Hours(168.0)).kwh() * price_per_kwh; }

std::optional<Hours> time_to_cool(const TankHeat& tank, const Chiller& chiller, Temperature from, Temperature to, Temperature room) {
  constexpr double endless_c = 1e-3;
  if (from <= to) return Hours(0.0);
  const double settles_c = settles_at(tank, chiller, room).c();
  if (to.c() - settles_c < endless_c) return std::nullopt;
  // With T = T_settle + exp(u) the integrand C dT / net is all but constant.
  const auto rule = numerics::gauss_legendre(24, std::log(to.c() - settles_c), std::log(from.c() - settles_c));
  double seconds = 0.0;
  for (std::size_t i = 0; i < rule.nodes.size(); ++i) {
    const double above_c = std::exp(rule.nodes[i]);
    const double falling_w = -net(tank, chiller, Temperature::from_c(settles_c + above_c), room).w();
    seconds += rule.weights[i] * tank.capacity.j_per_k() * above_c / falling_w;
  }
  return Hours(seconds / 3600.0);
}

Power chiller_wanted(const TankHeat& tank, Temperature set_point, Temperature room, TemperatureChange pull_down, Hours in) {
  return std::max({Power::from_w(0.0), 1.5 * heat_balance(tank, set_point, room).total, mean_power(tank.capacity, pull_down, in)});
}

}  // namespace redd::heat
