#pragma once
// Whether a nitrite or nitrate test was entered on the wrong basis: "as nitrogen" where its card counts the whole molecule, or the other
// way round (a factor of 3.3 or 4.4). Start at basis_checks(). Costs a small run of the sampler a test, so it is asked for, not always done.

#include <string>
#include <vector>

#include "inference/filter_posterior.h"

namespace redd::inference {

struct BasisCheck {
  std::string kit{}, test{};
  records::Quantity quantity = records::Quantity::nitrate;
  records::TestUnit entered = records::TestUnit::mg_n_per_l;
  records::TestUnit other = records::TestUnit::mg_n_per_l;
  double log_evidence_gain = 0;  ///< logarithm of how many times likelier all readings are on the other basis
  bool likely_wrong = false;
  Sentence sentence{};           ///< when likely wrong
  std::vector<records::RecordId> records{};
};

/// Gain from which a basis is called likely wrong.
/// Assumed: 5, a factor of 150: one kit in twenty is entered wrongly, and the sampler's evidence is good to about one either way.
inline constexpr double wrong_basis_log_gain = 5.0;

/// In      settings: of the small runs; 512 particles are enough for a factor of 150.
/// Out     one row a nitrite or nitrate test with readings. Ammonia is left out: its bases differ by a fifth, less than a kit's own error.
std::vector<BasisCheck> basis_checks(const FilterSeason& season, const SmcSettings& settings);

}  // namespace redd::inference
