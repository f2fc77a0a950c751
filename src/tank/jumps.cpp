#include "tank/jumps.h"

#include <algorithm>

#include "chemistry/dosing.h"
#include "quantities/result.h"
#include "tank/processes.h"

namespace redd::tank {
namespace {

using enum Quantity;

/// Source water's share of each dissolved quantity; attached bacteria and debris stay where they are.
struct Dissolved {
  Quantity quantity;
  double source;
};

std::array<Dissolved, 8> dissolved_in(const SourceWater& s) {
  return {{{organic_nitrogen, s.organic_mg_n_per_l},
           {total_ammonia, s.total_ammonia_mg_n_per_l + chemistry::chloramine_releases_mg_n_per_mg_cl2 * s.chloramine_mg_per_l},
           {nitrite, s.nitrite_mg_n_per_l},
           {nitrate, s.nitrate_mg_n_per_l},
           {oxygen, s.oxygen_mg_o2_per_l},
           {alkalinity, s.alkalinity_meq_per_l},
           {inorganic_carbon, s.inorganic_carbon_mmol_per_l},
           {hardness, s.hardness_meq_per_l}}};
}

void blend(Ensemble& ensemble, double kept, const SourceWater& source) {
  for (const auto& [quantity, value] : dissolved_in(source))
    for (double& x : ensemble.column(quantity)) x = kept * x + (1.0 - kept) * value;
}

void raise(Ensemble& ensemble, Quantity quantity, double by, std::span<const double> factors) {
  if (by == 0.0) return;
  const auto column = ensemble.column(quantity);
  for (std::size_t i = 0; i < column.size(); ++i) column[i] = std::max(0.0, column[i] + (factors.empty() ? by : by * factors[i]));
}

}  // namespace

double air_balanced_carbon_mmol_per_l(Temperature temperature, double alkalinity_meq_per_l, double air_co2_uatm) {
  const auto water = chemistry::carbonate_from_pco2(temperature, Alkalinity::from_meq_per_l(alkalinity_meq_per_l), air_co2_uatm);
  return water ? water->dic_mmol_per_l : 0.0;
}

SourceWater pure_water(Temperature temperature) {
  SourceWater water;
  water.inorganic_carbon_mmol_per_l = air_balanced_carbon_mmol_per_l(temperature, 0.0);
  water.oxygen_mg_o2_per_l = chemistry::oxygen_saturation(temperature).mg_o2_per_l();
  return water;
}

void change_water(Ensemble& ensemble, double volume_l, const SourceWater& source) {
  const double share = std::clamp(volume_l / ensemble.volume_l(), 0.0, 1.0);
  blend(ensemble, 1.0 - share, source);
}

void add_water(Ensemble& ensemble, double volume_l, const SourceWater& source) {
  if (!(volume_l > 0.0)) return;
  const double before_l = ensemble.volume_l();
  const double kept = before_l / (before_l + volume_l);
  blend(ensemble, kept, source);
  for (const Quantity attached : {ammonia_oxidisers, nitrite_oxidisers, debris})  // the same filter, now in more water
    for (double& x : ensemble.column(attached)) x *= kept;
  ensemble.set_volume_l(before_l + volume_l);
}

void add_dose(Ensemble& ensemble, const Dose& dose) { add_dose(ensemble, dose, {}); }

void add_dose(Ensemble& ensemble, const Dose& dose, std::span<const double> dose_factors) {
  require(dose_factors.empty() || dose_factors.size() == ensemble.size(), "add_dose", "one factor a particle is needed");
  const double per_l = 1.0 / ensemble.volume_l();
  raise(ensemble, total_ammonia, per_l * (dose.ammonium_chloride_mg_n + dose.ammonia_solution_mg_n), dose_factors);
  raise(ensemble, nitrite, per_l * dose.nitrite_mg_n, dose_factors);
  raise(ensemble, nitrate, per_l * dose.nitrate_mg_n, dose_factors);
  raise(ensemble, organic_nitrogen, per_l * dose.organic_mg_n, dose_factors);
  raise(ensemble, alkalinity, per_l * (dose.bicarbonate_meq + stoichiometry::charge * dose.ammonia_solution_mg_n), dose_factors);
  raise(ensemble, inorganic_carbon, per_l * dose.bicarbonate_meq, dose_factors);
  raise(ensemble, hardness, per_l * dose.hardness_meq, dose_factors);
}

void lose_filter(Ensemble& ensemble, double lost_fraction) {
  const double kept = 1.0 - std::clamp(lost_fraction, 0.0, 1.0);
  for (const Quantity attached : {ammonia_oxidisers, nitrite_oxidisers, debris})
    for (double& x : ensemble.column(attached)) x *= kept;
}

void lose_filter(Ensemble& ensemble, std::span<const double> lost_fractions) {
  require(lost_fractions.size() == ensemble.size(), "lose_filter", "one fraction a particle is needed");
  for (const Quantity attached : {ammonia_oxidisers, nitrite_oxidisers, debris}) {
    const auto column = ensemble.column(attached);
    for (std::size_t i = 0; i < column.size(); ++i) column[i] *= 1.0 - std::clamp(lost_fractions[i], 0.0, 1.0);
  }
}

void seed_filter(Ensemble& ensemble, double ammonia_oxidisers_mg_cod, double nitrite_oxidisers_mg_cod) {
  const double per_l = 1.0 / ensemble.volume_l();
  raise(ensemble, ammonia_oxidisers, per_l * ammonia_oxidisers_mg_cod, {});
  raise(ensemble, nitrite_oxidisers, per_l * nitrite_oxidisers_mg_cod, {});
}

void seed_filter_share(Ensemble& ensemble, double share_fraction, double removal_mg_n_per_l_per_day) {
  // In a steady filter growth only makes good what dies: yield x removal = decay x biomass.
  const auto settle = [&](Quantity biomass, Parameter yield, Parameter decay) {
    const auto x = ensemble.column(biomass);
    const auto y = ensemble.column(yield);
    const auto b = ensemble.column(decay);
    for (std::size_t i = 0; i < x.size(); ++i) x[i] += share_fraction * y[i] * removal_mg_n_per_l_per_day / b[i];
  };
  settle(ammonia_oxidisers, Parameter::ammonia_oxidiser_yield, Parameter::ammonia_oxidiser_decay);
  settle(nitrite_oxidisers, Parameter::nitrite_oxidiser_yield, Parameter::nitrite_oxidiser_decay);
}

}  // namespace redd::tank
