#include "biology/development_model.h"

#include <cmath>

namespace redd::biology {
namespace {

using OptionalDays = std::optional<double>;

OptionalDays curve_days(const LogInverseBelehradek& f, double temperature_c) {
  if (temperature_c <= f.c) return std::nullopt;
  return std::exp(f.ln_a + f.b * std::log(temperature_c - f.c));
}

OptionalDays curve_days(const CrispPower& f, double temperature_c) {
  if (temperature_c <= f.alpha) return std::nullopt;
  return std::pow(10.0, f.b * std::log10(temperature_c - f.alpha) + f.log_a);
}

OptionalDays curve_days(const ExponentialInTemperature& f, double temperature_c) {
  return std::exp(f.a + f.b * temperature_c);
}

OptionalDays curve_days(const ExponentialWithEggWeight& f, double temperature_c) {
  return std::exp(f.a + f.b * temperature_c + f.w * f.egg_weight_mg);
}

OptionalDays curve_days(const ThermalSumAboveThreshold& f, double temperature_c) {
  if (temperature_c <= f.threshold_c) return std::nullopt;
  return std::exp(f.ln_sum) / (temperature_c - f.threshold_c);
}

OptionalDays curve_days(const TableInLogDays& f, double temperature_c) {
  std::size_t upper = 1;
  while (upper + 1 < f.rows.size() && temperature_c > f.rows[upper].temperature_c) ++upper;
  const auto& [t0, d0] = f.rows[upper - 1];
  const auto& [t1, d1] = f.rows[upper];
  const double slope = (std::log(d1) - std::log(d0)) / (t1 - t0);
  return std::exp(std::log(d0) + slope * (temperature_c - t0));
}

}  // namespace

std::optional<Days> days_at(const DevelopmentModel& model, Temperature water) {
  if (!(water >= development_stops_below)) return std::nullopt;
  const auto days = std::visit([&](const auto& form) { return curve_days(form, water.c()); }, model.form);
  if (!days) return std::nullopt;
  return Days(model.factor * *days);
}

double progress_per_day(const DevelopmentModel& model, Temperature water) {
  const auto days = days_at(model, water);
  return days ? 1.0 / days->count() : 0.0;
}

bool in_test_range(const DevelopmentModel& model, Temperature water) {
  return water >= model.test_low && water <= model.test_high;
}

TemperatureChange outside_test_range(const DevelopmentModel& model, Temperature water) {
  if (water < model.test_low) return model.test_low - water;
  if (water > model.test_high) return water - model.test_high;
  return TemperatureChange::from_c(0.0);
}

}  // namespace redd::biology
