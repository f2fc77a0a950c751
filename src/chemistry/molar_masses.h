#pragma once
// Molar masses of the salts and gases the keeper doses or measures, built from standard atomic weights (abridged values,
// IUPAC 2021), so that every dosing factor is arithmetic and not a copied number. Nitrogen species: quantities/nitrogen.h.

#include "quantities/nitrogen.h"

namespace redd::chemistry::molar_mass {

using redd::molar_mass::hydrogen;
using redd::molar_mass::nitrogen;
using redd::molar_mass::oxygen;
inline constexpr double carbon = 12.011;
inline constexpr double sodium = 22.990;
inline constexpr double magnesium = 24.305;
inline constexpr double sulfur = 32.06;
inline constexpr double chlorine = 35.45;
inline constexpr double calcium = 40.078;

inline constexpr double water = 2 * hydrogen + oxygen;
inline constexpr double co2 = carbon + 2 * oxygen;
inline constexpr double caco3 = calcium + carbon + 3 * oxygen;
inline constexpr double sodium_bicarbonate = sodium + hydrogen + carbon + 3 * oxygen;
inline constexpr double calcium_chloride_dihydrate = calcium + 2 * chlorine + 2 * water;
inline constexpr double magnesium_sulfate_heptahydrate = magnesium + sulfur + 4 * oxygen + 7 * water;
inline constexpr double ammonium_chloride = nitrogen + 4 * hydrogen + chlorine;
inline constexpr double sodium_thiosulfate_pentahydrate = 2 * sodium + 2 * sulfur + 3 * oxygen + 5 * water;
inline constexpr double cl2 = 2 * chlorine;

}  // namespace redd::chemistry::molar_mass
