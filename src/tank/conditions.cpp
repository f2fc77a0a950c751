#include "tank/conditions.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chemistry/activity.h"
#include "chemistry/ammonia.h"
#include "chemistry/oxygen.h"
#include "tank/processes.h"

namespace redd::tank {
namespace {

/// A tank never dries up altogether; below this share of its volume in one day evaporation is not believed.
constexpr double least_share_left = 0.05;
/// Stretches shorter than this are rounding of day numbers.
constexpr double least_stretch_days = 1e-9;

}  // namespace

DayForcing forcing_at(const Forcing& forcing, double day) {
  if (forcing.days.empty()) return {};
  const double index = std::floor(day - forcing.first_day);
  const double last = static_cast<double>(forcing.days.size() - 1);
  return forcing.days[static_cast<std::size_t>(std::clamp(index, 0.0, last))];
}

double temperature_c_at(const Forcing& forcing, double day) {
  const double index = std::floor(day - forcing.first_day);
  const double from_c = forcing_at(forcing, forcing.first_day + index).temperature_c;
  const double to_c = forcing_at(forcing, forcing.first_day + index + 1.0).temperature_c;
  return from_c + (day - forcing.first_day - index) * (to_c - from_c);
}

WaterConstants water_constants(double temperature_c, const DayForcing& air) {
  const Temperature temperature = Temperature::from_c(temperature_c);
  const auto k = chemistry::carbonate_constants(temperature, 0.0);
  const double above = temperature_c - kinetics::reference_temperature_c;
  const double dry = (air.air_pressure_mmhg - chemistry::vapor_pressure_mmhg(temperature)) / chemistry::standard_pressure_mmhg;
  return {.temperature_c = temperature_c,
          .k1 = 1e3 * k.k1_mixed,
          .k2 = 1e3 * k.k2_mixed,
          .kw = 1e6 * k.kw_mixed,
          .ammonium_k = 1e3 * std::exp(-std::numbers::ln10 * chemistry::ammonium_pka(temperature)),
          .oxygen_saturation = chemistry::oxygen_saturation(temperature, air.air_pressure_mmhg).mg_o2_per_l(),
          .carbon_dioxide_saturation = 1e-3 * air.air_co2_uatm * k.kh * dry,
          .ammonification_factor = std::pow(kinetics::ammonification_theta, above),
          .gas_transfer_factor = std::pow(kinetics::gas_transfer_theta, above)};
}

Stretch stretch_of(const DayForcing& day, double length_days, double from_c, double to_c, double volume_l) {
  const double per_l = 1.0 / volume_l;
  const double left = std::max(least_share_left, 1.0 - day.evaporation_l_per_day * length_days * per_l);
  Stretch s{};
  s.days = length_days;
  s.at_start = water_constants(from_c, day);
  s.at_end = water_constants(to_c, day);
  s.steady = from_c == to_c;
  s.sudden_cooling_c = std::max(0.0, from_c - to_c - kinetics::gradual_cooling_c_per_day * length_days);
  s.debye_huckel = std::numbers::ln10 * chemistry::debye_huckel_a(Temperature::from_c(0.5 * (from_c + to_c)));
  s.excretion = day.excretion_mg_n_per_day * per_l;
  s.ammonium_salt = day.ammonium_salt_mg_n_per_day * per_l;
  s.organic = day.organic_mg_n_per_day * per_l;
  s.oxygen_use = day.oxygen_use_mg_o2_per_day * per_l;
  s.concentrating = 1.0 / left;
  return s;
}

std::vector<Stretch> stretches_of(const Forcing& forcing, double from_day, double to_day, double& volume_l) {
  std::vector<Stretch> stretches;
  double day = from_day;
  while (to_day - day > least_stretch_days) {
    const double border = forcing.first_day + std::floor(day - forcing.first_day + least_stretch_days) + 1.0;
    const double end = to_day - border < least_stretch_days ? to_day : border;
    stretches.push_back(stretch_of(forcing_at(forcing, day + least_stretch_days), end - day, temperature_c_at(forcing, day),
                                   temperature_c_at(forcing, end), volume_l));
    volume_l /= stretches.back().concentrating;
    day = end;
  }
  return stretches;
}

}  // namespace redd::tank
