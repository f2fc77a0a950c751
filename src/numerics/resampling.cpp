#include "numerics/resampling.h"

#include <numeric>

namespace redd::numerics {

std::vector<std::size_t> systematic_resample(std::span<const double> weights, double uniform, std::size_t count) {
  std::vector<std::size_t> kept(count, 0);
  const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
  const double tooth = total / static_cast<double>(count);
  double passed = weights.empty() ? 0.0 : weights[0];
  std::size_t i = 0;
  for (std::size_t n = 0; n < count; ++n) {
    const double at = (static_cast<double>(n) + uniform) * tooth;
    while (at >= passed && i + 1 < weights.size()) passed += weights[++i];
    kept[n] = i;
  }
  return kept;
}

}  // namespace redd::numerics
