#pragma once
// How sure a share is that was found by counting, and how many there are when only a part was looked at. Start at exact_share().

namespace redd::numerics {

/// A central interval and its middle: 0 <= low <= mid <= high.
struct Range90 {
  double low = 0;
  double mid = 0;
  double high = 0;
};

/// Regularised incomplete beta function: the share of a beta(a, b) distribution below x.
///
/// In      x: 0-1.  a, b: > 0, up to 1e7.
/// Out     0-1, rising in x; absolute error about 1e-13 for a, b up to 1e4, 1e-10 beyond.
/// Errors  NaN outside the ranges.
/// Source  Continued fraction 8.17.22 of [dlmf2010], Lentz's method.
double beta_share(double x, double a, double b);

/// The exact (Clopper-Pearson) interval of a share. It covers the true share at least as often as it says, in any lot however small.
///
/// In      hits: 0-trials.  trials: >= 1; need not be whole (an effective number).  level: 0.5-0.9999, e.g. 0.9.
/// Out     mid = hits / trials.
/// Source  [clopper1934], in the beta form of [brown2001], section 4.2.1.
Range90 exact_share(double hits, double trials, double level = 0.9);

/// How many there are in all when `seen` were found in a part of the places they may be.
///
/// In      seen: >= 0.  looked_at_fraction: above 0, at most 1.  clump: >= 1, how many lie together and are found or missed together.
///         level: as above.
/// Out     mid = seen / looked_at_fraction; low >= seen; all three equal seen when everything was looked at.
/// Source  binomial in the number of clumps, its unknown total by turning round the two tails as in [clopper1934].
Range90 total_from_part(double seen, double looked_at_fraction, double clump = 1.0, double level = 0.9);

}  // namespace redd::numerics
