#pragma once
// Who is in the tank, as an emergency or a load asks it: hatching turns days of grace into minutes, so a brood counts as what its most helpless
// animals may be. Start at life_of().

#include <array>
#include <span>
#include <string_view>

#include "inference/belief.h"
#include "quantities/estimate.h"
#include "records/record.h"
#include "tank/load.h"

namespace redd::planning {

enum class Life { none, eggs, eggs_near_hatch, alevins, alevins_near_emergence, fry };
inline constexpr std::array all_lives{Life::none, Life::eggs, Life::eggs_near_hatch, Life::alevins, Life::alevins_near_emergence, Life::fry};

/// Eggs of which the first tenth may hatch within three days, or whose dates nobody knows, count as near hatch; alevins of which the first tenth
/// may swim up within a week, or whose dates nobody knows, as near emergence. Assumed: both margins.
Life life_of(const inference::Belief& belief);

/// "eggs", "eggs near hatch", "alevins", ...; "eggs" to come while there are none.
std::string_view word_of(Life life);
bool are_eggs(Life life);
/// Eggs and alevins, in their basket; fry swim in the tank.
bool in_basket(Life life);

/// Animals still in the tank by the log: received, less what died and what was released; at least one. The eggs expected while there are none; 200 when
/// nobody said.
int count_of(const records::SeasonSetup& season, const inference::Belief& belief);
/// Whether nobody said how many, so that count_of() is no more than a number to reckon with.
bool count_is_assumed(const records::SeasonSetup& season, const inference::Belief& belief);

/// Oxygen the whole brood breathes at rest, mg/h: low, likely and high of what may be in the tank. Zero without animals.
///
/// Source  tank/load.h. Eggs as near hatch, where they breathe most; alevins near emergence as the hungrier of an alevin and a fry of 0.17 g, the wet
///         mass at the end of the yolk in [from1991]. Near hatch: high when all are out, low when none is.
Estimate<double> oxygen_use_mg_o2_per_h(Life life, int count, const Estimate<double>& fry_g, double hatched_fraction, Temperature water);

}  // namespace redd::planning
