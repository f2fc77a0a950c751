#include "planning/still_water.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
namespace {

double rate_per_h(const StillWater& water) { return water.transfer_m_per_h / water.depth_m; }

}  // namespace

OxygenConc oxygen_after(const StillWater& water, Hours span) {
  const double start = water.start.mg_o2_per_l(), rate = rate_per_h(water), t = span.count();
  // Small rates: the straight line that the curve becomes.
  const double gone = rate * t < 1e-9 ? water.use_mg_o2_per_l_per_h * t : water.use_mg_o2_per_l_per_h / rate * -std::expm1(-rate * t);
  const double gained = (water.saturation.mg_o2_per_l() - start) * -std::expm1(-rate * t);
  return OxygenConc::from_mg_o2_per_l(std::max(0.0, start + gained - gone));
}

std::optional<Hours> time_to(const StillWater& water, OxygenConc limit) {
  const double start = water.start.mg_o2_per_l(), wanted = limit.mg_o2_per_l(), rate = rate_per_h(water);
  if (start <= wanted) return Hours(0.0);
  if (rate < 1e-9) return water.use_mg_o2_per_l_per_h > 0.0 ? std::optional(Hours((start - wanted) / water.use_mg_o2_per_l_per_h)) : std::nullopt;
  const double settles = water.saturation.mg_o2_per_l() - water.use_mg_o2_per_l_per_h / rate;
  if (settles >= wanted) return std::nullopt;
  return Hours(std::log((start - settles) / (wanted - settles)) / rate);
}

double diffusing_mg_o2_per_h(double area_m2, double thickness_m, double difference_mg_per_l) {
  constexpr double diffusivity_m2_per_s = 1.5e-9, mg_per_m3_per_mg_per_l = 1000.0;
  return diffusivity_m2_per_s * 3600.0 * area_m2 * difference_mg_per_l * mg_per_m3_per_mg_per_l / thickness_m;
}

}  // namespace redd::planning
