#include "chemistry/oxygen.h"

#include <cmath>
#include <numbers>

namespace redd::chemistry {

double pressure_mmhg_at_elevation(double elevation_m) {
  constexpr double gravity_m_per_s2 = 9.80665;
  constexpr double air_kg_per_mol = 0.0289644;
  constexpr double gas_constant_j_per_mol_k = 8.31447;
  constexpr double air_k = 288.15;
  return standard_pressure_mmhg * std::exp(-gravity_m_per_s2 * air_kg_per_mol * elevation_m / (gas_constant_j_per_mol_k * air_k));
}

double vapor_pressure_mmhg(Temperature temperature) {
  return std::exp(std::numbers::ln10 * (8.10765 - 1750.286 / (235.0 + temperature.c())));
}

OxygenConc oxygen_saturation(Temperature temperature, double pressure_mmhg, double salinity_psu) {
  const double per_t = 1.0 / temperature.k();
  const double fresh = -139.34411 + per_t * (1.575701e5 + per_t * (-6.642308e7 + per_t * (1.243800e10 - per_t * 8.621949e11)));
  const double salting_out = salinity_psu * (0.017674 + per_t * (-10.754 + per_t * 2140.7));
  const double vapor_mmhg = vapor_pressure_mmhg(temperature);
  const double pressure_ratio = (pressure_mmhg - vapor_mmhg) / (standard_pressure_mmhg - vapor_mmhg);
  return OxygenConc::from_mg_o2_per_l(std::exp(fresh - salting_out) * pressure_ratio);
}

bool oxygen_in_fitted_range(Temperature temperature, double pressure_mmhg, double salinity_psu) {
  return temperature.c() >= 0.0 && temperature.c() <= 40.0 && pressure_mmhg >= 400.0 && pressure_mmhg <= 850.0 && salinity_psu >= 0.0 &&
         salinity_psu <= 40.0;
}

}  // namespace redd::chemistry
