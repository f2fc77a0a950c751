#pragma once
// Ammonia, organic nitrogen and oxygen demand of eggs, alevins and fry, as a day's forcing. Start at add_brood().
// All at the tank's temperature; published values near 10 C carried by a common temperature factor.

#include "tank/forcing.h"

namespace redd::tank {

enum class Stage { egg, alevin, fry };

/// One batch of animals on one day.
struct Brood {
  Stage stage = Stage::egg;
  double count = 0.0;
  double stage_share_fraction = 0.5;    ///< how far through the stage, 0-1; eggs give off little at first and most before hatch
  double egg_mass_mg = 100.0;           ///< of a fresh egg; excretion scales with it
  double fry_mass_g = 0.2;
  double feed_g_per_day = 0.0;          ///< for the whole batch
  double feed_protein_fraction = 0.5;
  double eaten_fraction = 0.9;          ///< the rest rots in the tank
};

/// Ammonia given off by the batch, mg N a day.
///
/// Source  Eggs and alevins: dry mass lost by trout eggs of 0.1 g at 10 C, 2.6 mg in 32 days to hatch and 6.7 mg in the next 22
///         ([from1991], Tables 1-2), of it 60 % protein at 16 % nitrogen: 7.8 and 29 ug N a day in the mean. Eggs on a straight ramp from
///         nothing to twice the mean.  Fry: 0.07 g N/(kg day) fasting ([vanweerd1995]), and 0.092 x protein of what is eaten (recirculating
///         aquaculture practice, [timmons2007], from memory).
double excretion_mg_n_per_day(const Brood& brood, double temperature_c);

/// Nitrogen of uneaten food and faeces, mg N a day, that rots.
///
/// Source  Uneaten: protein at 16 % nitrogen. Faeces: 10 % of what is eaten (digestibility of fish meal protein about 90 %, from memory).
double organic_mg_n_per_day(const Brood& brood);

/// Oxygen breathed by the batch, mg a day.
///
/// Source  Fry: 3.155 W^0.924 umol/h at 4 C and 6.509 W^0.925 at 12 C, fits to [wieser1985] (W in g), joined by Q10 2.47.
///         Alevins 0.57 mg a day at 10 C and 0.1 g egg (from the dry mass they lose); eggs 4 ug/h near hatch (from memory), on the ramp.
double oxygen_use_mg_o2_per_day(const Brood& brood, double temperature_c);

/// Adds the batch to a day.
void add_brood(DayForcing& day, const Brood& brood);

}  // namespace redd::tank
