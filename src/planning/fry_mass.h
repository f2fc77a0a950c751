#pragma once
// What one fry weighs on a day of the whole season. Start at fry_mass_g().

#include <optional>
#include <span>

#include "inference/growth_belief.h"

namespace redd::planning {

/// Growth coefficient of the line below: slow, usual, fast.
/// Source  [iwama1981]: 1 is the published line; 0.6-1.4 spans coefficients worked out from published growth of trout and salmon, as
///         1.3 of trout at 8.5 C ([sadoul_growth]).
inline constexpr Estimate<double> growth_coefficient{0.6, 1.0, 1.4, Support::assumed};

/// Sum of the daily means above 0 C from one day up to the other, that one not counted. Days before the first on record count as the first, later ones as
/// the last; without any 10 C is taken.
double thermal_sum_c_days(std::span<const biology::DailyTemperature> days, Date from, Date to);

/// Mass after so much warmth: W^(1/3) rises by GC/1000 a C-day.
///
/// In      from_g > 0. c_days: the low end goes with slow growth.
/// Source  [iwama1981]. Below some 14 C, for fish fed to appetite: short rations grow less.
Estimate<double> grown_g(const Estimate<double>& from_g, const Estimate<double>& c_days);

/// Wet mass of one fry on a day, g: as believed of growth (inference/growth_belief.h), beyond its eight weeks along the line above; where nothing is
/// believed, along the line from swim-up.
///
/// Out     low: swum up at the latest and slow; high: at the earliest and fast. Without dates 0.1, 0.3 and 1 g.
Estimate<double> fry_mass_g(const inference::Belief& belief, const std::optional<inference::GrowthBelief>& growth, Date day);

/// The species' weight at swim-up; where it is not known 0.15 g, between 0.1 and 0.25 g. Assumed.
Estimate<double> swim_up_g(const inference::Belief& belief);

}  // namespace redd::planning
