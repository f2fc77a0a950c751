#include "thermometer/sample.h"

#include <array>
#include <charconv>
#include <cmath>

#include "quantities/result.h"

namespace redd::thermometer {
namespace {

constexpr double coldest_c = -2, warmest_c = 45;

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view space = " \t\r\n";
  const auto from = text.find_first_not_of(space);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(space) - from + 1);
}

std::optional<double> number(std::string_view text) {
  text = trimmed(text);
  if (text.size() > 1 && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace

Phrase failure_text(Failure failure) {
  switch (failure) {
    case Failure::no_answer: return "the sensor does not answer";
    case Failure::bad_check_sum: return "the answer was garbled on the wire";
    case Failure::not_a_number: return "the answer is no number";
    case Failure::power_on_value: return "the chip has not measured yet (85 °C is what it holds after power-on)";
    case Failure::error_value: return "the number stands for a fault of the sensor or its wire";
    case Failure::out_of_range: return "no tank is so cold or so warm";
    case Failure::jump: return "it leapt away and was not confirmed";
  }
  broken_promise("failure_text", "unknown failure");
}

std::variant<double, Failure> checked(double c, Source source) {
  if (!std::isfinite(c)) return Failure::not_a_number;
  // Drivers round to thousandths; half of one is nearer than any step of a chip.
  const auto is = [&](double value) { return std::abs(c - value) < 0.0006; };
  if (source == Source::one_wire) {
    if (is(85)) return Failure::power_on_value;
    for (const double fault : std::array{-127.0, -0.0625, 127.9375})
      if (is(fault)) return Failure::error_value;
  }
  if (c < coldest_c || c > warmest_c) return Failure::out_of_range;
  return c;
}

std::variant<double, Failure> c_from_thousandths(std::string_view text, Source source) {
  const auto value = number(text);
  if (!value) return trimmed(text).empty() ? Failure::no_answer : Failure::not_a_number;
  return checked(*value / 1000, source);
}

std::variant<double, Failure> c_from_w1_slave(std::string_view text) {
  if (trimmed(text).empty()) return Failure::no_answer;
  const std::size_t crc = text.find("crc=");
  const std::size_t end = text.find('\n');
  if (crc == std::string_view::npos || end == std::string_view::npos || crc > end) return Failure::not_a_number;
  if (!trimmed(text.substr(0, end)).ends_with("YES")) return Failure::bad_check_sum;
  // A loose wire reads as all bits clear, whose check sum is right.
  if (text.starts_with("00 00 00 00 00 00 00 00 00")) return Failure::error_value;
  const std::size_t t = text.find("t=", end);
  if (t == std::string_view::npos) return Failure::not_a_number;
  return c_from_thousandths(text.substr(t + 2), Source::one_wire);
}

std::variant<double, Failure> c_from_number(std::string_view text, Source source) {
  const auto value = number(text);
  if (!value) return Failure::not_a_number;
  return checked(*value, source);
}

}  // namespace redd::thermometer
