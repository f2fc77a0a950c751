#include "planning/fry_mass.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
double thermal_sum_c_days(std::span<const biology::DailyTemperature> days, Date from, Date to) {
  constexpr double unknown_c = 10.0;
  double sum = 0.0;
  for (Date day = from; day < to; day += std::chrono::days(1)) {
    if (days.empty()) {
      sum += unknown_c;
      continue;
    }
    const auto place = std::clamp<long>((day - days.front().day).count(), 0, static_cast<long>(days.size()) - 1);
    sum += std::max(0.0, days[static_cast<std::size_t>(place)].mean.c());
  }
  return sum;
}

Estimate<double> grown_g(const Estimate<double>& from_g, const Estimate<double>& c_days) {
  const auto grown = [](double g, double gc, double warmth) { return std::pow(std::cbrt(g) + gc * warmth / 1000.0, 3.0); };
  return {grown(from_g.low, growth_coefficient.low, c_days.low), grown(from_g.mid, growth_coefficient.mid, c_days.mid),
          grown(from_g.high, growth_coefficient.high, c_days.high), Support::inferred};
}

Estimate<double> swim_up_g(const inference::Belief& belief) {
  const auto& species = belief.brood.species;
  if (!species || species->swim_up_weight.mid.g() <= 0.0) return {0.1, 0.15, 0.25, Support::assumed};
  const auto& w = species->swim_up_weight;
  return {w.low.g(), w.mid.g(), w.high.g(), w.support};
}

Estimate<double> fry_mass_g(const inference::Belief& belief, const std::optional<inference::GrowthBelief>& growth, Date day) {
  const auto& temperatures = belief.temperature.days;
  if (growth && !growth->days.empty()) {
    const Date last = growth->days.back().day;
    const auto grams = inference::weight_on(*growth, std::min(day, last)).weight;
    const Estimate<double> known{grams.low.g(), grams.mid.g(), grams.high.g(), grams.support};
    if (day <= last) return known;
    const double beyond = thermal_sum_c_days(temperatures, last, day);
    return grown_g(known, {beyond, beyond, beyond});
  }
  if (!belief.brood.forecast) return {0.1, 0.3, 1.0, Support::assumed};
  const auto warmth = [&](Date from) { return thermal_sum_c_days(temperatures, from, day); };
  const auto& swim_up = belief.brood.forecast->stage(biology::Stage::swim_up).lot;
  return grown_g(swim_up_g(belief), {warmth(biology::day_of(swim_up.high_90)), warmth(biology::day_of(swim_up.median)), warmth(biology::day_of(swim_up.low_90))});
}

}  // namespace redd::planning
