#pragma once
// Scoring rules for forecasts. All are losses: 0 is perfect, more is worse. All are proper: whoever forecasts what they believe expects the
// smallest loss, so there is nothing to win by hedging or bluffing. Start at interval_score() for ranges and ranked_probability_score() for
// probabilities of ordered classes. What they mean in a class: docs/science/lessons.md.

#include <span>

namespace redd::numerics {

/// Loss of the central interval that was to hold the value with probability 1 - missed_share: its width, and 2 / missed_share times the
/// distance by which the value lies outside.
///
/// In      low <= high; missed_share: above 0, below 1 (0.2 for an interval of 80 %).
/// Out     in the unit of the value.
/// Source  [gneiting2007], eq. 43.
double interval_score(double low, double high, double missed_share, double value);

/// The same where the value is known only as a range: the mean over values spread evenly along it. An honest forecaster is then best off
/// with the quantiles of what the instrument can show, each class of readings spread evenly; the rule stays proper for those.
///
/// In      value_low <= value_high, both finite.
/// Source  integral of interval_score(), exact.
double mean_interval_score(double low, double high, double missed_share, double value_low, double value_high);

/// Loss of probabilities for ordered classes: squared differences of the cumulative sums, added up over the classes.
///
/// In      probabilities: sum one.  outcome: one weight a class, sum one; all on one class, or shared where the outcome is known only as
///         several classes (then the mean loss over them, which keeps the rule proper).
/// Out     0 to classes - 1; for two classes the Brier score of the first, (p - o)^2.
/// Source  [epstein1969] as restated by [gneiting2007], section 4.2; two classes: [brier1950], half of his two-sided sum.
double ranked_probability_score(std::span<const double> probabilities, std::span<const double> outcome);

/// Loss of the whole distribution given by equally likely values: mean |x - value| less half the mean |x - x'|.
///
/// In      sorted: rising, at least one.
/// Out     in the unit of the value; the distance itself when there is one value.
/// Source  [gneiting2007], eq. 21.
double crps_of_sample(std::span<const double> sorted, double value);

/// The same of a normal distribution, in closed form.
/// Source  [gneiting2005], eq. 5; checked against crps_of_sample().
double crps_of_normal(double mean, double standard_deviation, double value);

}  // namespace redd::numerics
