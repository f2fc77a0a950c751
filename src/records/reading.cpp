#include "records/reading.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>

#include "quantities/result.h"

namespace redd::records {
namespace {

using Form = Reading::Form;

/// Index of a printed step, or nothing. Steps are compared as printed, with room only for decimal-to-binary noise.
std::optional<std::size_t> step_index(const KitTest& test, double printed) {
  for (std::size_t i = 0; i < test.steps.size(); ++i)
    if (std::abs(test.steps[i] - printed) <= 1e-9 * std::max(1.0, std::abs(printed))) return i;
  return std::nullopt;
}

constexpr double infinity = std::numeric_limits<double>::infinity();

std::optional<ObservedInterval> printed_interval(const KitTest& test, const Reading& reading) {
  const auto& steps = test.steps;
  const double floor = 0.0;
  if (test.method == Method::meter) {
    if (reading.form != Form::number || !reading.value) return std::nullopt;
    const double doubt = test.accuracy.value_or(0.0);
    return ObservedInterval{std::max(floor, *reading.value - doubt), *reading.value, *reading.value + doubt};
  }
  if (test.method == Method::drop_count) {
    if (reading.form != Form::drops || !reading.value || !test.per_drop) return std::nullopt;
    const double drops = *reading.value, per_drop = *test.per_drop;
    // The colour had turned before the first drop: nothing can be told from "less than one drop".
    if (drops == 0) return ObservedInterval{floor, per_drop / 2, per_drop, false, true};
    return ObservedInterval{(drops - 1) * per_drop, (drops - 0.5) * per_drop, drops * per_drop, false, drops == 1};
  }
  if (steps.size() < 2) return std::nullopt;
  switch (reading.form) {
    case Form::below_first:
      if (steps.front() <= 0.0) return std::nullopt;  // nothing lies below a first step of zero
      return ObservedInterval{floor, steps.front() / 2, steps.front(), false, true};
    case Form::above_last: return ObservedInterval{steps.back(), steps.back(), infinity, true, false};
    case Form::between: {
      if (!reading.value || !reading.upper_value) return std::nullopt;
      const auto lower = step_index(test, *reading.value), upper = step_index(test, *reading.upper_value);
      if (!lower || !upper || *upper <= *lower) return std::nullopt;
      return ObservedInterval{steps[*lower], (steps[*lower] + steps[*upper]) / 2, steps[*upper], false, false};
    }
    case Form::step: {
      if (!reading.value) return std::nullopt;
      const auto i = step_index(test, *reading.value);
      if (!i) return std::nullopt;
      const bool first = *i == 0, last = *i + 1 == steps.size();
      const double low = first ? floor : (steps[*i - 1] + steps[*i]) / 2;
      const double high = last ? infinity : (steps[*i] + steps[*i + 1]) / 2;
      return ObservedInterval{low, steps[*i], high, last, first};
    }
    case Form::drops:
    case Form::number: return std::nullopt;
  }
  return std::nullopt;
}

std::string number_text(double value) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value);
  return {buffer, end.ptr};
}

}  // namespace

std::optional<ObservedInterval> observed_interval(const KitTest& test, const Reading& reading) {
  auto interval = printed_interval(test, reading);
  if (!interval) return std::nullopt;
  interval->low = canonical_value(test.unit, interval->low);
  interval->mid = canonical_value(test.unit, interval->mid);
  interval->high = canonical_value(test.unit, interval->high);
  return interval;
}

std::string unit_text(TestUnit unit) {
  switch (unit) {
    case TestUnit::mg_n_per_l: return "mg/L as N";
    case TestUnit::mg_nh3_per_l: return "mg/L as NH3";
    case TestUnit::mg_nh4_per_l: return "mg/L as NH4";
    case TestUnit::mg_no2_per_l: return "mg/L as NO2";
    case TestUnit::mg_no3_per_l: return "mg/L as NO3";
    case TestUnit::ph: return "pH";
    case TestUnit::german_degrees: return "German degrees";
    case TestUnit::french_degrees: return "French degrees";
    case TestUnit::english_degrees: return "English degrees";
    case TestUnit::mg_caco3_per_l: return "mg/L as CaCO3";
    case TestUnit::mmol_per_l: return "mmol/L";
    case TestUnit::meq_per_l: return "meq/L";
    case TestUnit::mg_per_l: return "mg/L";
  }
  broken_promise("unit_text", "unknown unit");
}

std::string quantity_text(Quantity quantity) {
  switch (quantity) {
    case Quantity::total_ammonia: return "total ammonia";
    case Quantity::nitrite: return "nitrite";
    case Quantity::nitrate: return "nitrate";
    case Quantity::ph: return "pH";
    case Quantity::alkalinity: return "carbonate hardness (KH)";
    case Quantity::hardness: return "general hardness (GH)";
    case Quantity::oxygen: return "dissolved oxygen";
    case Quantity::chlorine: return "total chlorine";
    case Quantity::chloride: return "chloride";
  }
  broken_promise("quantity_text", "unknown quantity");
}

Phrase reading_text(const KitTest& test, const Reading& reading) {
  const auto marked = [&](double value) { return test.unit == TestUnit::ph ? said("pH {0}", number_text(value)) : said("{0} {1}", number_text(value), unit_text(test.unit)); };
  const double value = reading.value.value_or(0);
  switch (reading.form) {
    case Form::step: return said("{0} on the card", marked(value));
    case Form::between:
      return test.unit == TestUnit::ph ? said("between pH {0} and {1}", number_text(value), number_text(reading.upper_value.value_or(0)))
                                       : said("between {0} and {1}", number_text(value), marked(reading.upper_value.value_or(0)));
    case Form::below_first: return said("below the first step ({0})", marked(test.steps.empty() ? 0 : test.steps.front()));
    case Form::above_last: return said("above the last step ({0})", marked(test.steps.empty() ? 0 : test.steps.back()));
    case Form::drops:
      return said("{0, plural, one {# drop} other {# drops}} ({1} {2})", number_text(value), number_text(value * test.per_drop.value_or(0)), unit_text(test.unit));
    case Form::number: return said("{0} on the meter", marked(value));
  }
  broken_promise("reading_text", "unknown form");
}

Phrase short_reading_text(const KitTest& test, const Reading& reading) {
  const std::string value = number_text(reading.value.value_or(0));
  switch (reading.form) {
    case Form::step:
    case Form::number: return value;
    case Form::between: return said("{0}–{1}", value, number_text(reading.upper_value.value_or(0)));
    case Form::below_first: return said("below {0}", number_text(test.steps.empty() ? 0 : test.steps.front()));
    case Form::above_last: return said("above {0}", number_text(test.steps.empty() ? 0 : test.steps.back()));
    case Form::drops: return said("{0, plural, one {# drop} other {# drops}}", value);
  }
  broken_promise("short_reading_text", "unknown form");
}

}  // namespace redd::records
