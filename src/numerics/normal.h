#pragma once
// The normal distribution: density, tail areas, quantile, and probabilities of intervals that keep their digits far out
// in the tails (a coarse reading is an interval, and its likelihood must not become zero by rounding).

namespace redd::numerics {

/// Standard normal density.
double normal_density(double z);

/// Probability that a standard normal value is at most z. Relative accuracy holds in the lower tail.
double normal_cdf(double z);

/// z with normal_cdf(z) = probability.
///
/// In      probability: 0-1.
/// Out     -infinity at 0 and +infinity at 1; relative error about 1e-15 between.
/// Errors  NaN outside 0-1.
/// Source  [wichura1988], algorithm AS 241, PPND16.
double normal_quantile(double probability);

/// Probability of low < Z <= high; ends may be infinite. Zero when high <= low.
/// Differs: taken from the tail in which both ends lie, so that a far interval keeps its relative accuracy.
double normal_probability_between(double low, double high);

/// Natural logarithm of the above; finite far beyond the point where the probability itself underflows (about 38 sd).
/// Out     -infinity when high <= low.
double log_normal_probability_between(double low, double high);

}  // namespace redd::numerics
