#include "heat/relaxation.h"

#include <cmath>

#include "quantities/result.h"

namespace redd::heat {

HeatCapacity heat_capacity(Volume water, Mass glass, Mass gravel) {
  return HeatCapacity::from_j_per_k(water.l() * water_j_per_l_k + glass.g() / 1000.0 * glass_j_per_kg_k + gravel.g() / 1000.0 * gravel_j_per_kg_k);
}

Temperature equalised(HeatCapacity a, Temperature a_at, HeatCapacity b, Temperature b_at) {
  const double share_b = b.j_per_k() / (a.j_per_k() + b.j_per_k());
  return a_at + share_b * (b_at - a_at);
}

Temperature Relaxation::after(Temperature start, Hours span) const {
  return start + -std::expm1(-span / time_constant) * (settles_at - start);
}

Temperature Relaxation::mean_over(Temperature start, Hours span) const {
  const double x = span / time_constant;
  const double remaining = x < 1e-8 ? 1.0 - 0.5 * x : -std::expm1(-x) / x;  // mean of exp(-t/tau) over the span
  return settles_at + remaining * (start - settles_at);
}

std::optional<Hours> Relaxation::time_to(Temperature start, Temperature target) const {
  constexpr double endless_c = 1e-3;
  if (start == target) return Hours(0.0);
  const double left = (target - settles_at).c(), whole = (start - settles_at).c();
  if (std::fabs(left) < endless_c || left / whole <= 0.0 || left / whole >= 1.0 || !std::isfinite(left / whole)) return std::nullopt;
  return -std::log(left / whole) * time_constant;
}

Relaxation relaxation(HeatCapacity capacity, Conductance conductance, Temperature surroundings, Power source) {
  require(conductance.w_per_k() > 0.0 && capacity.j_per_k() > 0.0, "relaxation", "conductance and capacity must be above zero");
  return {surroundings + TemperatureChange::from_c(source.w() / conductance.w_per_k()),
          Hours(capacity.j_per_k() / conductance.w_per_k() / 3600.0)};
}

std::optional<Hours> time_constant_from(Temperature start, Temperature later, Hours span, Temperature surroundings) {
  const double left = (later - surroundings).c() / (start - surroundings).c();
  if (!(left > 0.0 && left < 1.0) || span.count() <= 0.0) return std::nullopt;
  return span / -std::log(left);
}

Power mean_power(HeatCapacity capacity, TemperatureChange change, Hours span) {
  return Power::from_w((capacity * change).j() / (3600.0 * span.count()));
}

}  // namespace redd::heat
