// The brood: the share alive day by day, and the dead found at each look beside what was to be expected.
#include <algorithm>
#include <cmath>

#include "print/detail/axes.h"
#include "print/detail/kinds_of_chart.h"
#include "quantities/verbatim.h"

namespace redd::print {
namespace {

using report::Reader;
using wire::Json;
using Sample = Chart::Sample;

}  // namespace

Chart survival_chart(Chart chart, const Json& counts, const Reader& reader) {
  chart.title = report::say(reader, "Share alive, of those received");
  chart.unit = "%";
  chart.description = string_of(counts["sentence"]);
  if (counts["curve"].empty()) {
    chart.empty = chart.description;
    return chart;
  }
  Chart::Band band{Chart::Band::Kind::measured, true, {}};
  double lowest = 100;
  for (const Json& step : counts["curve"]) {
    const Json& share = step["survival_fraction"];
    const auto percent = [&](const char* key) { return 100 * number_of(share[key]).value_or(0); };
    band.points.push_back({day_number(step["day"]), percent("low"), percent("mid"), percent("high")});
    lowest = std::min(lowest, percent("low"));
  }
  chart.first_day = band.points.front().day - 1;
  chart.last_day = std::max(chart.last_day, chart.first_day + 7);
  band.points.push_back(band.points.back());
  band.points.back().day = chart.last_day;
  chart.bands.push_back(std::move(band));
  // From nought, unless little is lost: then the drop would not be seen. The axis says where it begins.
  chart.low = lowest > 70 ? 50 : 0, chart.high = 102;
  const Json& end = counts["curve"].back()["survival_fraction"];
  chart.description = report::say(reader, "At the end: {0}.", verbatim(string_of(end["text"]))) + " " + string_of(counts["curve_caption"]);
  mark_days(chart, reader);
  mark_values(chart, reader);
  chart.key.push_back({Sample::survival, report::say(reader, "alive, with nine chances in ten")});
  return chart;
}

Chart losses_chart(Chart chart, const Json& counts, const Reader& reader) {
  chart.title = report::say(reader, "Dead found at each look");
  const Json& losses = counts["losses"];
  if (losses["looks"].empty()) {
    chart.description = chart.empty = report::say(reader, "No count of dead is logged yet.");
    return chart;
  }
  double most = 3;
  long long died = 0;
  for (const Json& look : losses["looks"]) {
    chart.bars.push_back({day_number(look["day"]) + 0.5, number_of(look["died"]).value_or(0), number_of(look["expected"]).value_or(0), look["signals"].is_boolean() && look["signals"].get<bool>()});
    died += std::lround(chart.bars.back().count);
    most = std::max({most, chart.bars.back().count, chart.bars.back().expected});
  }
  chart.description = report::say(reader, "{0} found dead at {1, plural, one {# look} other {# looks}}, and what would be usual at each.", {Number{died}, Number{static_cast<long long>(chart.bars.size())}});
  chart.first_day = chart.bars.front().day - 2;
  chart.last_day = std::max(chart.last_day, chart.first_day + 7);
  chart.low = 0, chart.high = most * 1.15;
  mark_days(chart, reader);
  mark_values(chart, reader, true);
  chart.key = {{Sample::bar, report::say(reader, "found dead")}, {Sample::expected, report::say(reader, "to be expected")}};
  if (std::ranges::any_of(chart.bars, &Chart::Bar::signals)) chart.key.push_back({Sample::signal, report::say(reader, "more than expected")});
  return chart;
}

}  // namespace redd::print
