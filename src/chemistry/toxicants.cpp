#include "chemistry/toxicants.h"

#include <cmath>

namespace redd::chemistry {

double copper_acute_ug_per_l(Hardness hardness) { return std::exp(0.9422 * std::log(hardness.mg_caco3_per_l()) - 1.464); }

double copper_chronic_ug_per_l(Hardness hardness) { return std::exp(0.8545 * std::log(hardness.mg_caco3_per_l()) - 1.465); }

bool copper_in_fitted_range(Hardness hardness) {
  return hardness.mg_caco3_per_l() >= 25.0 && hardness.mg_caco3_per_l() <= 400.0;
}

double monochloramine_lc50_ug_per_l(double minutes) { return 7244.0 * std::pow(minutes, -0.4525); }
double monochloramine_minutes_to_lc50(double ug_per_l) { return std::pow(7244.0 / ug_per_l, 1.0 / 0.4525); }

}  // namespace redd::chemistry
