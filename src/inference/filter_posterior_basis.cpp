#include "inference/filter_posterior_basis.h"

#include <algorithm>
#include <optional>

#include "quantities/verbatim.h"

namespace redd::inference {
namespace {

using records::TestUnit;

std::optional<TestUnit> other_basis(TestUnit unit, records::Quantity quantity) {
  if (quantity == records::Quantity::nitrite) return unit == TestUnit::mg_n_per_l ? TestUnit::mg_no2_per_l : TestUnit::mg_n_per_l;
  if (quantity == records::Quantity::nitrate) return unit == TestUnit::mg_n_per_l ? TestUnit::mg_no3_per_l : TestUnit::mg_n_per_l;
  return std::nullopt;
}

/// Tests with readings that have another basis, each once.
std::vector<BasisCheck> tests_to_check(const FilterSeason& season) {
  std::vector<BasisCheck> checks;
  for (const FilterSitting& sitting : season.sittings)
    for (const SittingTest& test : sitting.tests) {
      const auto other = other_basis(test.test.unit, test.test.quantity);
      if (!other || test.readings.empty()) continue;
      auto found = std::ranges::find_if(checks, [&](const BasisCheck& c) { return c.kit == test.kit && c.test == test.test.key; });
      if (found == checks.end()) found = checks.insert(checks.end(), {test.kit, test.test.key, test.test.quantity, test.test.unit, *other, 0.0, false, {}, {}});
      found->records.insert(found->records.end(), test.records.begin(), test.records.end());
    }
  return checks;
}

double log_evidence_of(FilterSeason season, const SmcSettings& settings) {
  return FilterPosterior::of(std::move(season), settings).sampler().log_evidence();
}

}  // namespace

std::vector<BasisCheck> basis_checks(const FilterSeason& season, const SmcSettings& settings) {
  std::vector<BasisCheck> checks = tests_to_check(season);
  if (checks.empty()) return checks;
  const double as_entered = log_evidence_of(season, settings);
  for (BasisCheck& check : checks) {
    FilterSeason changed = season;
    for (FilterSitting& sitting : changed.sittings)
      for (SittingTest& test : sitting.tests)
        if (test.kit == check.kit && test.test.key == check.test) test.test.unit = check.other;
    check.log_evidence_gain = log_evidence_of(std::move(changed), settings) - as_entered;
    check.likely_wrong = check.log_evidence_gain > wrong_basis_log_gain;
    if (check.likely_wrong)
      check.sentence = {"The readings of {0} with the kit \"{1}\" fit the rest of the season far better if its card is read {2} and not {3}: look at what is printed on the card.",
                        {Word{records::quantity_text(check.quantity)}, Word{verbatim(check.kit)}, Word{records::unit_text(check.other)}, Word{records::unit_text(check.entered)}}};
  }
  return checks;
}

}  // namespace redd::inference
