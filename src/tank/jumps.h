#pragma once
// What happens to the tank in a moment: water changes, doses, deaths, filter washing, seeding. Each acts on every particle
// of an Ensemble; amounts are for the whole tank.

#include <span>

#include "quantities/temperature.h"
#include "tank/ensemble.h"

namespace redd::tank {

/// Water poured in. What the tap brings, after dechlorination.
struct SourceWater {
  double total_ammonia_mg_n_per_l = 0.0;    ///< ammonia as such
  double chloramine_mg_per_l = 0.0;         ///< as Cl2; its nitrogen stays as ammonia when neutralised
  double nitrite_mg_n_per_l = 0.0;
  double nitrate_mg_n_per_l = 0.0;
  double organic_mg_n_per_l = 0.0;
  double alkalinity_meq_per_l = 0.0;
  double inorganic_carbon_mmol_per_l = 0.0; ///< see air_balanced_carbon_mmol_per_l() when only alkalinity is known
  double oxygen_mg_o2_per_l = 0.0;
  double hardness_meq_per_l = 0.0;
};
/// Inorganic carbon of a water that has stood with air.
double air_balanced_carbon_mmol_per_l(Temperature temperature, double alkalinity_meq_per_l,
                                      double air_co2_uatm = chemistry::outdoor_co2_uatm);
/// Distilled or rain water in balance with air, as used to top up.
SourceWater pure_water(Temperature temperature);

/// `volume_l` of tank water replaced by source water (at most all of it). The filter stays.
void change_water(Ensemble& ensemble, double volume_l, const SourceWater& source);
/// Water added without taking any out (top-up).
void add_water(Ensemble& ensemble, double volume_l, const SourceWater& source);

/// Amounts stirred in, for the whole tank.
struct Dose {
  double ammonium_chloride_mg_n = 0.0;      ///< raises ammonia, not alkalinity
  double ammonia_solution_mg_n = 0.0;       ///< raises alkalinity by one equivalent a mole as well
  double nitrite_mg_n = 0.0;                ///< as sodium nitrite
  double nitrate_mg_n = 0.0;
  double bicarbonate_meq = 0.0;             ///< sodium bicarbonate: alkalinity and carbon
  double hardness_meq = 0.0;
  double organic_mg_n = 0.0;                ///< dead eggs or fish left in, food spilled
};
void add_dose(Ensemble& ensemble, const Dose& dose);
/// One amount a particle, so that an uncertain dose can be told; dose_factors is size() long and multiplies all of it.
void add_dose(Ensemble& ensemble, const Dose& dose, std::span<const double> dose_factors);

/// Organic nitrogen of dead eggs or alevins that stay in the tank.
/// Source  About 41 mg dry mass a trout egg (From & Rasmussen 1991), of it 60 % protein at 16 % nitrogen: 4 mg N each.
inline constexpr double dead_egg_mg_n = 4.0;

/// Filter washed, media taken out, a pump left off: this share of both groups of bacteria (and of debris) is lost.
void lose_filter(Ensemble& ensemble, double lost_fraction);
/// One share a particle, for an uncertain loss.
void lose_filter(Ensemble& ensemble, std::span<const double> lost_fractions);

/// Media or starter brought in: bacteria for the whole tank.
void seed_filter(Ensemble& ensemble, double ammonia_oxidisers_mg_cod, double nitrite_oxidisers_mg_cod);
/// Seeded media as a share of what would hold `removal_mg_n_per_l_per_day` steadily at 20 C, per particle by its own yield and decay.
void seed_filter_share(Ensemble& ensemble, double share_fraction, double removal_mg_n_per_l_per_day);

}  // namespace redd::tank
