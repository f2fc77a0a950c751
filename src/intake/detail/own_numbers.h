#pragma once
// Numbers of an older log whose kit nobody has any more: what they count is said by the keeper or the header (as nitrogen or as the
// ion), and how far they are to be trusted is assumed, wide. Each is kept as a reading on a kit of its own, with one test.

#include <optional>
#include <string_view>
#include <vector>

#include "records/kit.h"

namespace redd::intake::detail {

/// One kit a quantity and unit, e.g. key "older_log_nitrate_as_n" with the test "nitrate_as_n". The same in every version: a file
/// taken in twice must not change what was kept.
const std::vector<records::Kit>& own_number_kits();

/// The kit of this word ("nitrate_as_n"); nullptr when there is none.
const records::Kit* own_numbers_named(std::string_view word);

/// What the numbers of this quantity may be, most likely first.
std::vector<const records::Kit*> own_numbers_of(records::Quantity quantity);

/// The one of this quantity in this unit; nullptr when there is none.
const records::Kit* own_numbers_in(records::Quantity quantity, records::TestUnit unit);

bool is_own_numbers(const records::Kit& kit);

}  // namespace redd::intake::detail
