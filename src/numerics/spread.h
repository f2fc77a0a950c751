#pragma once
// How far repeated readings of the same thing lie apart.

#include <span>

namespace redd::numerics {

struct Spread {
  int count = 0;
  double mean = 0;
  double lowest = 0, highest = 0;
  double standard_deviation = 0;  ///< of one reading: divided by count - 1; 0 of a single one
  double standard_error = 0;      ///< of the mean: standard_deviation / sqrt(count)
};

/// In      values: at least one.
/// Source  [gum2008], 4.2.2 (experimental standard deviation) and 4.2.3 (of the mean). Two passes, the second of differences from the mean.
Spread spread_of(std::span<const double> values);

/// Standard deviation of one reading from several groups of readings, each of its own thing: weighted by count - 1.
/// Out     0 without degrees of freedom.
double pooled_standard_deviation(std::span<const Spread> groups);
/// Where the true standard deviation may lie, given one found with so many degrees of freedom: 90 %, for normal errors.
///
/// In      degrees_of_freedom: at least 1.
/// Out     low <= sd <= high.
/// Source  chi-square quantiles: exact for 1 (a normal number squared) and 2 (exponential) degrees of freedom; from 3 on by [wilson1931], whose cube
///         root would be as good as nought at 1. The ends are within 4 % of those by the tables at 3, within 2 % from 4 on.
struct SpreadRange {
  double low = 0, high = 0;
};
SpreadRange standard_deviation_range(double sd, int degrees_of_freedom);

/// Readings less groups.
int degrees_of_freedom(std::span<const Spread> groups);

}  // namespace redd::numerics
