#include "planning/stocking.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "planning/detail/log_estimates.h"

namespace redd::planning {
namespace {

constexpr double kg_per_lb = 0.45359237, m3_per_ft3 = 0.028316846592, cm_per_inch = 2.54, litres_per_gallon = Volume::litres_per_us_gallon;
constexpr double trout_flow_index_lb_per_gpm_in = 0.75;
constexpr Estimate<double> index_doubt{0.5, 1.0, 2.0, Support::assumed};

/// One at 0.3 g and below, one half at 1 g and above, straight in the logarithm between.
double size_share(double each_g) {
  constexpr double small_g = 0.3, large_g = 1.0;
  const double way = std::clamp(std::log(each_g / small_g) / std::log(large_g / small_g), 0.0, 1.0);
  return 1.0 - 0.5 * way;
}

}  // namespace

double fry_length_cm(double each_g) { return std::cbrt(100.0 * each_g); }

double density_index_kg_per_m3_cm(double lb_per_ft3_in) { return lb_per_ft3_in * kg_per_lb / (m3_per_ft3 * cm_per_inch); }
double flow_index_kg_min_per_l_cm(double lb_per_gpm_in) { return lb_per_gpm_in * kg_per_lb / (litres_per_gallon * cm_per_inch); }

Mass mass_by_density(double index_kg_per_m3_cm, double length_cm, Volume water) { return Mass::from_g(index_kg_per_m3_cm * length_cm * water.l()); }

Mass mass_by_flow(double index_kg_min_per_l_cm, double length_cm, double flow_l_per_min, OxygenConc inflow, OxygenConc reference) {
  constexpr double least_mg_per_l = 5.0, g_per_kg = 1000.0;
  const double share = (inflow.mg_o2_per_l() - least_mg_per_l) / (reference.mg_o2_per_l() - least_mg_per_l);
  return Mass::from_g(g_per_kg * index_kg_min_per_l_cm * length_cm * flow_l_per_min * std::max(0.0, share));
}

double density_index_of(std::string_view species_key) {
  if (species_key == "rainbow_trout") return 3.0;
  if (species_key == "coho") return 2.4;
  if (species_key == "chinook" || species_key == "atlantic_salmon") return 1.8;
  return 1.5;
}

SpaceCarry carried_by_space(double each_g, Volume water, std::string_view species_key, std::optional<double> flow_l_per_min, OxygenConc inflow, OxygenConc reference) {
  const double length = fry_length_cm(each_g), litres = water.l();
  const auto by_index = [&](Mass mass) { return times(reuse_fraction * mass.g() / each_g, index_doubt); };
  std::array<std::optional<SpaceCarry>, 4> all{
      SpaceCarry{times(size_share(each_g) * litres, {0.5, 1.0, 2.0, Support::assumed}), SpaceRule::by_number},
      SpaceCarry{times(litres / each_g, {0.5, 1.0, 1.5, Support::assumed}), SpaceRule::by_mass},
      SpaceCarry{by_index(mass_by_density(density_index_of(species_key), length, water)), SpaceRule::density_index}, std::nullopt};
  if (flow_l_per_min)
    all[3] = SpaceCarry{by_index(mass_by_flow(flow_index_kg_min_per_l_cm(trout_flow_index_lb_per_gpm_in), length, *flow_l_per_min, inflow, reference)), SpaceRule::flow_index};
  SpaceCarry least = *all.front();
  for (const auto& each : all)
    if (each && each->animals.mid < least.animals.mid) least = *each;
  return least;
}

}  // namespace redd::planning
