#pragma once
// How fast fry grow: two rival published models, condition factor, egg and swim-up mass. Start at growth_models() and weight_after().
// Both models make a power of the weight rise by a step a day that depends on temperature alone, times a factor of the stock and its food.
// So days add up: whoever draws many factors sums the days once.

#include <array>
#include <string_view>

#include "biology/species.h"
#include "quantities/temperature.h"
#include "quantities/time.h"
#include "quantities/water.h"

namespace redd::biology {

/// One growth model: weight^exponent (g) rises by factor * rise_per_day() a day.
struct GrowthModel {
  enum class Form { thermal_coefficient, elliott };
  std::string_view key = {};     ///< of docs/references.bib
  std::string_view name = {};    ///< in a keeper's words
  Form form = Form::thermal_coefficient;
  double exponent = 1.0 / 3.0;   ///< b of the paper
  double elliott_c = 0.0;        ///< c: growth of a 1 g fish at its best temperature, % a day
  Temperature no_growth_below = Temperature::from_c(0.0);  ///< TL
  Temperature best = Temperature::from_c(14.0);            ///< TM
  Temperature no_growth_above = Temperature::from_c(14.0); ///< TU
  Temperature fitted_low = Temperature::from_c(4.0), fitted_high = Temperature::from_c(14.0);  ///< water in which it is held to be good
  Mass lightest = Mass::from_g(0.1), heaviest = Mass::from_g(500.0);  ///< fish it was fitted to
  bool own_species = true;              ///< false: fitted to another species and lent
  Estimate<double> factor = {0.6, 1.0, 1.4, Support::assumed};  ///< of fish in a hatchery, fed to satiation; log-normal
  std::string_view source = {};
};

/// The two rivals for a species: the thermal growth coefficient, then Elliott's model.
///
/// Source  Thermal growth coefficient: W^(1/3) rises by GC T/1000 a day [iwama1981], GC of the species' own profile. Not beyond 14 C:
///         the coefficient fails near the optimum for growth [jobling2003]; held to 4-14 C here.
///         Elliott: brown trout 1-300 g on natural food [elliott1995], Atlantic salmon [elliott1997]; constants from memory.
///         Its factor for farmed fish on dry food, 1.1 to 2.7, worked back from published series (docs/science/growth.md).
std::array<GrowthModel, 2> growth_models(const SpeciesProfile& species);

/// What weight^exponent rises by in a day for a factor of 1: never negative; beyond the best temperature of the coefficient held at its value
/// there, of Elliott's falling to nothing.
double rise_per_day(const GrowthModel& model, Temperature water);

/// Weight after days whose rises add up to `rises`.
/// In      from > 0. rises, factor >= 0.
Mass weight_after(const GrowthModel& model, Mass from, double rises, double factor);

/// The same in constant water.
Mass weight_after(const GrowthModel& model, Mass from, Temperature water, Days days, double factor);

/// Whether the model's source covers this fish in this water.
bool in_fitted_range(const GrowthModel& model, Mass weight, Temperature water);

/// Thermal growth coefficient (times 1000) between two weighings; GC of [iwama1981].
/// In      weights and c_days (mean temperature times days) > 0.
double growth_coefficient(Mass from, Mass to, double c_days);

/// Condition factor: K = 100 W / L^3, W in g, L in cm from snout to fork.
double condition_factor(Mass weight, double length_mm);

/// Weight by length through a condition factor.
Mass weight_by_length(double length_mm, double condition);

/// Condition to be expected of a fish of this length when nobody weighed it; doubt about a tenth (one standard deviation).
/// Source  Of grown fish: C of length-weight tables [piper1982] (from memory). Of rainbow fry 0.8 at 25 mm and 1.03 from 40 mm (individual
///         data, Sadoul and Augustine), carried to other species in proportion.
double usual_condition(const SpeciesProfile& species, double length_mm);
inline constexpr double usual_condition_log_sd = 0.1;

/// Mass of a fresh egg, from the species' fry at swim-up.
/// Source  swim-up fry / fresh egg, wet: 0.1665/0.1007 g rainbow trout at 10 C ([from1991], Tables 1-2), 0.515/0.345 g chinook (Beacham and
///         Murray 1990): 1.65 and 1.49, 1.57 taken.
Estimate<Mass> egg_mass(const SpeciesProfile& species);

}  // namespace redd::biology
