#pragma once
// A chart that watches counts of rare events (deaths a day) while the number expected changes. Start at CountWatch.
// A cumulative sum of what is more than expected: small excess day after day adds up, one more event on a single day does not.

#include <cstddef>
#include <optional>
#include <vector>

namespace redd::numerics {

/// What a count must exceed, each day, to add to the sum, when the chart should find a rate `ratio` times the expected one soonest.
///
/// In      expected: > 0.  ratio: > 1.
/// Out     between expected and ratio x expected.
/// Source  [lucas1985], eq. 2: the reference value of a Poisson CUSUM.
double poisson_allowance(double expected, double ratio);

/// Average run length of a one-sided Poisson CUSUM, S = max(0, S + count - allowance), that signals when S exceeds the limit.
///
/// In      mean: > 0, the true mean.  steps: >= 1, of one count; allowance and limit are taken in whole ones.
///         limit: > 0, at most 1500 steps.
/// Out     expected number of counts up to and including the signal, from S = 0; nothing beyond 1e12 or outside the ranges.
/// Source  [brook1972]: the chart as a Markov chain, here exact.
std::optional<double> poisson_cusum_run_length(double mean, double allowance, double limit, int steps = 1);

/// The chart with limits that follow the expected number, so that a false alarm is as rare on every day.
///
/// Before each count the limit is set to the lowest that a chart in control, which has not signalled until then, exceeds with a chance
/// of no more than the wished one. After a signal the sum begins anew at half the limit, so that what goes on signals again soon.
/// Source  [zhang2015], dynamic probability control limits, for Poisson counts; head start [lucas1982].
///         Differs: the distribution of the sum is carried on exactly, on steps of a fraction of a count, instead of simulated.
class CountWatch {
 public:
  /// In      false_alarm_per_day: 1e-6 to 0.1.  ratio: > 1, what should be found soonest.
  ///         largest_expected: of any one count; sets how far the sum is followed.
  CountWatch(double false_alarm_per_day, double ratio, double largest_expected);

  struct Point {
    double sum = 0;      ///< after this count
    double limit = 0;    ///< signals above it
    bool began = false;  ///< the sum was zero before: what signals later began here at the earliest
    bool signals = false;
  };
  /// The next count, of what gathered in `days` days.
  ///
  /// In      expected: > 0, of this count in control.  days: > 0.  count: >= 0.
  /// Shape   a few microseconds for a few deaths expected.
  Point next(double count, double expected, double days);

 private:
  long steps_of(double count) const;
  /// The chance of each step of the sum after a count of this mean, and in `beyond` of what lies past the last step.
  std::vector<double> carried(double expected, long take, double& beyond) const;

  double false_alarm_per_day_;
  double ratio_;
  double step_;
  std::size_t cells_;
  long sum_ = 0;          ///< in steps
  double owed_ = 0.0;     ///< part of a step that the allowances so far have left over
  std::vector<double> chance_;  ///< of each step of the sum, in control and without a signal so far
};

}  // namespace redd::numerics
