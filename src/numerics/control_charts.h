#pragma once
// Control charts for a series that should stay at a target: the statistics of EWMA, CUSUM and Shewhart charts, and how long
// each runs on average until it signals. Everything is in units of the readings' standard deviation unless it says so;
// run lengths count readings, not days, and assume independent normal readings.
// Start at ewma_run_length(), cusum_run_length() or ewma_of().

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace redd::numerics {

enum class Sides { one, two };  ///< one: upper side only

/// Average run length of an EWMA chart with fixed (asymptotic) limits, started at the target.
///
/// In      lambda: 0.001-1, weight of the newest reading.  limit: > 0, the limit's distance from the target in standard
///         deviations of the statistic (often called L).  shift: true mean minus target.
///         Sides::one: the statistic is kept from falling below the target (reflected there).
/// Out     expected number of readings up to and including the signal, >= 1; nothing when it exceeds 1e12 (the equations
///         are then singular to rounding) or the inputs lie outside the ranges above.
/// Source  [crowder1987], integral equation of the run length, solved by Gauss-Legendre quadrature; relative error below 1e-6 for run lengths up to 1e6.
std::optional<double> ewma_run_length(double lambda, double limit, double shift, Sides sides);

/// Average run length of a CUSUM chart.
///
/// In      k: >= 0, reference value (allowance).  h: > 0, up to 100, decision limit.  shift: true mean minus target.
///         head_start: 0-h, where both sums begin.
/// Out     expected number of readings up to the signal; nothing when it exceeds 1e12 or inputs are out of range.
///         Sides::two combines both sums: 1/ARL = 1/ARL+ + 1/ARL-, with the head-start term of the source.
/// Source  Integral equation of [page1954]; two-sided combination [lucas1982].
std::optional<double> cusum_run_length(double k, double h, double shift, Sides sides, double head_start = 0.0);

/// Average run length of a Shewhart chart with limits at +- limit standard deviations.
std::optional<double> shewhart_run_length(double limit, double shift, Sides sides);

/// The supplementary rules of a Shewhart chart; limit 3 is always in force.
struct RunsRules {
  bool two_of_three_beyond_two = false;   ///< two of three successive readings beyond 2 sd on the same side
  bool four_of_five_beyond_one = false;   ///< four of five beyond 1 sd on the same side
  bool eight_on_one_side = false;
};
/// Average run length of a two-sided 3-sd chart with runs rules. Source [champ1987], exact Markov chain.
std::optional<double> shewhart_rules_run_length(RunsRules rules, double shift);

/// The EWMA limit that gives this in-control run length; nothing when there is none in 0.1-10.
std::optional<double> ewma_limit_for(double lambda, double run_length, Sides sides);
/// The CUSUM decision limit that gives this in-control run length; nothing when there is none in 0.01-50.
std::optional<double> cusum_limit_for(double k, double run_length, Sides sides);

/// One point of a chart, in the readings' own unit.
struct ChartPoint {
  double statistic;
  double lower_limit;
  double upper_limit;
  bool signals;  ///< the statistic lies beyond a limit
};

/// EWMA of each reading: z = lambda x + (1 - lambda) z, from z = target.
/// Limits widen from the first reading to their asymptote: target +- limit sd sqrt(lambda/(2-lambda) (1-(1-lambda)^(2i))).
/// Source  [nist2012] 6.3.2.4.  `fixed_limits` takes the asymptote from the start.
std::vector<ChartPoint> ewma_of(std::span<const double> values, double target, double sd, double lambda, double limit,
                                bool fixed_limits = false);

/// Upper and lower cumulative sums after each reading, in the readings' unit.
struct CusumPoint {
  double high;
  double low;
  bool signals;
};
/// Source  [nist2012] 6.3.2.3: high = max(0, high + x - target - k sd), low = max(0, low + target - k sd - x); signal above h sd.
std::vector<CusumPoint> cusum_of(std::span<const double> values, double target, double sd, double k, double h);

/// Standard deviation of single readings from the mean absolute difference of neighbours: mean moving range / 1.128.
/// Out     nothing for fewer than two values.  Source  [nist2012] 6.3.2.2; 1.128 is the tabulated d2 for n = 2.
std::optional<double> sd_from_moving_range(std::span<const double> values);

}  // namespace redd::numerics
