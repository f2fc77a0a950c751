#include "numerics/spread.h"

#include <algorithm>
#include <cmath>

#include "numerics/normal.h"

namespace redd::numerics {

Spread spread_of(std::span<const double> values) {
  Spread out;
  out.count = static_cast<int>(values.size());
  const double n = out.count;
  double sum = 0.0;
  for (const double v : values) sum += v - values.front();  // differences keep the digits of large, alike values
  out.mean = values.front() + sum / n;
  out.lowest = *std::ranges::min_element(values);
  out.highest = *std::ranges::max_element(values);
  double squares = 0.0;
  for (const double v : values) squares += (v - out.mean) * (v - out.mean);
  out.standard_deviation = out.count > 1 ? std::sqrt(squares / (n - 1.0)) : 0.0;
  out.standard_error = out.standard_deviation / std::sqrt(n);
  return out;
}

namespace {

double chi_square_quantile(double probability, int degrees_of_freedom) {
  if (degrees_of_freedom == 1) {
    const double z = normal_quantile(0.5 + 0.5 * probability);
    return z * z;
  }
  if (degrees_of_freedom == 2) return -2.0 * std::log(1.0 - probability);
  const double freedom = degrees_of_freedom, part = 2.0 / (9.0 * freedom);
  const double root = 1.0 - part + normal_quantile(probability) * std::sqrt(part);
  return freedom * root * root * root;
}

}  // namespace

SpreadRange standard_deviation_range(double sd, int degrees_of_freedom) {
  const auto end = [&](double probability) { return sd * std::sqrt(degrees_of_freedom / chi_square_quantile(probability, degrees_of_freedom)); };
  return {end(0.95), end(0.05)};
}

int degrees_of_freedom(std::span<const Spread> groups) {
  int freedom = 0;
  for (const Spread& group : groups) freedom += group.count - 1;
  return freedom;
}

double pooled_standard_deviation(std::span<const Spread> groups) {
  double squares = 0.0;
  for (const Spread& group : groups) squares += (group.count - 1) * group.standard_deviation * group.standard_deviation;
  const int freedom = degrees_of_freedom(groups);
  return freedom > 0 ? std::sqrt(squares / freedom) : 0.0;
}

}  // namespace redd::numerics
