#pragma once
// Drawing particles anew in proportion to their weights. Start at systematic_resample().

#include <cstddef>
#include <span>
#include <vector>

namespace redd::numerics {

/// Which particles are kept, and how often: `count` indices, rising, each index about weight * count times.
///
/// In      weights: not negative, sum positive (they need not sum to one). uniform: one number in (0, 1).
/// Out     index i stands either floor or ceil of its expected number of times; on average exactly the expected number.
/// Source  systematic resampling, Kitagawa 1996 (from memory).
std::vector<std::size_t> systematic_resample(std::span<const double> weights, double uniform, std::size_t count);

}  // namespace redd::numerics
