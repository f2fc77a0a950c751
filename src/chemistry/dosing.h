#pragma once
// How much of a salt to weigh in. All by stoichiometry from molar masses. Pure dry salt of the stated hydrate; damp or technical
// salt is weaker. Change alkalinity slowly: raising pH raises un-ionized ammonia at the same total.

#include "chemistry/molar_masses.h"
#include "quantities/nitrogen.h"
#include "quantities/water.h"

namespace redd::chemistry {

/// mg of salt per meq raised.
inline constexpr double bicarbonate_mg_per_meq = molar_mass::sodium_bicarbonate;
inline constexpr double calcium_chloride_mg_per_meq = molar_mass::calcium_chloride_dihydrate / 2.0;
inline constexpr double magnesium_sulfate_mg_per_meq = molar_mass::magnesium_sulfate_heptahydrate / 2.0;
/// mg of chloride that comes with each meq of calcium (it also shields against nitrite).
inline constexpr double calcium_chloride_adds_chloride_mg_per_meq = molar_mass::chlorine;
/// mg of ammonium chloride per mg N.
inline constexpr double ammonium_chloride_mg_per_mg_n = molar_mass::ammonium_chloride / molar_mass::nitrogen;
/// mg of sodium thiosulfate pentahydrate per mg of chlorine (as Cl2), two thiosulfate to one Cl2 (to tetrathionate): the largest of the
/// published ratios. The same salt taken to sulfate would need an eighth, so a total-chlorine test after dosing decides, not the sum.
inline constexpr double thiosulfate_mg_per_mg_cl2 = 2.0 * molar_mass::sodium_thiosulfate_pentahydrate / molar_mass::cl2;
/// Ammonia set free when monochloramine is reduced, mg N per mg chloramine as Cl2.
inline constexpr double chloramine_releases_mg_n_per_mg_cl2 = molar_mass::nitrogen / molar_mass::cl2;

/// Sodium bicarbonate to raise alkalinity (KH) by this much.
Mass sodium_bicarbonate_for(Volume volume, Alkalinity raise);
/// Calcium chloride dihydrate to raise general hardness by this much.
Mass calcium_chloride_for(Volume volume, Hardness raise);
/// Magnesium sulfate heptahydrate to raise general hardness by this much.
Mass magnesium_sulfate_for(Volume volume, Hardness raise);
/// Ammonium chloride to raise total ammonia by this much (for ripening a filter, never with eggs or fish in the tank).
Mass ammonium_chloride_for(Volume volume, NitrogenConc raise);
/// Sodium thiosulfate pentahydrate for this much free chlorine or chloramine, mg/L as Cl2.
Mass thiosulfate_for(Volume volume, double chlorine_mg_per_l);
/// Total ammonia that chloramine leaves behind when neutralised.
NitrogenConc ammonia_released_by(double chloramine_mg_per_l);

}  // namespace redd::chemistry
