#pragma once
// What the tank's water and filter hold, and the rates that drive them: the names of the model's columns. TankState and TankParameters
// are one tank as plain suffixed numbers; an Ensemble (ensemble.h) holds many, one column a name.

#include <array>
#include <cstddef>

#include "quantities/nitrogen.h"
#include "quantities/water.h"

namespace redd::tank {

/// The columns of a state, in the order of TankState's members. The first eleven are integrated; hardness only moves by
/// water changes, top-up, evaporation and doses.
enum class Quantity : std::size_t {
  organic_nitrogen, total_ammonia, nitrite, nitrate, ammonia_oxidisers, nitrite_oxidisers, debris, oxygen, alkalinity,
  inorganic_carbon, cold_shock, hardness
};
inline constexpr std::size_t integrated_count = 11;
inline constexpr std::size_t quantity_count = 12;

/// One tank. Biomass is attached to the filter and counted per litre of tank water. Nothing is ever negative.
struct TankState {
  double organic_mg_n_per_l = 0.0;              ///< dissolved and fine organic nitrogen, on its way to ammonia
  double total_ammonia_mg_n_per_l = 0.0;
  double nitrite_mg_n_per_l = 0.0;
  double nitrate_mg_n_per_l = 0.0;
  double ammonia_oxidisers_mg_cod_per_l = 0.0;
  double nitrite_oxidisers_mg_cod_per_l = 0.0;
  double debris_mg_cod_per_l = 0.0;             ///< what is left of dead bacteria; holds nitrogen, does nothing
  double oxygen_mg_o2_per_l = 0.0;
  double alkalinity_meq_per_l = 0.0;
  double inorganic_carbon_mmol_per_l = 0.0;
  double cold_shock_fraction = 0.0;             ///< share of activity still lost to a sudden chill, 0-1
  double hardness_meq_per_l = 0.0;

  NitrogenConc total_ammonia() const { return NitrogenConc::from_mg_n_per_l(total_ammonia_mg_n_per_l); }
  NitrogenConc nitrite() const { return NitrogenConc::from_mg_n_per_l(nitrite_mg_n_per_l); }
  NitrogenConc nitrate() const { return NitrogenConc::from_mg_n_per_l(nitrate_mg_n_per_l); }
  OxygenConc oxygen() const { return OxygenConc::from_mg_o2_per_l(oxygen_mg_o2_per_l); }
  Alkalinity alkalinity() const { return Alkalinity::from_meq_per_l(alkalinity_meq_per_l); }
  Hardness hardness() const { return Hardness::from_meq_per_l(hardness_meq_per_l); }
};

/// The columns of the parameters, in the order of TankParameters' members.
enum class Parameter : std::size_t {
  ammonia_oxidiser_growth, ammonia_oxidiser_growth_theta, ammonia_oxidiser_decay, ammonia_oxidiser_yield, ammonia_half_saturation,
  ammonia_oxidiser_oxygen_half_saturation,
  nitrite_oxidiser_growth, nitrite_oxidiser_growth_theta, nitrite_oxidiser_decay, nitrite_oxidiser_yield, nitrite_half_saturation,
  nitrite_oxidiser_oxygen_half_saturation, free_ammonia_inhibition,
  decay_theta, alkalinity_half_saturation, ammonification, filter_capacity, gas_transfer, cold_shock_sensitivity, cold_shock_recovery,
  load_factor, ammonia_oxidiser_activity, nitrite_oxidiser_activity
};
inline constexpr std::size_t parameter_count = 23;

/// Rates of one tank, at 20 C where they change with temperature. The defaults are the medians of prior.h.
struct TankParameters {
  double ammonia_oxidiser_growth_per_day = 0.75;
  double ammonia_oxidiser_growth_theta = 1.080;           ///< factor a degree
  double ammonia_oxidiser_decay_per_day = 0.10;
  double ammonia_oxidiser_yield_mg_cod_per_mg_n = 0.17;
  double ammonia_half_saturation_mg_n_per_l = 0.5;
  double ammonia_oxidiser_oxygen_half_saturation_mg_o2_per_l = 0.5;
  double nitrite_oxidiser_growth_per_day = 0.70;
  double nitrite_oxidiser_growth_theta = 1.060;
  double nitrite_oxidiser_decay_per_day = 0.10;
  double nitrite_oxidiser_yield_mg_cod_per_mg_n = 0.06;
  double nitrite_half_saturation_mg_n_per_l = 0.4;
  double nitrite_oxidiser_oxygen_half_saturation_mg_o2_per_l = 0.9;
  double free_ammonia_inhibition_mg_n_per_l = 0.5;        ///< un-ionized ammonia (as N) that halves nitrite oxidation
  double decay_theta = 1.050;
  double alkalinity_half_saturation_meq_per_l = 0.5;
  double ammonification_per_day = 0.5;
  double filter_capacity_mg_n_per_l_per_day = 5.0;        ///< most nitrogen the filled filter can turn over, at 20 C
  double gas_transfer_per_day = 50.0;                     ///< kLa of oxygen
  double cold_shock_sensitivity_fraction = 0.2;           ///< activity lost to 10 C of sudden cooling
  double cold_shock_recovery_days = 10.0;
  double load_factor = 1.0;                               ///< true load from animals and food over the planned one
  double ammonia_oxidiser_activity = 1.0;                 ///< process noise: multiplies the rate of oxidation; changed as time goes
  double nitrite_oxidiser_activity = 1.0;
};

}  // namespace redd::tank
