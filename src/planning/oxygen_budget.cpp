#include "planning/oxygen_budget.h"

#include <algorithm>
#include <cmath>

#include "chemistry/oxygen.h"
#include "planning/detail/log_estimates.h"

namespace redd::planning {
namespace {

constexpr Estimate<double> alpha{0.6, 0.85, 1.0, Support::assumed};
constexpr Estimate<double> moving_surface_m_per_h{0.02, 0.05, 0.2, Support::assumed};
constexpr double stone_depth_of_efficiency_m = 0.4;
constexpr auto standard_water = Temperature::from_c(20.0);

}  // namespace

double oxygen_in_air_mg_o2_per_h(double air_l_per_min, double elevation_m) {
  constexpr double air_mg_per_l = 1204.0, oxygen_share = 0.231;
  return 60.0 * air_l_per_min * air_mg_per_l * oxygen_share * chemistry::pressure_mmhg_at_elevation(elevation_m) / chemistry::standard_pressure_mmhg;
}

double transfer_warmth(Temperature water) { return std::pow(1.024, water.c() - standard_water.c()); }

Estimate<double> air_transfer_l_per_h(const AirSupply& air, Temperature water) {
  const double warmth = transfer_warmth(water), full_mg_per_l = chemistry::oxygen_saturation(standard_water).mg_o2_per_l();
  const auto& efficiency = air.air_l_per_min ? stone_efficiency_fraction : poorest_efficiency_fraction;
  const double blown = oxygen_in_air_mg_o2_per_h(air.air_l_per_min.value_or(poorest_stone_l_per_min), air.elevation_m) * air.stone_depth_m / stone_depth_of_efficiency_m;
  const auto stones = times(blown * warmth / full_mg_per_l, product(efficiency, alpha));
  const auto surface = times(1000.0 * air.surface_m2 * warmth, moving_surface_m_per_h);
  return sum(stones, surface);
}

Estimate<OxygenConc> steady_oxygen(OxygenConc saturation, const Estimate<double>& use, const Estimate<double>& transfer) {
  const auto at = [&](double short_of) { return OxygenConc::from_mg_o2_per_l(std::max(0.0, saturation.mg_o2_per_l() - short_of)); };
  if (use.high <= 0.0) return {saturation, saturation, saturation, Support::inferred};
  const auto short_of = quotient(use, transfer);
  return {at(short_of.high), at(short_of.mid), at(short_of.low), transfer.support};
}

Estimate<double> learnt_transfer_l_per_h(const Estimate<double>& before, OxygenConc saturation, const Estimate<OxygenConc>& read, const Estimate<double>& use) {
  const auto short_of = [&](OxygenConc value) { return saturation.mg_o2_per_l() - value.mg_o2_per_l(); };
  if (use.mid <= 0.0 || short_of(read.low) <= 0.0) return before;  // nothing is used, or it reads above full
  const double least = use.low / short_of(read.low);
  const double most = short_of(read.high) > 0.0 ? use.high / short_of(read.high) : std::max(before.high, least);
  Estimate<double> learnt{std::clamp(before.low, least, most), 0.0, std::clamp(before.high, least, most), Support::inferred};
  learnt.mid = std::clamp(before.mid, learnt.low, learnt.high);
  // The reading lies outside everything the equipment was taken for: then it alone speaks.
  if (before.high < least || before.low > most) learnt = {least, std::sqrt(least * std::max(most, least)), std::max(most, least), Support::inferred};
  if (learnt.low == before.low && learnt.high == before.high) learnt.support = before.support;
  return learnt;
}

Estimate<double> carried_by_oxygen(OxygenConc saturation, OxygenConc limit, const Estimate<double>& transfer, const Estimate<double>& use_of_one) {
  const double spare = saturation.mg_o2_per_l() - limit.mg_o2_per_l();
  if (spare <= 0.0) return {0.0, 0.0, 0.0, transfer.support};
  return times(spare, quotient(transfer, use_of_one));
}

}  // namespace redd::planning
