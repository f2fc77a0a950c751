// The block kernel for the vector unit that every machine of the build's kind has (and for the browser).
#include "tank/detail/block.h"

namespace redd::tank {

BlockReport advance_block_plain(const BlockJob& job, std::size_t block) { return advance_block<numerics::Lanes>(job, block); }
BlockReport advance_block_plain_single(const BlockJob& job, std::size_t block) { return advance_block<numerics::FloatLanes>(job, block); }

}  // namespace redd::tank
