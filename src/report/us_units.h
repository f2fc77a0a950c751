#pragma once
// Sentences that carry a fixed amount in their words ("a degree an hour", "200 litres"), said for a reader of °F and US gallons.
// data/messages/en_us.po holds both; translations are found by the second.

#include <string_view>

namespace redd::report {

/// The pattern as a reader of °F and US gallons reads it; the same pattern when it names no fixed amount.
std::string_view in_us_units(std::string_view english);

}  // namespace redd::report
