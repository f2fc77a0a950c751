#pragma once
// What is kept of a secret word: never the word itself.

#include <array>
#include <cstddef>

namespace redd::classroom {

/// 256 bits of a hash; who makes it and how is the rim's affair.
using Digest = std::array<unsigned char, 32>;

/// Compares all bytes whatever the first ones say, so that the time taken tells nothing.
inline bool same_digest(const Digest& a, const Digest& b) {
  unsigned char difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i) difference = static_cast<unsigned char>(difference | (a[i] ^ b[i]));
  return difference == 0;
}

}  // namespace redd::classroom
