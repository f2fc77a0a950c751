#include "chemistry/mixing.h"

#include <cmath>

namespace redd::chemistry {

std::optional<MixedWater> mixed(const BufferedWater& a, const BufferedWater& b, double fraction_a, double pco2_uatm) {
  const auto state_a = carbonate_from_ph(a.temperature, a.alkalinity, a.ph);
  const auto state_b = carbonate_from_ph(b.temperature, b.alkalinity, b.ph);
  if (!state_a || !state_b) return std::nullopt;
  const Temperature temperature = Temperature::from_c(mixed_value(fraction_a, a.temperature.c(), b.temperature.c()));
  const Alkalinity alkalinity =
      Alkalinity::from_meq_per_l(mixed_value(fraction_a, a.alkalinity.meq_per_l(), b.alkalinity.meq_per_l()));
  const double dic_mmol_per_l = mixed_value(fraction_a, state_a->dic_mmol_per_l, state_b->dic_mmol_per_l);
  const auto just_mixed = carbonate_from_dic(temperature, alkalinity, dic_mmol_per_l);
  const auto after_aeration = carbonate_from_pco2(temperature, alkalinity, pco2_uatm);
  if (!just_mixed || !after_aeration) return std::nullopt;
  return MixedWater{temperature, *just_mixed, *after_aeration};
}

double after_water_changes(double now, double source, double fraction_changed, double changes) {
  return source + (now - source) * std::pow(1.0 - fraction_changed, changes);
}

std::optional<double> fraction_to_reach(double now, double source, double target) {
  if (now == target) return 0.0;
  const double fraction = (now - target) / (now - source);
  if (!std::isfinite(fraction) || fraction < 0.0 || fraction > 1.0) return std::nullopt;
  return fraction;
}

}  // namespace redd::chemistry
