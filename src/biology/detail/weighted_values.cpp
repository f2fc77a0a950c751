#include "biology/detail/weighted_values.h"

namespace redd::biology::detail {
namespace {

/// One dimension of the sequence: polynomial of this degree with inner coefficients a, and its odd initial numbers.
struct SobolDimension {
  unsigned degree;
  std::uint32_t a;
  std::array<std::uint32_t, 4> initial;
};
constexpr std::array<SobolDimension, EvenPoints::dimensions - 1> later_dimensions{{
    {1, 0, {1}},
    {2, 1, {1, 3}},
    {3, 1, {1, 3, 1}},
    {3, 2, {1, 1, 1}},
    {4, 1, {1, 1, 3, 3}},
    {4, 4, {1, 3, 5, 13}},
}};

}  // namespace

EvenPoints::EvenPoints(unsigned log2_count) : bits_(log2_count) {
  for (unsigned bit = 0; bit < bits_; ++bit) directions_[0][bit] = std::uint32_t{1} << (bits_ - 1 - bit);
  for (std::size_t d = 1; d < dimensions; ++d) {
    const SobolDimension& from = later_dimensions[d - 1];
    std::array<std::uint32_t, 32> m{};
    for (unsigned i = 0; i < bits_; ++i) {
      if (i < from.degree) {
        m[i] = from.initial[i];
      } else {
        m[i] = m[i - from.degree] ^ (m[i - from.degree] << from.degree);
        for (unsigned k = 1; k < from.degree; ++k)
          if ((from.a >> (from.degree - 1 - k)) & 1u) m[i] ^= m[i - k] << k;
      }
      directions_[d][i] = m[i] << (bits_ - 1 - i);
    }
  }
}

std::array<double, EvenPoints::dimensions> EvenPoints::point(std::size_t index) const {
  std::array<double, dimensions> place{};
  for (std::size_t d = 0; d < dimensions; ++d) {
    std::uint32_t cell = 0;
    for (unsigned bit = 0; bit < bits_; ++bit)
      if ((index >> bit) & 1u) cell ^= directions_[d][bit];
    place[d] = (static_cast<double>(cell) + 0.5) / static_cast<double>(count());
  }
  return place;
}

}  // namespace redd::biology::detail
