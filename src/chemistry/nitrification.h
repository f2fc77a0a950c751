#pragma once
// What turning ammonia into nitrate costs the water: oxygen and alkalinity, by stoichiometry and without cell growth (which lowers
// both by a few percent). Source: balanced reactions NH4 + 1.5 O2 -> NO2 + 2 H + H2O and NO2 + 0.5 O2 -> NO3.

#include "chemistry/molar_masses.h"

namespace redd::chemistry {

/// mg of oxygen per mg of nitrogen.
inline constexpr double ammonia_to_nitrite_mg_o2_per_mg_n = 3.0 * molar_mass::oxygen / molar_mass::nitrogen;
inline constexpr double nitrite_to_nitrate_mg_o2_per_mg_n = molar_mass::oxygen / molar_mass::nitrogen;
inline constexpr double ammonia_to_nitrate_mg_o2_per_mg_n = ammonia_to_nitrite_mg_o2_per_mg_n + nitrite_to_nitrate_mg_o2_per_mg_n;
/// meq of alkalinity per mg of nitrogen; all of it in the first step.
inline constexpr double nitrification_alkalinity_meq_per_mg_n = 2.0 / molar_mass::nitrogen;

}  // namespace redd::chemistry
