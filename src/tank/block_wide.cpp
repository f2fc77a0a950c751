// The block kernel once more, compiled for 256-bit vectors where the machine can have them. The sums are the same, to the last bit
// (no fused multiply-add); advance() uses this copy only on machines that say they can.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <span>
#include <vector>

#include "tank/detail/kernel.h"
#include "tank/processes.h"

#if defined(__x86_64__)
// Everything above keeps the ordinary target, so that no inline function of another header is compiled for the wide one.
#if defined(__clang__)
#pragma clang attribute push(__attribute__((target("avx2"))), apply_to = function)
#else
#pragma GCC push_options
#pragma GCC target("avx2")
#endif
#endif

#include "tank/detail/block.h"

namespace redd::tank {

BlockReport advance_block_wide(const BlockJob& job, std::size_t block) { return advance_block<numerics::Lanes>(job, block); }
BlockReport advance_block_wide_single(const BlockJob& job, std::size_t block) { return advance_block<numerics::FloatLanes>(job, block); }

}  // namespace redd::tank

#if defined(__x86_64__)
#if defined(__clang__)
#pragma clang attribute pop
#else
#pragma GCC pop_options
#endif
#endif
