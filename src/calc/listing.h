#pragma once
// What `redd calc --list` prints: every formula with its inputs, units, ranges, defaults, outputs and source.

#include <string>

namespace redd::calc {

/// All formulas as plain text, sorted by name.
std::string list_text();

}  // namespace redd::calc
