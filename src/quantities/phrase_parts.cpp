#include "quantities/phrase_parts.h"

#include <charconv>

namespace redd {
namespace {

/// Before the exact number, in the pattern of an amount, as verbatim_mark is the pattern of a name.
constexpr char temperature_mark = '\x02', volume_mark = '\x03', length_mark = '\x04';

struct Metric {
  char mark;
  double value;
  const char* unit;
};
Metric metric_of(const Amount& amount) {
  if (const auto* temperature = std::get_if<Temperature>(&amount)) return {temperature_mark, temperature->c(), " °C"};
  if (const auto* volume = std::get_if<Volume>(&amount)) return {volume_mark, volume->l(), " L"};
  return {length_mark, std::get<Length>(amount).cm, " cm"};
}

}  // namespace

std::string as_typed(double value, int most_decimals) {
  char buffer[400];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, most_decimals);
  std::string text(buffer, end.ptr);
  if (text.find('.') != std::string::npos) text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

Phrase amount(const Amount& exact, int most_decimals) {
  const Metric metric = metric_of(exact);
  Phrase words(as_typed(metric.value, most_decimals) + metric.unit);
  char buffer[40];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, metric.value);
  words.pattern = metric.mark + std::string(buffer, end.ptr);
  return words;
}

std::optional<Amount> amount_in(const Phrase& part) {
  const std::string& pattern = part.pattern;
  double value = 0.0;
  if (pattern.size() < 2 || pattern[0] < temperature_mark || pattern[0] > length_mark) return std::nullopt;
  const auto [end, error] = std::from_chars(pattern.data() + 1, pattern.data() + pattern.size(), value);
  if (error != std::errc{} || end != pattern.data() + pattern.size()) return std::nullopt;
  if (pattern[0] == temperature_mark) return Temperature::from_c(value);
  if (pattern[0] == volume_mark) return Volume::from_l(value);
  return Length{value};
}

Filling filling_of(const Phrase& part, std::string shown) {
  Filling filling{std::move(shown), {}, part};
  long long count = 0;
  const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), count);
  if (error == std::errc{} && end == part.data() + part.size()) filling.count = count;
  return filling;
}

}  // namespace redd
