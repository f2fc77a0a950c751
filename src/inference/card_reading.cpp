#include "inference/card_reading.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "numerics/normal.h"

namespace redd::inference {
namespace {

using records::KitTest;
using records::Method;
using records::Reading;
using Form = records::Reading::Form;
constexpr double infinity = std::numeric_limits<double>::infinity();

/// Place of a printed value on the card, in steps: step i stands at i, beyond the ends the end spacings go on.
double place_on_card(const std::vector<double>& steps, double printed) {
  const std::size_t last = steps.size() - 1;
  const auto above = std::ranges::upper_bound(steps, printed);
  const std::size_t i = std::clamp<std::size_t>(static_cast<std::size_t>(above - steps.begin()), 1, last);
  return static_cast<double>(i - 1) + (printed - steps[i - 1]) / (steps[i] - steps[i - 1]);
}

/// Ends of the class a colour reading names, on the scale of place_on_card().
std::pair<double, double> class_on_card(const KitTest& test, const Reading& reading) {
  const double last = static_cast<double>(test.steps.size() - 1);
  if (reading.form == Form::below_first) return {-infinity, 0.0};
  if (reading.form == Form::above_last) return {last, infinity};
  const double at = place_on_card(test.steps, reading.value.value_or(0.0));
  if (reading.form == Form::between) return {at, place_on_card(test.steps, reading.upper_value.value_or(0.0))};
  return {at < 0.5 ? -infinity : at - 0.5, at > last - 0.5 ? infinity : at + 0.5};
}

double card_probability(const KitTest& test, const Reading& reading, double canonical) {
  const double printed = records::printed_value(test.unit, canonical);
  switch (test.method) {
    case Method::meter: {
      // A maker's "+-" is read as two standard deviations; a meter without one is taken as good to 2 % or 0.05.
      const double value = reading.value.value_or(0.0);
      const double sd = test.accuracy ? *test.accuracy / 2.0 : std::max(0.05, 0.02 * value);
      return numerics::normal_density((printed - value) / std::max(sd, 1e-6));
    }
    case Method::drop_count: {
      const double drops = printed / test.per_drop.value_or(1.0), n = reading.value.value_or(0.0);
      const double low = n == 0.0 ? -infinity : n - 1.0, high = n == 0.0 ? 1.0 : n;
      return numerics::normal_probability_between((low - drops) / reader_error_steps, (high - drops) / reader_error_steps);
    }
    case Method::colour_steps: {
      const double place = place_on_card(test.steps, printed);
      const auto [low, high] = class_on_card(test, reading);
      return numerics::normal_probability_between((low - place) / reader_error_steps, (high - place) / reader_error_steps);
    }
  }
  return 0.0;
}

/// A ruler along which the prior is even: a colour card's steps where there is one, else the value itself.
struct Ruler {
  const KitTest* card = nullptr;
  double low = 0.0, high = 14.0;

  double canonical(double place) const {
    if (!card) return place;
    const auto& steps = card->steps;
    const double last = static_cast<double>(steps.size() - 1);
    const auto i = static_cast<std::size_t>(std::clamp(std::floor(place), 0.0, last - 1.0));
    return records::canonical_value(card->unit, steps[i] + (place - static_cast<double>(i)) * (steps[i + 1] - steps[i]));
  }
};

constexpr double steps_beyond = 4.0;

/// The values a drop count or a meter reading allows, with room to spare.
std::pair<double, double> reach(const TestReading& read) {
  const auto& [test, reading] = read;
  const double value = reading.value.value_or(0.0);
  const double middle = test.method == Method::drop_count ? value * test.per_drop.value_or(1.0) : value;
  const double span = test.method == Method::drop_count ? steps_beyond * test.per_drop.value_or(1.0)
                                                        : std::max(4.0 * test.accuracy.value_or(0.0), std::max(0.3, 0.1 * value));
  return {records::canonical_value(test.unit, std::max(0.0, middle - span)), records::canonical_value(test.unit, middle + span)};
}

Ruler ruler_for(std::span<const TestReading> readings) {
  Ruler ruler;
  double low = infinity, high = 0.0;
  for (const TestReading& read : readings) {
    if (read.test.method == Method::colour_steps) {
      if (!ruler.card) ruler.card = &read.test;
      low = std::min(low, records::canonical_value(read.test.unit, std::max(0.0, read.test.steps.front() - steps_beyond * (read.test.steps[1] - read.test.steps[0]))));
      high = std::max(high, records::canonical_value(read.test.unit, read.test.steps.back() + steps_beyond * (read.test.steps.back() - read.test.steps[read.test.steps.size() - 2])));
    } else {
      const auto [from, to] = reach(read);
      low = std::min(low, from);
      high = std::max(high, to);
    }
  }
  ruler.low = low;
  ruler.high = high;
  if (ruler.card) {
    ruler.low = place_on_card(ruler.card->steps, records::printed_value(ruler.card->unit, low));
    ruler.high = place_on_card(ruler.card->steps, records::printed_value(ruler.card->unit, high));
  }
  return ruler;
}

/// Place on the ruler below which this share of the weight lies, linear between grid points.
double weighted_quantile(const std::vector<double>& weight, double low, double step, double total, double share) {
  double sum = 0.0;
  for (std::size_t i = 0; i < weight.size(); ++i) {
    if (sum + weight[i] >= share * total) {
      const double part = weight[i] > 0.0 ? (share * total - sum) / weight[i] : 0.5;
      return low + step * (static_cast<double>(i) + part);
    }
    sum += weight[i];
  }
  return low + step * static_cast<double>(weight.size());
}

}  // namespace

double reading_probability(const TestReading& read, double canonical) { return card_probability(read.test, read.reading, canonical); }

std::optional<ValueBehind> value_behind(std::span<const TestReading> readings) {
  constexpr std::size_t grid_points = 800;
  std::vector<TestReading> usable;
  for (const TestReading& read : readings)
    if (records::observed_interval(read.test, read.reading)) usable.push_back(read);
  if (usable.empty()) return std::nullopt;

  const Ruler ruler = ruler_for(usable);
  const double step = (ruler.high - ruler.low) / grid_points;
  std::vector<double> weight(grid_points);
  double total = 0.0;
  for (std::size_t i = 0; i < grid_points; ++i) {
    const double value = ruler.canonical(ruler.low + step * (static_cast<double>(i) + 0.5));
    double w = 1.0;
    for (const TestReading& read : usable) {
      const double slip = usable.size() > 1 ? misread_probability : 0.0;
      const double classes = static_cast<double>(std::max<std::size_t>(read.test.steps.size(), 8));
      w *= slip / classes + (1.0 - slip) * reading_probability(read, value);
    }
    weight[i] = w;
    total += w;
  }
  if (!(total > 0.0)) return std::nullopt;
  const auto at = [&](double share) { return ruler.canonical(weighted_quantile(weight, ruler.low, step, total, share)); };
  ValueBehind result{{at(0.05), at(0.5), at(0.95), Support::measured}};
  if (usable.front().test.unit == records::TestUnit::ph) result.value.high = std::min(result.value.high, 14.0);
  result.open_above = std::ranges::all_of(usable, [](const TestReading& r) { return records::observed_interval(r.test, r.reading)->open_above; });
  if (usable.size() < 2) return result;
  // Two readings whose own 90 % intervals do not touch can hardly both be right.
  double highest_low = 0.0, lowest_high = infinity;
  for (const TestReading& read : usable) {
    const auto alone = value_behind(std::span(&read, 1));
    if (!alone) continue;
    highest_low = std::max(highest_low, alone->value.low);
    if (!alone->open_above) lowest_high = std::min(lowest_high, alone->value.high);
  }
  result.disagree = highest_low > lowest_high;
  if (!result.disagree) return result;
  // One of them is wrong and nobody can say which: the range is all that any of them allows.
  for (const TestReading& read : usable) {
    const auto alone = value_behind(std::span(&read, 1));
    if (!alone) continue;
    result.value.low = std::min(result.value.low, alone->value.low);
    result.value.high = std::max(result.value.high, alone->value.high);
    result.open_above = result.open_above || alone->open_above;
  }
  return result;
}

}  // namespace redd::inference
