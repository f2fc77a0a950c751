#pragma once
// Numbers as they stand on a worksheet. Here, and not only in report, because the answer must follow from the digits the class was given.

#include <cmath>

namespace redd::lessons::detail {

inline double rounded(double value, int places) {
  const double scale = std::pow(10.0, places);
  return std::round(value * scale) / scale;
}

/// Decimals that show a card's steps of this size.
inline int places_for(double step) { return step >= 1.0 && step == std::floor(step) ? 0 : step >= 0.1 ? 1 : 2; }

}  // namespace redd::lessons::detail
