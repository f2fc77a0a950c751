#include "intake/detail/observation.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "intake/detail/cells.h"
#include "intake/detail/header_words.h"
#include "intake/detail/own_numbers.h"
#include "quantities/verbatim.h"
#include "records/reading.h"

namespace redd::intake::detail {
namespace {

using records::KitTest;
using records::Method;
using records::Quantity;
using records::Reading;
using records::TestUnit;

std::string plain(double value) {
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), end.ptr};
}

std::string steps_of(const KitTest& test) {
  std::string text;
  for (const double step : test.steps) text += (text.empty() ? "" : ", ") + plain(step);
  return text;
}

Phrase what_is_accepted(const KitTest& test) {
  switch (test.method) {
    case Method::meter: return "Write the meter's number alone.";
    case Method::drop_count: return "Write the number of drops alone.";
    case Method::colour_steps: break;
  }
  return said("The card has the steps {0}: write one of them, two neighbours such as {1}-{2}, <{3}, or >{4}.", steps_of(test), plain(test.steps[0]), plain(test.steps[1]), plain(test.steps.front()), plain(test.steps.back()));
}

Problem not_a_reading(std::string_view cell, const KitTest& test) {
  return {"not_a_reading", "", said("\"{0}\" is not a reading of test \"{1}\". {2}", shown(cell), verbatim(test.key), what_is_accepted(test))};
}
Problem not_on_the_card(std::string_view cell, const KitTest& test) {
  return {"not_on_the_card", "", said("\"{0}\" is not on the card of test \"{1}\". {2}", shown(cell), verbatim(test.key), what_is_accepted(test))};
}

std::string_view without_word(std::string_view text, std::initializer_list<std::string_view> words) {
  const std::string low = lower(text);
  for (const std::string_view word : words)
    if (low.ends_with(word)) return trimmed(text.substr(0, text.size() - word.size()));
  return text;
}

/// "a-b", "a–b", "a..b", "a to b", "between a and b".
std::optional<std::pair<double, double>> two_numbers(std::string_view text, char mark) {
  if (lower(text.substr(0, 8)) == "between ") text.remove_prefix(8);
  const std::string low = lower(text);
  for (const std::string_view separator : {"..", "\xE2\x80\x93", "\xE2\x80\x94", " to ", " and ", "-"}) {
    const std::size_t at = low.find(separator, 1);  // a sign at the start is no separator
    if (at == std::string::npos) continue;
    const auto low_value = number(text.substr(0, at), mark), high_value = number(text.substr(at + separator.size()), mark);
    if (low_value && high_value) return std::pair(*low_value, *high_value);
  }
  return std::nullopt;
}

bool same(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(1.0, std::abs(b)); }

Result<Reading> colour_reading(std::string_view cell, const KitTest& test, char mark, Reading reading) {
  if (test.steps.size() < 2) return not_a_reading(cell, test);
  std::string_view text = cell;
  const bool below = text.starts_with('<'), above = text.starts_with('>');
  if (below || above) {
    text.remove_prefix(1);
    if (text.starts_with('=')) return not_a_reading(cell, test);  // "<=0.25" may mean the step itself
    const auto value = number(text, mark);
    if (!value) return not_a_reading(cell, test);
    if (!same(*value, below ? test.steps.front() : test.steps.back())) return not_on_the_card(cell, test);
    reading.form = below ? Reading::Form::below_first : Reading::Form::above_last;
    return reading;
  }
  if (const auto value = number(text, mark)) {
    reading.form = Reading::Form::step;
    reading.value = *value;
  } else if (const auto pair = two_numbers(text, mark)) {
    reading.form = Reading::Form::between;
    reading.value = pair->first;
    reading.upper_value = pair->second;
  } else {
    return not_a_reading(cell, test);
  }
  if (!records::observed_interval(test, reading)) return not_on_the_card(cell, test);
  return reading;
}

Result<Reading> drop_reading(std::string_view cell, const KitTest& test, char mark, bool drops_are_values, Reading reading) {
  const std::string_view bare = without_word(cell, {"drops", "drop"});
  const bool says_drops = bare.size() != cell.size();
  auto value = number(bare, mark);
  if (!value) return not_a_reading(cell, test);
  if (drops_are_values && !says_drops) value = *value / test.per_drop.value_or(1);
  const double whole = std::round(*value);
  if (!same(*value, whole) || whole < 0 || whole > 500)
    return Problem{"not_a_drop_count", "", drops_are_values ? said("\"{0}\" is not a whole number of drops of {1} each.", shown(cell), plain(test.per_drop.value_or(1)))
                                                            : said("\"{0}\" is not a whole number of drops from 0 to 500.", shown(cell))};
  reading.form = Reading::Form::drops;
  reading.value = whole;
  return reading;
}

Result<Reading> meter_reading(std::string_view cell, const KitTest& test, char mark, Reading reading) {
  const auto value = number(cell, mark);
  if (!value) return not_a_reading(cell, test);
  if (*value < 0 || *value > 100000 || (test.unit == TestUnit::ph && *value > 14))
    return Problem{"out_of_range", "", said("\"{0}\" can't be right for test \"{1}\": check the number and the decimal mark.", shown(cell), verbatim(test.key))};
  reading.form = Reading::Form::number;
  reading.value = *value;
  return reading;
}

}  // namespace

std::vector<TestName> tests_meant(std::string_view name, const std::vector<records::Kit>& kits, std::string_view only_kit) {
  std::vector<TestName> by_key, by_name;
  const std::string whole = plain_key(name), bare = plain_key(without_unit(name));
  if (whole.empty()) return {};
  const std::optional<Quantity> quantity = quantity_named(name);
  for (const records::Kit& kit : kits) {
    if (is_own_numbers(kit) || (!only_kit.empty() && kit.key != only_kit)) continue;
    for (const KitTest& test : kit.tests) {
      if (name == kit.key + "/" + test.key) return {{&kit, &test}};
      const std::string key = plain_key(test.key);
      if (key == whole || key == bare) by_key.push_back({&kit, &test});
      if (test.quantity == quantity) by_name.push_back({&kit, &test});
    }
  }
  return by_key.empty() ? by_name : by_key;
}

std::optional<TestUnit> unit_stated(std::string_view text, Quantity quantity) {
  const std::string low = lower(text);
  const auto has = [&](std::initializer_list<std::string_view> words) {
    return std::ranges::any_of(words, [&](std::string_view word) { return low.find(word) != std::string::npos; });
  };
  switch (quantity) {
    case Quantity::total_ammonia:
    case Quantity::nitrite:
    case Quantity::nitrate:
      if (has({"as nh4", "como nh4", "mg_nh4"})) return TestUnit::mg_nh4_per_l;
      if (has({"as nh3", "como nh3", "mg_nh3"}) && !has({"nh3-n"})) return TestUnit::mg_nh3_per_l;
      if (has({"as no2", "como no2", "mg_no2"}) && !has({"no2-n"})) return TestUnit::mg_no2_per_l;
      if (has({"as no3", "como no3", "mg_no3"}) && !has({"no3-n"})) return TestUnit::mg_no3_per_l;
      if (low.ends_with("as n") || low.ends_with("como n") || low.ends_with("-n") || has({"as n)", "como n)", "n-nh", "n-no", "as n ", "as n,", "-n)", "-n ", "nh3-n", "nh4-n", "no2-n", "no3-n", "mg_n_", "mg n/l", "mg-n"})) return TestUnit::mg_n_per_l;
      return std::nullopt;
    case Quantity::alkalinity:
    case Quantity::hardness:
      if (has({"caco3"})) return TestUnit::mg_caco3_per_l;
      if (has({"dkh", "dgh", "\xC2\xB0" "dh", "\xC2\xB0" "kh", "\xC2\xB0" "gh", "german"})) return TestUnit::german_degrees;
      if (has({"\xC2\xB0" "fh", "french"})) return TestUnit::french_degrees;
      if (has({"english", "clark"})) return TestUnit::english_degrees;
      if (has({"meq"})) return TestUnit::meq_per_l;
      if (has({"mmol"})) return TestUnit::mmol_per_l;
      return std::nullopt;
    case Quantity::ph:
    case Quantity::oxygen:
    case Quantity::chlorine:
    case Quantity::chloride: return std::nullopt;
  }
  return std::nullopt;
}

Result<Reading> reading_of(std::string_view cell, const TestName& name, char mark, bool drops_are_values) {
  cell = without_unit_behind(cell);
  Reading reading;
  reading.kit = name.kit->key;
  reading.test = name.test->key;
  switch (name.test->method) {
    case Method::colour_steps: return colour_reading(cell, *name.test, mark, std::move(reading));
    case Method::drop_count: return drop_reading(cell, *name.test, mark, drops_are_values, std::move(reading));
    case Method::meter: return meter_reading(cell, *name.test, mark, std::move(reading));
  }
  broken_promise("reading_of", "unknown method");
}

}  // namespace redd::intake::detail
