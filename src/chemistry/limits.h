#pragma once
// The marks a reading is held against, each with where it comes from. Ours to act on are named action_* and alarm_*; the rest is
// shown beside them. A school's permit or a licensed adviser may ask for stricter ones, and the keeper may lower any.

#include "quantities/nitrogen.h"
#include "quantities/water.h"

namespace redd::chemistry::limits {

// --- Un-ionized ammonia ---------------------------------------------------------------------------------------------

/// Act: long-standing fish-culture limit. Source [meade1985], who reviews it and finds it common but weakly founded.
inline constexpr NitrogenConc action_un_ionized_ammonia = NitrogenConc::from_mg_nh3_per_l(0.0125);
/// Alarm: imperative value for salmonid waters. Source [eu2006], annex I (from memory); the lethal level for trout eggs kept in it
/// from fertilisation, 0.027 mg/L in [solbe1989], lies just above. Eyed eggs are far hardier in the same study.
inline constexpr NitrogenConc alarm_un_ionized_ammonia = NitrogenConc::from_mg_nh3_per_l(0.025);
/// Source [eu2006], annex I, guide value (from memory).
inline constexpr NitrogenConc un_ionized_ammonia_eu_guide = NitrogenConc::from_mg_nh3_per_l(0.005);
/// Source [ccme2010], long-term guideline.
inline constexpr NitrogenConc un_ionized_ammonia_ccme = NitrogenConc::from_mg_nh3_per_l(0.019);
/// More than 70 % of trout eggs died in 73 days from fertilisation. Source [solbe1989].
inline constexpr NitrogenConc un_ionized_ammonia_killed_new_eggs = NitrogenConc::from_mg_nh3_per_l(0.027);
/// Growth of trout sac fry held back. Source [burkhalter1977], 0.05 mg/L as N.
inline constexpr NitrogenConc un_ionized_ammonia_slowed_sac_fry = NitrogenConc::from_mg_n_per_l(0.05);

// --- Nitrite: see nitrite.h for the limit against chloride ----------------------------------------------------------

/// Canadian guideline whatever the chloride. Source [ccme1987] (from memory).
inline constexpr NitrogenConc nitrite_ccme = NitrogenConc::from_mg_n_per_l(0.06);
/// Chloride that keeps nitrite out of the gills, mg Cl per mg NO2-N. Common practice in trout culture (17-20), from memory.
inline constexpr double protective_chloride_mg_per_mg_n = 20.0;

// --- Nitrate --------------------------------------------------------------------------------------------------------

/// Guideline mark: long-term. Source [ccme2012] (from memory), printed as 13 mg/L as NO3, 3.0 as N.
inline constexpr NitrogenConc nitrate_guideline = NitrogenConc::from_mg_no3_per_l(13.0);
/// Act mark. Assumed: 25 mg/L as NO3 (5.6 as N), below the 6.25 mg N/L at which timing or size of lake trout or whitefish
/// embryos first changed in [mcgurk2006].
inline constexpr NitrogenConc nitrate_act = NitrogenConc::from_mg_no3_per_l(25.0);
/// Ceiling: 40 mg/L as NO3. Common practice, no source; just under the 10 mg N/L found harmful over time in [camargo2005].
inline constexpr NitrogenConc nitrate_ceiling = NitrogenConc::from_mg_no3_per_l(40.0);

// --- Oxygen, pH, alkalinity, carbon dioxide -------------------------------------------------------------------------

/// Water-column minimum and seven-day mean for embryos and larvae. Source [epa_oxygen1986] (from memory).
inline constexpr OxygenConc oxygen_early_stage_minimum = OxygenConc::from_mg_o2_per_l(8.0);
inline constexpr OxygenConc oxygen_early_stage_week_mean = OxygenConc::from_mg_o2_per_l(9.5);
/// The same for older salmonids. Source [epa_oxygen1986] (from memory).
inline constexpr OxygenConc oxygen_later_stage_minimum = OxygenConc::from_mg_o2_per_l(4.0);
inline constexpr OxygenConc oxygen_later_stage_week_mean = OxygenConc::from_mg_o2_per_l(5.0);
/// Source [epa_gold1986], range for fresh-water life.
inline constexpr Ph ph_low = Ph::from_ph(6.5);
inline constexpr Ph ph_high = Ph::from_ph(9.0);
/// Largest man-made change of pH in salmonid waters. Source [eu2006], annex I, note a.
inline constexpr double ph_artificial_change = 0.5;
/// Least alkalinity for fresh-water life, 20 mg/L as CaCO3. Source [epa_gold1986].
inline constexpr Alkalinity alkalinity_least = Alkalinity::from_mg_caco3_per_l(20.0);
/// Alkalinity below which nitrification lacks buffer, 40 mg/L as CaCO3. Source [epa1975], as quoted in a thesis.
inline constexpr Alkalinity alkalinity_for_nitrification = Alkalinity::from_mg_caco3_per_l(40.0);
/// Free carbon dioxide, mg/L. Common clinical guidance for fish in general; growth of
/// steelhead embryos suffered above 28 mg/L in a thesis of Oregon State University (Putnam).
inline constexpr double co2_high_mg_per_l = 20.0;

// --- Chlorine and chloramine, as Cl2 --------------------------------------------------------------------------------

/// Total residual chlorine, one hour and four days. Source [epa_chlorine1984].
inline constexpr double chlorine_acute_mg_per_l = 0.019;
inline constexpr double chlorine_chronic_mg_per_l = 0.011;
/// Most that US tap water may carry (annual mean), free chlorine or chloramine alike. Source US drinking-water rule (MRDL).
inline constexpr double chlorine_us_tap_maximum_mg_per_l = 4.0;

}  // namespace redd::chemistry::limits
