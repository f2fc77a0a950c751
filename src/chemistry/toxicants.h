#pragma once
// Two tap-water poisons that a school meets: copper from pipes and monochloramine from the utility.

#include "quantities/water.h"

namespace redd::chemistry {

/// Copper criteria, micrograms per litre of total copper (dissolved: times 0.960). Soft water is the dangerous one.
///
/// In      hardness: 25-400 mg/L as CaCO3.
/// Source  [epa_copper1985], hardness equations. Differs: later US documents lower them and use a ligand model.
double copper_acute_ug_per_l(Hardness hardness);
double copper_chronic_ug_per_l(Hardness hardness);
inline constexpr double dissolved_share_of_copper = 0.960;
bool copper_in_fitted_range(Hardness hardness);

/// Monochloramine that kills half of juvenile chinook within a time, micrograms per litre as Cl2. A lethal level, not a safe one.
///
/// In      minutes: up to 10 days (14400).
/// Source  [farrell2001].
double monochloramine_lc50_ug_per_l(double minutes);
/// The same equation the other way: minutes after which half are dead. In: above 0.
double monochloramine_minutes_to_lc50(double ug_per_l);

}  // namespace redd::chemistry
