#pragma once
// What one fry weighs on a day: a thermal growth line from swim-up, or from the newest sample that was weighed. Start at fry_mass_g().
// Kept apart and small, so that a fuller growth model can take its place.

#include <span>

#include "inference/belief.h"

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

/// Wet mass of one fry on a day, g. From swim-up, or the newest weighed sample by that day (its mean, a tenth either way: assumed).
///
/// Out     low: swum up at the latest and slow; high: at the earliest and fast. Without dates or a sample 0.1, 0.3 and 1 g.
Estimate<double> fry_mass_g(const inference::Belief& belief, std::span<const records::Record> records, const ZoneOffsets& zone, Date day);

/// The species' weight at swim-up; where it is not known 0.15 g, between 0.1 and 0.25 g. Assumed.
Estimate<double> swim_up_g(const inference::Belief& belief);

}  // namespace redd::planning
