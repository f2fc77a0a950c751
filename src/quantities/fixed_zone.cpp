#include "quantities/fixed_zone.h"

#include <charconv>
#include <string>

namespace redd {
namespace {

using namespace std::chrono;

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return result;
}

std::optional<int> whole(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || text.size() > 2 || error != std::errc() || end != text.data() + text.size() || value < 0) return std::nullopt;
  return value;
}

}  // namespace

std::optional<ZoneOffsets> fixed_zone(std::string_view text) {
  std::string_view rest = text;
  const std::string start = lower(rest.substr(0, 3));
  if (start == "utc" || start == "gmt") {
    rest.remove_prefix(3);
    if (rest.empty()) return ZoneOffsets{"UTC", {{Instant{}, seconds(0)}}};
  }
  if (rest.size() < 2 || (rest[0] != '+' && rest[0] != '-')) return std::nullopt;
  const int sign = rest[0] == '-' ? -1 : 1;
  rest.remove_prefix(1);
  const std::size_t colon = rest.find(':');
  std::optional<int> hour, minute = 0;
  if (colon != std::string_view::npos) {
    hour = whole(rest.substr(0, colon));
    minute = rest.size() - colon == 3 ? whole(rest.substr(colon + 1)) : std::nullopt;
  } else if (rest.size() == 4) {
    hour = whole(rest.substr(0, 2));
    minute = whole(rest.substr(2));
  } else {
    hour = whole(rest);
  }
  if (!hour || !minute || *hour > 14 || *minute > 59) return std::nullopt;
  const seconds offset = sign * (hours(*hour) + minutes(*minute));
  const auto padded = [](int v) { return (v < 10 ? "0" : "") + std::to_string(v); };
  const std::string name = offset == seconds(0) ? "UTC" : std::string("UTC") + (sign < 0 ? "-" : "+") + padded(*hour) + ":" + padded(*minute);
  return ZoneOffsets{name, {{Instant{}, offset}}};
}

}  // namespace redd
