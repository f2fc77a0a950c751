// Readings of one quantity of the water as what each allows, with the season's normal range and the limits; and the temperature day by day.
#include <algorithm>
#include <cmath>

#include "print/detail/axes.h"
#include "print/detail/kinds_of_chart.h"
#include "quantities/temperature.h"
#include "quantities/verbatim.h"

namespace redd::print {
namespace {

using report::Reader;
using wire::Json;
using Sample = Chart::Sample;

double shown_c(double value_c, const Reader& reader) { return reader.fahrenheit ? Temperature::from_c(value_c).f() : value_c; }
std::string temperature_unit(const Reader& reader) { return reader.fahrenheit ? "°F" : "°C"; }

Chart::Reading reading_of(const Json& point, const ZoneOffsets& zone) {
  const double low = number_of(point["low"]).value_or(0);
  return {day_number(point["at"], zone), low, number_of(point["mid"]).value_or(low), number_of(point["high"]), false};
}

/// As high as what is drawn needs, with the nearest limit in sight, but not much beyond.
void set_height(Chart& chart, const Json& water) {
  const double least = number_of(water["axis"]["min"]).value_or(0), most = number_of(water["axis"]["max"]).value_or(1);
  double needed = least, nearest = most;
  for (const auto& reading : chart.readings) needed = std::max(needed, reading.high.value_or(reading.mid));
  for (const Json& limit : water["limits"])
    if (const double value = number_of(limit["value"]).value_or(least); value > least) nearest = std::min(nearest, value);
  needed = std::max(needed, nearest);
  const bool may_be_negative = least != 0;
  chart.high = std::max(least + (needed - least) * 1.15, least + 1e-6);
  chart.low = may_be_negative ? least - (chart.high - least) * 0.06 : 0;
}

void add_key(Chart& chart, const Json& water, const Reader& reader) {
  const auto any = [&](auto which) { return std::ranges::any_of(chart.readings, which); };
  if (any([](const auto& r) { return r.high && !r.worked_out; })) chart.key.push_back({Sample::reading, report::say(reader, "reading: all values that the card allows")});
  if (any([](const auto& r) { return !r.high && !r.worked_out; })) chart.key.push_back({Sample::open_reading, report::say(reader, "beyond the card: at least this much")});
  if (any([](const auto& r) { return r.worked_out; })) chart.key.push_back({Sample::worked_out, report::say(reader, "believed now, with its doubt")});
  if (!chart.usual.empty()) chart.key.push_back({Sample::usual, string_of(water["baseline"]["text"])});
}

}  // namespace

Chart water_chart(Chart chart, const Json& water, const ZoneOffsets& zone, const Reader& reader) {
  chart.title = string_of(water["name"]);
  chart.unit = string_of(water["unit_text"]);
  for (const Json& point : water["series"])
    if (const Chart::Reading reading = reading_of(point, zone); reading.day >= chart.first_day) chart.readings.push_back(reading);
  const Number readings{static_cast<long long>(chart.readings.size())};
  const Json& latest = water["latest"];
  if (latest.is_object() && latest["at"].is_string()) {
    Chart::Reading now = reading_of(latest, zone);
    now.worked_out = true;
    now.day = chart.last_day;
    chart.readings.push_back(now);
  }
  if (chart.readings.empty()) {
    chart.empty = report::say(reader, "{0}: nothing measured yet.", verbatim(chart.title));
    chart.description = chart.empty;
    return chart;
  }
  set_height(chart, water);
  if (const Json& usual = water["baseline"]; usual.is_object())
    chart.usual.push_back({chart.first_day, chart.last_day, *number_of(usual["lower"]), *number_of(usual["upper"])});
  for (const Json& limit : water["limits"])
    if (const auto value = number_of(limit["value"]); value && *value >= chart.low && *value <= chart.high)
      chart.limits.push_back({*value, string_of(limit["text"]), chart.first_day, chart.last_day});
  const Word name{verbatim(chart.title)};
  chart.description = latest.is_object() ? report::say(reader, "{0}: {1, plural, one {# reading} other {# readings}}; believed at the end: {2}.", {name, readings, Word{verbatim(string_of(latest["text"]))}})
                                         : report::say(reader, "{0}: {1, plural, one {# reading} other {# readings}}.", {name, readings});
  if (!chart.limits.empty()) chart.description += " " + report::say(reader, "The limits are those of the day that is looked at.");
  mark_days(chart, reader);
  mark_values(chart, reader);
  add_key(chart, water, reader);
  return chart;
}

Chart temperature_chart(Chart chart, const Json& line, const Reader& reader) {
  chart.title = report::say(reader, "Temperature of the tank");
  chart.unit = temperature_unit(reader);
  double low = 1e9, high = -1e9;
  const auto widen = [&](double a, double b) { low = std::min(low, a), high = std::max(high, b); };
  int measured = 0;
  double coldest = 1e9, warmest = -1e9;
  for (const Json& point : line["temperature"]) {
    const double day = day_number(point["day"]);
    if (day < chart.first_day) continue;
    if (day >= chart.last_day) break;
    const auto kind = string_of(point["kind"]) == "measured" ? Chart::Band::Kind::measured : Chart::Band::Kind::assumed;
    const Chart::Band::Point shown{day + 0.5, shown_c(*number_of(point["low"]), reader), shown_c(*number_of(point["mid"]), reader), shown_c(*number_of(point["high"]), reader)};
    if (chart.bands.empty() || chart.bands.back().kind != kind) {
      // A run reaches to the next one, so that a single day is seen.
      const auto joint = chart.bands.empty() ? std::optional<Chart::Band::Point>() : chart.bands.back().points.back();
      chart.bands.push_back({kind, false, {}});
      if (joint && kind == Chart::Band::Kind::assumed) chart.bands.back().points.push_back(*joint);
      else if (joint) chart.bands[chart.bands.size() - 2].points.push_back(shown);
    }
    chart.bands.back().points.push_back(shown);
    if (kind == Chart::Band::Kind::measured) {
      ++measured;
      coldest = std::min(coldest, *number_of(point["mid"])), warmest = std::max(warmest, *number_of(point["mid"]));
    }
    widen(shown.low, shown.high);
  }
  for (const Json& point : line["set_points"]) {
    const double mid = shown_c(*number_of(point["c"]), reader);
    chart.setting.push_back({day_number(point["day"]), mid, mid, mid});
    widen(mid, mid);
  }
  if (!chart.setting.empty()) chart.setting.push_back({chart.last_day, 0, chart.setting.back().mid, 0});
  for (const Json& band : line["bands"]) {
    const double from = day_number(band["from"]), to = std::min(day_number(band["to"]), chart.last_day);
    if (from >= to || to <= chart.first_day) continue;
    const auto at = [&](const char* key) { return shown_c(*number_of(band[key]), reader); };
    chart.comfort.push_back({from, to, at("green_low"), at("green_high")});
    chart.limits.push_back({at("red_high"), "", from, to});
    chart.limits.push_back({at("red_low"), "", from, to});
    widen(at("red_low"), at("red_high"));
  }
  if (low > high) {
    chart.empty = chart.description = report::say(reader, "{0}: nothing measured yet.", verbatim(chart.title));
    return chart;
  }
  chart.low = std::floor(low - 0.5), chart.high = std::ceil(high + 0.5);
  chart.description = measured == 0 ? report::say(reader, "No temperature has been measured yet.")
                                    : report::say(reader, "Temperature was measured on {0, plural, one {# day} other {# days}}, between {1} and {2}.",
                                                  {Number{measured}, Temperature::from_c(coldest), Temperature::from_c(warmest)});
  mark_days(chart, reader);
  mark_values(chart, reader);
  const auto has = [&](Chart::Band::Kind kind) { return std::ranges::any_of(chart.bands, [&](const auto& band) { return band.kind == kind; }); };
  if (has(Chart::Band::Kind::measured)) chart.key.push_back({Sample::measured, report::say(reader, "measured")});
  if (has(Chart::Band::Kind::assumed)) chart.key.push_back({Sample::assumed, report::say(reader, "assumed, not measured")});
  if (!chart.setting.empty()) chart.key.push_back({Sample::setting, report::say(reader, "chiller setting")});
  if (!chart.comfort.empty()) chart.key.push_back({Sample::comfort, report::say(reader, "good for this stage")});
  if (!chart.limits.empty()) chart.key.push_back({Sample::limit, report::say(reader, "harm beyond this line")});
  return chart;
}

}  // namespace redd::print
