#include "zones/zones.h"

#include <date/tz.h>

#include <algorithm>
#include <cstdlib>
#include <exception>

#include "quantities/verbatim.h"

namespace redd::zones {
namespace {

using namespace std::chrono;

/// Zone files list changes of daylight saving up to here; the rule for later years is not read.
constexpr sys_seconds last_listed_change{sys_days{year(2037) / December / 31}};

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return result;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t cost = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
      diagonal = row[j];
      row[j] = cost;
    }
  }
  return row[b.size()];
}

/// How far a typed name is from a zone: the whole name, or only its city ("denver").
std::size_t distance(const std::string& typed, const std::string& zone) {
  const std::size_t slash = zone.rfind('/');
  const std::string city = slash == std::string::npos ? zone : zone.substr(slash + 1);
  const std::size_t typed_slash = typed.rfind('/');
  const std::string typed_city = typed_slash == std::string::npos ? typed : typed.substr(typed_slash + 1);
  return std::min(edit_distance(typed, zone), edit_distance(typed_city, city) + (typed_slash == std::string::npos ? 0 : 1));
}

std::string nearest_names(std::string_view name) {
  const std::string typed = lower(name);
  std::vector<std::pair<std::size_t, std::string>> ranked;
  for (const std::string& zone : zone_names()) ranked.emplace_back(distance(typed, lower(zone)), zone);
  const auto count = std::min<std::size_t>(3, ranked.size());
  std::ranges::partial_sort(ranked, ranked.begin() + static_cast<std::ptrdiff_t>(count));
  std::string names;
  for (std::size_t i = 0; i < count; ++i) names += (i ? ", " : "") + ranked[i].second;
  return names;
}

Problem missing_files() {
  return {"zone_files_missing", "time_zone",
          "This computer has no time zone files: install the package tzdata, or give a fixed offset such as UTC-07:00."};
}

/// Nothing when the library finds no files at all.
const date::tzdb* zone_files() {
  try {
    const date::tzdb& files = date::get_tzdb();
    return files.zones.empty() ? nullptr : &files;
  } catch (const std::exception&) {
    return nullptr;
  }
}

ZoneOffsets offsets_between(const date::time_zone& zone, std::string_view name, sys_seconds from, sys_seconds to) {
  ZoneOffsets result{std::string(name), {}};
  for (sys_seconds at = from; at <= to;) {
    const date::sys_info info = zone.get_info(at);
    if (result.changes.empty() || result.changes.back().offset != info.offset)
      result.changes.push_back({std::max(from, sys_seconds{info.begin.time_since_epoch()}), info.offset});
    at = sys_seconds{info.end.time_since_epoch()};
  }
  return result;
}

}  // namespace

Result<ZoneOffsets> zone_offsets(std::string_view iana_name, Date from, Date to) {
  if (const auto fixed = fixed_zone(iana_name)) return *fixed;
  const date::tzdb* files = zone_files();
  if (!files) return missing_files();
  // The library looks a name up as a file; only names it lists itself are let through to it.
  const auto found = std::ranges::find_if(files->zones, [&](const date::time_zone& zone) { return zone.name() == iana_name; });
  if (found == files->zones.end())
    return Problem{"unknown_time_zone", "time_zone",
                   said("\"{0}\" is not a time zone. Nearest names: {1}; or a fixed offset such as UTC-07:00.", verbatim(iana_name.substr(0, 64)), verbatim(nearest_names(iana_name)))};
  const sys_seconds start = sys_seconds{from.time_since_epoch()} - days(2);
  const sys_seconds end = std::max(start, sys_seconds{to.time_since_epoch()} + days(3));
  try {
    ZoneOffsets result = offsets_between(*found, iana_name, start, end);
    if (end > last_listed_change) {
      const ZoneOffsets last_year = offsets_between(*found, iana_name, last_listed_change - days(364), last_listed_change);
      if (last_year.changes.size() > 1)
        return Problem{"time_zone_too_far", "time_zone",
                       said("The time zone files of this computer list daylight saving in {0} to the end of 2037 only: choose earlier dates, or give a fixed offset such as UTC-07:00.", verbatim(iana_name))};
    }
    return result;
  } catch (const std::exception&) {
    return Problem{"zone_files_missing", "time_zone",
                   said("The time zone file of {0} can't be read: install the package tzdata again.", verbatim(iana_name))};
  }
}

Result<ZoneOffsets> season_zone(const records::SeasonSetup& season) {
  auto zone = zone_offsets(season.time_zone, season.first_day - days(366), season.first_day + days(3 * 366));
  if (zone) return zone;
  Problems problems = zone.problems();
  for (Problem& p : problems) p.field = "/body/time_zone";
  return problems;
}

std::string machine_zone_name() {
  // NOLINTNEXTLINE(concurrency-mt-unsafe): read once at start, nothing here sets the environment
  if (const char* variable = std::getenv("TZ")) {
    std::string_view name = variable;
    if (name.starts_with(':')) name.remove_prefix(1);
    for (const std::string& zone : zone_names())
      if (zone == name) return zone;
  }
  try {
    return date::current_zone()->name();
  } catch (const std::exception&) {
    return "UTC";
  }
}

std::vector<std::string> zone_names() {
  std::vector<std::string> names;
  if (const date::tzdb* files = zone_files())
    for (const date::time_zone& zone : files->zones) names.push_back(zone.name());
  std::ranges::sort(names);
  return names;
}

}  // namespace redd::zones
