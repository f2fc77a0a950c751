#pragma once
// What people write into the cell of a test: "0.25", "0,25-0,5", "<0.25", ">8", "7 drops"; and which test a column means.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "intake/import.h"

namespace redd::intake::detail {

/// A test of a kit.
struct TestName {
  const records::Kit* kit = nullptr;
  const records::KitTest* test = nullptr;
  std::string text() const { return kit->key + "/" + test->key; }
};

/// The tests a header or cell may mean: by "kit/test", by the test's key, or by the usual names of what it measures.
/// In      kit: key of the only kit to look at, or empty.
std::vector<TestName> tests_meant(std::string_view name, const std::vector<records::Kit>& kits, std::string_view kit);

/// The unit stated in a header or unit cell, as far as it can be told for this quantity; nothing when it says nothing.
std::optional<records::TestUnit> unit_stated(std::string_view text, records::Quantity quantity);

/// One cell as a reading of the test.
///
/// In      decimal_mark: '.' or ','.  drops_are_values: numbers of drop tests are the result, not the count.
/// Errors  not_a_reading, not_on_the_card, out_of_range; the sentence says what the cell may hold.
Result<records::Reading> reading_of(std::string_view cell, const TestName& name, char decimal_mark, bool drops_are_values);

}  // namespace redd::intake::detail
