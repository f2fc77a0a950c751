#pragma once
// Two tests of one quantity with different ranges, as a low and a high pH card: which comes first, and when the other is due. The rule knows the
// printed steps only, no quantity by name. Start at hand_over(); usual_tests() applies it to a whole kit.

#include <optional>
#include <string>
#include <vector>

#include "records/kit.h"
#include "records/record.h"

namespace redd::sitting {

/// What a quantity is expected to read, in the program's own unit (see records::canonical_value()).
struct Expected {
  records::Quantity quantity = records::Quantity::ph;
  double value = 0;
};

/// What each quantity of the kit read last, on whichever card; quantities never read are left out.
///
/// In      effective: records that count, oldest first (see records::effective()).
std::vector<Expected> last_read(const records::Kit& kit, const std::vector<records::Record>& effective);

struct HandOver {
  std::string first{}, then{};  ///< keys of the tests
  bool at_or_above = true;      ///< `then` is due when `first` reads this or above, else this or below
  double printed = 0;           ///< in the unit of `first`: where the range of `then` begins, or where that of `first` ends if they do not meet
};

/// How two colour cards of one quantity share it.
///
/// In      a, b: in kit order.  expected: in the program's own unit.
/// Out     the card whose range holds the expected value further from its ends comes first, without one (or if both hold it alike) the first in kit
///         order. Nothing if they are not colour cards of one quantity, or if one range lies within the other: then neither is low or high.
/// Source  Assumed: a colour on an end step may stand for anything beyond, and near an end the other card is the better one.
std::optional<HandOver> hand_over(const records::KitTest& a, const records::KitTest& b, std::optional<double> expected);

/// Whether this reading of `first` makes the other test due. A reading between two steps counts from its nearer end; a form that does not belong to
/// a colour card makes it due, for nothing is known then.
bool other_is_due(const HandOver& rule, const records::Reading& first);

/// Every one of `tests` (indices, rising) but those that a hand-over among them leaves for later.
struct UsualTests {
  std::vector<std::size_t> now{};  ///< indices, rising
  std::vector<HandOver> later{};
};
UsualTests usual_tests(const records::Kit& kit, const std::vector<std::size_t>& tests, const std::vector<Expected>& expected);

}  // namespace redd::sitting
