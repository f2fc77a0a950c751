#pragma once
// Oxygen that air brings into the tank, and where the water settles when animals and filter use it. Start at air_transfer(), then steady_oxygen().

#include <optional>

#include "quantities/estimate.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::planning {

/// What moves oxygen into the water.
struct AirSupply {
  std::optional<double> air_l_per_min{};  ///< blown through stones; nothing: not on record
  double stone_depth_m = 0.4;             ///< of the stones
  double surface_m2 = 0.5;
  double elevation_m = 0.0;
};

/// Air taken where none is on record: the poorest small stone, barely fed. Assumed.
inline constexpr double poorest_stone_l_per_min = 1.0;

/// Share of the air's oxygen that fine bubbles give to clean water without oxygen, at 20 C, from a stone 0.4 m down; in proportion to depth.
/// Source  common practice, no source (from memory): typical 1.5 %, of a range of 0.5 to 3 %. A stone nobody described counts as the poorest.
inline constexpr Estimate<double> stone_efficiency_fraction{0.005, 0.015, 0.03, Support::assumed};
inline constexpr Estimate<double> poorest_efficiency_fraction{0.003, 0.005, 0.015, Support::assumed};

/// Oxygen in a flow of air at 20 C, mg/h.
/// Source  density of air 1.204 g/L at sea level, of it 23.1 % oxygen by mass.
double oxygen_in_air_mg_o2_per_h(double air_l_per_min, double elevation_m = 0.0);

/// Transfer at a temperature over that at 20 C. Source  1.024 a degree: common engineering practice, from memory.
double transfer_warmth(Temperature water);

/// Oxygen brought in for each mg/L that the water is short of saturation: mg/h per mg/L, so litres an hour made full.
///
/// Out     stones and surface together. kLa of the whole tank is this over its volume.
/// Source  Standard form of aeration: standard transfer x alpha x 1.024^(T-20) over the saturation at 20 C. alpha, tank water against clean water:
///         0.6 to 1, middle 0.85 (common practice, no source). Surface kept moving by pump and bubbles: 0.02 to 0.2 m/h, middle 0.05 (assumed; a
///         quiet one: still_water.h).
Estimate<double> air_transfer_l_per_h(const AirSupply& air, Temperature water);

/// Where the water settles: saturation less what is used over what each mg/L brings in. Never below zero.
Estimate<OxygenConc> steady_oxygen(OxygenConc saturation, const Estimate<double>& use_mg_o2_per_h, const Estimate<double>& transfer_l_per_h);

/// What a reading says of the transfer: at rest, use over what the water is short of. Narrows `before`; a reading at saturation gives no upper end.
///
/// In      read: low, middle, high of the reading. use: of the day it was read.
Estimate<double> learnt_transfer_l_per_h(const Estimate<double>& before_l_per_h, OxygenConc saturation, const Estimate<OxygenConc>& read, const Estimate<double>& use_mg_o2_per_h);

/// How many animals keep the water at `limit` or above; zero where even full water does not reach it.
Estimate<double> carried_by_oxygen(OxygenConc saturation, OxygenConc limit, const Estimate<double>& transfer_l_per_h, const Estimate<double>& use_of_one_mg_o2_per_h);

}  // namespace redd::planning
