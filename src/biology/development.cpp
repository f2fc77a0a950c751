#include "biology/development.h"

namespace redd::biology {

double progress_over(const DevelopmentModel& model, std::span<const TemperatureSpell> spells) {
  double progress = 0.0;
  for (const TemperatureSpell& each : spells) progress += each.length.count() * progress_per_day(model, each.mean);
  return progress;
}

std::optional<Days> time_to_stage(const DevelopmentModel& model, std::span<const TemperatureSpell> spells,
                                  double progress_before) {
  double to_go = 1.0 - progress_before;
  if (to_go <= 0.0) return Days(0.0);
  double elapsed_days = 0.0;
  for (const TemperatureSpell& each : spells) {
    const double per_day = progress_per_day(model, each.mean);
    if (per_day * each.length.count() >= to_go) return Days(elapsed_days + to_go / per_day);
    to_go -= per_day * each.length.count();
    elapsed_days += each.length.count();
  }
  return std::nullopt;
}

double progress_from_thermal_sum(const DevelopmentModel& model, ThermalSum sum, Temperature incubation) {
  if (incubation <= ThermalSum::base()) return 0.0;
  return sum.c_days() / (incubation - ThermalSum::base()).c() * progress_per_day(model, incubation);
}

}  // namespace redd::biology
