#pragma once
// The degrees a class reads and reckons in. Sheets and graphs are made in them from the start, because answers follow from the printed digits.

#include "quantities/temperature.h"

namespace redd::lessons::detail {

struct Degrees {
  bool f = false;
  double of(double c) const { return f ? Temperature::from_c(c).f() : c; }
  const char* unit() const { return f ? "°F" : "°C"; }
  /// Where warmth begins to count.
  double frost() const { return of(0.0); }
};

}  // namespace redd::lessons::detail
