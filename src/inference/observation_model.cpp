#include "inference/observation_model.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "inference/card_reading.h"
#include "numerics/normal.h"

namespace redd::inference {
namespace {

using records::KitTest;
using records::Method;
using records::Reading;
using Form = records::Reading::Form;
constexpr double infinity = std::numeric_limits<double>::infinity();

/// The normal distribution function from a table: cubic between points 1/32 apart, error below 2e-9, and below what a slip
/// may add by six orders of magnitude. Many times faster than the exact one, and asked for at every reading of every particle.
class NormalTable {
 public:
  NormalTable() {
    for (std::size_t i = 0; i < cdf_.size(); ++i) {
      const double z = (static_cast<double>(i) - middle) / per_unit;
      cdf_[i] = numerics::normal_cdf(z);
      slope_[i] = numerics::normal_density(z) / per_unit;
    }
  }
  double operator()(double z) const {
    const double at = std::min(std::max(0.0, z * per_unit + middle), 2.0 * middle - 1e-9);
    const auto i = static_cast<std::size_t>(at);
    const double t = at - static_cast<double>(i), difference = cdf_[i + 1] - cdf_[i];
    return cdf_[i] + t * (slope_[i] + t * (3.0 * difference - 2.0 * slope_[i] - slope_[i + 1] + t * (slope_[i] + slope_[i + 1] - 2.0 * difference)));
  }

 private:
  static constexpr double per_unit = 32.0, middle = 8.0 * per_unit;
  std::array<double, 513> cdf_{}, slope_{};
};
const NormalTable& normal_table() {
  static const NormalTable table;
  return table;
}

/// Stretch of places a reading names; nothing when it does not fit the test.
struct Stretch {
  double low, high;
};
std::optional<Stretch> stretch_of(const KitTest& test, const Reading& reading) {
  if (test.method == Method::meter || !records::observed_interval(test, reading)) return std::nullopt;
  const double value = reading.value.value_or(0.0);
  if (test.method == Method::drop_count) return value == 0.0 ? Stretch{-infinity, 1.0} : Stretch{value - 1.0, value};
  const double last = static_cast<double>(test.steps.size() - 1);
  if (reading.form == Form::below_first) return Stretch{-infinity, 0.0};
  if (reading.form == Form::above_last) return Stretch{last, infinity};
  const auto place_of = [&](double step) {
    double at = 0.0;
    while (at < last && std::abs(test.steps[static_cast<std::size_t>(at)] - step) > 1e-9 * std::max(1.0, std::abs(step))) ++at;
    return at;
  };
  const double at = place_of(value);
  if (reading.form == Form::between) return Stretch{at, place_of(reading.upper_value.value_or(0.0))};
  return Stretch{at == 0.0 ? -infinity : at - 0.5, at == last ? infinity : at + 0.5};
}

/// A maker's "+-" is read as two standard deviations; a meter without one is taken as good to 2 % or 0.05 (as in card_reading.cpp).
double meter_sd(const KitTest& test, double value) {
  return std::max(test.accuracy ? *test.accuracy / 2.0 : std::max(0.05, 0.02 * value), 1e-6);
}

double slip_floor(const KitTest& test) { return misread_probability / static_cast<double>(std::clamp<std::size_t>(test.steps.size(), 8, 30)); }

/// Probability of one reading at a place, slips left out.
double probability_at(const Stretch& stretch, double place, double error) {
  const NormalTable& cdf = normal_table();
  return std::max(0.0, cdf((stretch.high - place) / error) - cdf((stretch.low - place) / error));
}

/// Gauss-Hermite rule of five points for a standard normal value.
/// Source  Abramowitz and Stegun 1964, table 25.10, n = 5, nodes times root two, weights over root pi (from memory; the tests check moments).
constexpr std::array<double, 5> vial_nodes{-2.8569700138728, -1.3556261799742659, 0.0, 1.3556261799742659, 2.8569700138728};
constexpr std::array<double, 5> vial_weights{0.011257411327720691, 0.22207592200561266, 0.53333333333333333, 0.22207592200561266, 0.011257411327720691};

void add_alone(const KitTest& test, const Stretch& stretch, std::span<const double> places, std::span<double> log_likelihood) {
  const double floor = slip_floor(test);
  for (std::size_t i = 0; i < places.size(); ++i)
    log_likelihood[i] += std::log(floor + (1.0 - misread_probability) * probability_at(stretch, places[i], reader_error_steps));
}

void add_teams(const KitTest& test, std::span<const Stretch> stretches, std::span<const double> places, std::span<double> log_likelihood) {
  const double floor = slip_floor(test);
  for (std::size_t i = 0; i < places.size(); ++i) {
    double sum = 0.0;
    for (std::size_t node = 0; node < vial_nodes.size(); ++node) {
      double product = vial_weights[node];
      for (const Stretch& stretch : stretches)
        product *= floor + (1.0 - misread_probability) * probability_at(stretch, places[i] + vial_error_steps * vial_nodes[node], eye_error_steps);
      sum += product;
    }
    log_likelihood[i] += std::log(sum);
  }
}

void add_meter(const KitTest& test, double value, std::span<const double> places, std::span<double> log_likelihood) {
  const double sd = meter_sd(test, value);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double z = (value - places[i]) / sd;
    log_likelihood[i] += std::log(slip_floor(test) + (1.0 - misread_probability) * std::exp(-0.5 * z * z));
  }
}

}  // namespace

double bias_sd(const KitTest& test) {
  if (test.quantity == records::Quantity::ph) return test.method == Method::meter ? ph_bias_sd / 2.0 : ph_bias_sd;
  return test.method == Method::colour_steps ? colour_bias_log_sd : drop_bias_log_sd;
}

void seen_values(const KitTest& test, std::span<const double> canonical, std::span<const double> bias, std::span<double> seen) {
  if (test.quantity == records::Quantity::ph) {
    for (std::size_t i = 0; i < seen.size(); ++i) seen[i] = std::max(0.0, canonical[i] + bias[i]);
  } else {
    for (std::size_t i = 0; i < seen.size(); ++i) seen[i] = std::max(0.0, canonical[i]) * std::exp(bias[i]);
  }
}

void places_on_card(const KitTest& test, std::span<const double> seen, std::span<double> places) {
  const double printed = records::printed_value(test.unit, 1.0);  // conversions are plain factors
  if (test.method != Method::colour_steps) {
    const double per_place = test.method == Method::drop_count ? std::max(test.per_drop.value_or(1.0), 1e-9) : 1.0;
    for (std::size_t i = 0; i < places.size(); ++i) places[i] = seen[i] * printed / per_place;
    return;
  }
  const auto& steps = test.steps;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double value = seen[i] * printed;
    double place = 0.0;
    for (std::size_t s = 0; s + 1 < steps.size(); ++s) {  // each spacing adds what part of it lies below the value
      double part = (value - steps[s]) / (steps[s + 1] - steps[s]);
      if (s > 0) part = std::max(part, 0.0);
      if (s + 2 < steps.size()) part = std::min(part, 1.0);
      place += part;
    }
    places[i] = place;
  }
}

void add_log_likelihood(const SittingTest& sitting, std::span<const double> places, std::span<double> log_likelihood) {
  std::vector<Stretch> stretches;
  for (const Reading& reading : sitting.readings) {
    if (sitting.test.method == Method::meter) {
      if (records::observed_interval(sitting.test, reading)) add_meter(sitting.test, reading.value.value_or(0.0), places, log_likelihood);
    } else if (const auto stretch = stretch_of(sitting.test, reading)) {
      stretches.push_back(*stretch);
    }
  }
  if (stretches.size() == 1) add_alone(sitting.test, stretches.front(), places, log_likelihood);
  if (stretches.size() > 1) add_teams(sitting.test, stretches, places, log_likelihood);
}

void reading_information(const SittingTest& sitting, std::span<const double> places, std::span<double> information) {
  const KitTest& test = sitting.test;
  double readings = 0.0, meters = 0.0;
  for (const Reading& reading : sitting.readings) {
    if (!records::observed_interval(test, reading)) continue;
    if (test.method == Method::meter) {
      const double sd = meter_sd(test, reading.value.value_or(0.0));
      meters += 1.0 / (sd * sd);
    } else if (stretch_of(test, reading)) {
      readings += 1.0;
    }
  }
  std::ranges::fill(information, meters);
  if (readings == 0.0) return;
  const double alone = reader_error_steps * reader_error_steps;
  const double together = vial_error_steps * vial_error_steps + eye_error_steps * eye_error_steps / readings;
  // Classes meet half-way between steps, and at whole numbers of drops from one on.
  const bool drops = test.method == Method::drop_count;
  const double first = drops ? 1.0 : 0.5, last = drops ? infinity : static_cast<double>(test.steps.size()) - 1.5;
  for (std::size_t i = 0; i < places.size(); ++i) {
    double below = 0.0, density_below = 0.0, sum = 0.0;
    for (double border = std::max(first, first + std::floor(places[i] - first) - 2.0);; border += 1.0) {
      const bool open = border > last || border > places[i] + 3.0;
      const double z = (border - places[i]) / reader_error_steps;
      const double above = open ? 1.0 : normal_table()(z), density = open ? 0.0 : numerics::normal_density(z) / reader_error_steps;
      const double probability = above - below, slope = density - density_below;
      if (probability > 1e-6) sum += slope * slope / probability;
      if (open) break;
      below = above;
      density_below = density;
    }
    information[i] += sum * alone / together;
  }
}

std::optional<Expectation> expectation(const KitTest& test, const Reading& reading, std::span<const double> places, std::span<const double> weights) {
  double error = reader_error_steps;
  Stretch stretch{0.0, 0.0};
  if (test.method == Method::meter) {
    if (!records::observed_interval(test, reading)) return std::nullopt;
    const double value = reading.value.value_or(0.0);
    error = meter_sd(test, value);
    stretch = {value, value};
  } else if (const auto named = stretch_of(test, reading)) {
    stretch = *named;
  } else {
    return std::nullopt;
  }
  double below = 0.0, to_top = 0.0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!(weights[i] > 0.0)) continue;
    below += weights[i] * normal_table()((stretch.low - places[i]) / error);
    to_top += weights[i] * normal_table()((stretch.high - places[i]) / error);
  }
  return Expectation{0.5 * (below + to_top), std::min(1.0, 2.0 * std::min(to_top, 1.0 - below)), to_top - below};
}

std::vector<PossibleReading> possible_readings(const KitTest& test, std::span<const double> places, std::span<const double> weights) {
  std::vector<PossibleReading> possible;
  const auto add = [&](Form form, double value) {
    PossibleReading one;
    one.reading.test = test.key;
    one.reading.form = form;
    one.reading.value = value;
    if (const auto expected = expectation(test, one.reading, places, weights)) one.probability = expected->own_class;
    possible.push_back(std::move(one));
  };
  if (test.method == Method::colour_steps)
    for (const double step : test.steps) add(Form::step, step);
  if (test.method == Method::drop_count) {
    double most = 0.0;
    for (std::size_t i = 0; i < places.size(); ++i)
      if (weights[i] > 0.0) most = std::max(most, places[i]);
    for (double n = 0.0; n <= std::min(most + 3.0, 500.0); ++n) {
      add(Form::drops, n);
      if (possible.back().probability < 0.001) possible.pop_back();
    }
  }
  return possible;
}

Reading reading_at(const KitTest& test, double place, double error) {
  Reading reading;
  reading.test = test.key;
  const double seen = place + error;
  switch (test.method) {
    case Method::colour_steps: {
      const double last = static_cast<double>(test.steps.size() - 1);
      reading.form = Form::step;
      reading.value = test.steps[static_cast<std::size_t>(std::clamp(std::floor(seen + 0.5), 0.0, last))];
      break;
    }
    case Method::drop_count:
      reading.form = Form::drops;
      reading.value = seen <= 1.0 ? (seen > 0.0 ? 1.0 : 0.0) : std::ceil(seen);
      break;
    case Method::meter:
      reading.form = Form::number;
      reading.value = std::max(0.0, place + error * meter_sd(test, place));
      break;
  }
  return reading;
}

}  // namespace redd::inference
