#include "print/charts.h"

#include <algorithm>
#include <array>

#include "print/detail/axes.h"
#include "print/detail/kinds_of_chart.h"
#include "report/counts_view.h"
#include "report/day_json.h"

namespace redd::print {
namespace {

using wire::Json;

constexpr std::array<std::string_view, 11> names{"temperature", "survival", "losses", "total_ammonia", "un_ionized_ammonia", "nitrite", "nitrate", "ph", "alkalinity", "hardness", "oxygen"};

/// From the first day of the season to the day looked at; a season that ended long ago, to a week after its last entry.
Chart of_season(std::string_view name, const season::DayView& day, std::optional<Date> from) {
  Chart chart;
  chart.name = name;
  Date last = day.season.first_day;
  for (const auto& record : day.records) last = std::max(last, local_day(day.zone, record.entry.at));
  const Date today = local_day(day.zone, day.now);
  chart.first_day = day_number(std::max(day.season.first_day, from.value_or(day.season.first_day)));
  chart.last_day = std::max(chart.first_day + 7, 1 + day_number(std::min(today, last + std::chrono::days(7))));
  return chart;
}

std::string all_names() {
  std::string all;
  for (const auto name : names) all += (all.empty() ? "" : ", ") + std::string(name);
  return all;
}

}  // namespace

std::span<const std::string_view> chart_names() { return names; }

Result<Chart> chart_of(std::string_view name, const season::DayView& day, const season::CountsLook& counts, const report::Reader& given, std::optional<Date> from) {
  if (std::ranges::find(names, name) == names.end())
    return Problem{"no_such_chart", "name", said("There is no such chart. Those there are: {0}.", all_names())};
  report::Reader reader = given;
  reader.zone = day.zone;
  Chart chart = of_season(name, day, from);
  if (name == "survival") return survival_chart(std::move(chart), report::counts_json(counts, reader), reader);
  if (name == "losses") return losses_chart(std::move(chart), report::counts_json(counts, reader), reader);
  const auto view = wire::parsed(report::day_json(day, reader));
  if (!view) return view.problems();
  if (name == "temperature") return temperature_chart(std::move(chart), (*view)["season_line"], reader);
  for (const Json& water : (*view)["water"])
    if (string_of(water["key"]) == name) return water_chart(std::move(chart), water, day.zone, reader);
  // Nobody has read it, and nothing is said of it.
  chart.title = report::say(reader, "Nothing has been measured");
  chart.empty = chart.description = report::say(reader, "Nothing has been measured yet that this chart could show.");
  return chart;
}

}  // namespace redd::print
