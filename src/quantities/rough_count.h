#pragma once
// Whole things to no more digits than their doubt supports.

#include <algorithm>
#include <cmath>

#include "quantities/estimate.h"

namespace redd {

/// Rounded outward to a power of ten that is at most a tenth of the interval: 4877 to 5123 becomes 4870 to 5130, 178 to 188 stays.
inline Estimate<long long> rough_count(const Estimate<double>& e) {
  const double width = e.high - e.low, unit = width >= 100.0 ? std::pow(10.0, std::floor(std::log10(width / 10.0))) : 1.0;
  if (unit <= 1.0) return {std::llround(e.low), std::llround(e.mid), std::llround(e.high), e.support};
  const auto to_unit = [&](double rounded) { return std::llround(unit * rounded); };
  return {to_unit(std::floor(e.low / unit)), to_unit(std::round(e.mid / unit)), to_unit(std::ceil(e.high / unit)), e.support};
}

}  // namespace redd
