#pragma once
// What is believed of a tank's rates before its first reading: one table, drawn from published ranges and fitted to no tank's record.
// Start at sample_prior().

#include <array>
#include <string_view>

#include "numerics/random.h"
#include "tank/ensemble.h"

namespace redd::tank {

enum class PriorShape { lognormal, normal, beta };

/// One parameter's prior. Lognormal: `middle` is the median and `spread` the sd of its logarithm. Normal: mean and sd. Beta: mean, and
/// `spread` is the sum of its two counts. Values outside low-high are drawn again.
struct Prior {
  Parameter parameter;
  std::string_view name;
  PriorShape shape;
  double middle;
  double spread;
  double low;
  double high;
  std::string_view source;
};

/// Number of parameters with a prior: all but the two activities, which start at one and move by process noise.
inline constexpr std::size_t prior_count = parameter_count - 2;

/// The table, in the order of Parameter. Filter capacity and gas transfer depend on the tank and are set by `TankPrior`.
/// Source  Each row names what its range rests on; the medians and spreads are our judgement of those ranges.
inline constexpr std::array<Prior, prior_count> priors{{
    {Parameter::ammonia_oxidiser_growth, "growth of ammonia oxidisers, 1/day", PriorShape::lognormal, 0.75, 0.30, 0.1, 4.0, "sin2008, hiatt2008, rittmann2001"},
    {Parameter::ammonia_oxidiser_growth_theta, "factor of that growth a degree", PriorShape::normal, 1.080, 0.015, 1.03, 1.12, "knowles1965, vannecke2015, salvetti2006"},
    {Parameter::ammonia_oxidiser_decay, "decay of ammonia oxidisers, 1/day", PriorShape::lognormal, 0.10, 0.35, 0.01, 0.6, "sin2008, hiatt2008, rittmann2001"},
    {Parameter::ammonia_oxidiser_yield, "ammonia oxidisers grown, mg COD/mg N", PriorShape::lognormal, 0.17, 0.15, 0.08, 0.30, "sin2008, hiatt2008"},
    {Parameter::ammonia_half_saturation, "ammonia at half rate, mg N/L", PriorShape::lognormal, 0.5, 0.7, 0.01, 6.0, "sin2008, rittmann2001"},
    {Parameter::ammonia_oxidiser_oxygen_half_saturation, "oxygen at half rate of ammonia oxidisers, mg/L", PriorShape::lognormal, 0.5, 0.35, 0.05, 3.0, "sin2008, hiatt2008"},
    {Parameter::nitrite_oxidiser_growth, "growth of nitrite oxidisers, 1/day", PriorShape::lognormal, 0.70, 0.30, 0.1, 4.0, "sin2008, hiatt2008, rittmann2001"},
    {Parameter::nitrite_oxidiser_growth_theta, "factor of that growth a degree", PriorShape::normal, 1.060, 0.012, 1.02, 1.10, "knowles1965, vannecke2015"},
    {Parameter::nitrite_oxidiser_decay, "decay of nitrite oxidisers, 1/day", PriorShape::lognormal, 0.10, 0.35, 0.01, 0.6, "sin2008, hiatt2008"},
    {Parameter::nitrite_oxidiser_yield, "nitrite oxidisers grown, mg COD/mg N", PriorShape::lognormal, 0.06, 0.20, 0.02, 0.15, "sin2008, hiatt2008"},
    {Parameter::nitrite_half_saturation, "nitrite at half rate, mg N/L", PriorShape::lognormal, 0.4, 0.8, 0.01, 6.0, "sin2008, rittmann2001"},
    {Parameter::nitrite_oxidiser_oxygen_half_saturation, "oxygen at half rate of nitrite oxidisers, mg/L", PriorShape::lognormal, 0.9, 0.35, 0.1, 4.0, "sin2008, hiatt2008"},
    {Parameter::free_ammonia_inhibition, "un-ionized ammonia that halves nitrite oxidation, mg N/L", PriorShape::lognormal, 0.5, 0.7, 0.03, 10.0, "park2009, hiatt2008"},
    {Parameter::decay_theta, "factor of decay a degree", PriorShape::normal, 1.05, 0.02, 1.02, 1.12, "hiatt2008, and a public benchmark file: 1.029 to 1.116"},
    {Parameter::alkalinity_half_saturation, "alkalinity at half rate, meq/L", PriorShape::lognormal, 0.5, 0.5, 0.05, 3.0, "wastewater practice, from memory"},
    {Parameter::ammonification, "ammonification, 1/day", PriorShape::lognormal, 0.5, 0.7, 0.02, 10.0, "assumed: food and faeces rot in days"},
    {Parameter::filter_capacity, "most nitrogen turned over, mg N/L/day at 20 C", PriorShape::lognormal, 2.0, 0.6, 0.01, 300.0, "TankPrior"},
    {Parameter::gas_transfer, "oxygen exchange, 1/day", PriorShape::lognormal, 50.0, 0.5, 2.0, 400.0, "assumed: an air stone or a spray bar, 20 to 100"},
    {Parameter::cold_shock_sensitivity, "activity lost to 10 C of sudden cooling", PriorShape::beta, 0.2, 10.0, 0.0, 1.0, "hwang2007"},
    {Parameter::cold_shock_recovery, "recovery from it, days", PriorShape::lognormal, 10.0, 0.5, 1.0, 60.0, "assumed: about the time of two doublings in the cold"},
    {Parameter::load_factor, "true load over the planned one", PriorShape::lognormal, 1.0, 0.3, 0.2, 5.0, "excretion measured and derived for one stage spreads by a factor of two (load.h)"},
}};

/// Correlation of the logarithms of growth and decay within each group: published sets that put growth high put decay high too.
/// Assumed: 0.5; the sets of [hiatt2008], [rittmann2001] and [sin2008] are too few to say more than the sign.
inline constexpr double growth_decay_correlation = 0.5;

/// What the tank itself says before any reading.
struct TankPrior {
  double volume_l = 200.0;
  double media_area_m2 = 1.0;        ///< colonisable surface of the filter's media
  bool seeded = false;               ///< living media from another tank was put in
  double seeded_removal_mg_n_per_l_per_day = 1.0;  ///< what that filter was fed, as far as known
  double gas_transfer_per_day = 50.0;
  double temperature_c = 24.0;
};

/// Median and spread of the most that media turn over with ammonia in plenty, g N a square metre and day.
///
/// Source  Filters are rated 0.1-0.6 g N a square metre and day (taken as a 90 % range, median 0.245) at about 1 mg N/L: areal rates at
///         15-27 C of [zhu1999] and [prehn2012] and design tables of recirculating aquaculture.
/// Assumed: at 1 mg N/L the model with median rates runs at half its most (Monod term 2/3, less decay over growth), so the most is twice that.
inline constexpr double rated_over_most_fraction = 0.5;
inline constexpr double capacity_g_n_per_m2_per_day = 0.245 / rated_over_most_fraction;
inline constexpr double capacity_log_sd = 0.55;

/// First bacteria, mg COD/L: log10 normal for unseeded water; a share of a working filter when seeded. Nitrite oxidisers fewer.
/// Assumed: no count of an aquarium's first day was found; four powers of ten either way are 90 % of the prior.
inline constexpr double inoculum_log10_mean = -4.0;
inline constexpr double inoculum_log10_sd = 1.0;
inline constexpr double nitrite_oxidiser_ratio_median = 0.3;
inline constexpr double nitrite_oxidiser_ratio_log_sd = 0.8;
inline constexpr double seeded_share_low = 0.01, seeded_share_high = 0.10;

/// Process noise on each group's activity, sd of its logarithm over a day's square root; choose within.
inline constexpr double process_noise_low = 0.03, process_noise_high = 0.08;

/// One draw of the parameters.
TankParameters sample_parameters(const TankPrior& tank, numerics::RandomStream& random);
/// Density of the parameters under the prior, natural logarithm up to a constant; -infinity outside the ranges.
double log_prior_density(const TankPrior& tank, const TankParameters& parameters);
/// Puts first bacteria into a state that has none.
void sample_inoculum(const TankPrior& tank, const TankParameters& parameters, TankState& state, numerics::RandomStream& random);

/// Every particle anew: parameters and first bacteria drawn, the water as given.
///
/// In      water: the state on the first day; its bacteria are ignored.  seed, purpose: name the draw; particle i uses its own stream.
void sample_prior(Ensemble& ensemble, const TankPrior& tank, const TankState& water, std::uint64_t seed, std::uint32_t purpose = 0);

}  // namespace redd::tank
