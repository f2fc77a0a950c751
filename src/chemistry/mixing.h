#pragma once
// What comes of pouring two waters together. Dissolved things mix by volume; pH does not: it follows from the mixed alkalinity and
// inorganic carbon. Start at mixed().

#include <optional>

#include "chemistry/carbonate.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::chemistry {

/// Amount per litre (or any conserved quantity) after mixing.
constexpr double mixed_value(double fraction_a, double a, double b) { return fraction_a * a + (1.0 - fraction_a) * b; }

/// The part of a water that decides its pH.
struct BufferedWater {
  Temperature temperature;
  Ph ph;
  Alkalinity alkalinity;
};

struct MixedWater {
  Temperature temperature;         ///< volume-weighted; fresh water's heat capacity is constant to 0.4 %
  CarbonateState just_mixed;       ///< closed: before any gas is exchanged
  CarbonateState after_aeration;   ///< open: in balance with the gas above
};

/// Mixture of two waters.
///
/// In      fraction_a: 0-1, by volume.  pco2_uatm: of the air the mixture is then aerated with, > 0.
/// Out     mixing a water with itself gives that water.
/// Errors  nothing when one of the waters cannot exist (see carbonate_from_ph()).
/// Source  Alkalinity and inorganic carbon are conserved in mixing (textbook aquatic chemistry, from memory); checked against PHREEQC [parkhurst2013].
std::optional<MixedWater> mixed(const BufferedWater& a, const BufferedWater& b, double fraction_a, double pco2_uatm = outdoor_co2_uatm);

/// Concentration after a number of equal water changes, each exchanging this fraction (0-1) for source water.
double after_water_changes(double now, double source, double fraction_changed, double changes);

/// Fraction to change at once to reach the target; nothing when the source water stands in the way (target not between now and source).
std::optional<double> fraction_to_reach(double now, double source, double target);

}  // namespace redd::chemistry
