#include "chemistry/nitrite.h"

#include <algorithm>
#include <cmath>

namespace redd::chemistry {

NitriteLimit nitrite_limit(std::optional<double> chloride_mg_per_l) {
  const double chloride = chloride_mg_per_l.value_or(0.0);
  const double mean_mg_n_per_l = chloride > 10.0 ? 0.20 : std::min(0.10, 0.02 * (std::floor(chloride / 2.0) + 1.0));
  return {NitrogenConc::from_mg_n_per_l(mean_mg_n_per_l), NitrogenConc::from_mg_n_per_l(3.0 * mean_mg_n_per_l)};
}

}  // namespace redd::chemistry
