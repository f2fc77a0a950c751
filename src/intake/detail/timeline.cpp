#include "intake/detail/timeline.h"

#include <algorithm>

#include "intake/detail/cells.h"
#include "quantities/verbatim.h"
#include "zones/zones.h"

namespace redd::intake::detail {
namespace {

using namespace std::chrono;

/// An offset stated above the data, such as "GMT-07:00" or "(UTC)".
std::optional<ZoneOffsets> stated_zone(const Table& table) {
  std::vector<std::string> texts = table.titles;
  texts.push_back(table.headers[table.date_column]);
  if (table.time_column) texts.push_back(table.headers[*table.time_column]);
  for (const std::string& text : texts)
    for (const char* word : {"gmt", "utc"}) {
      const std::string low = lower(text);
      const std::size_t at = low.find(word);
      // Whole words only: "utc" inside another word says nothing.
      if (at == std::string::npos || (at > 0 && low[at - 1] >= 'a' && low[at - 1] <= 'z')) continue;
      std::size_t end = at + 3;
      if (end < low.size() && low[end] >= 'a' && low[end] <= 'z') continue;
      std::string token = "UTC";
      while (end < low.size() && low[end] == ' ') ++end;
      if (end < low.size() && (low[end] == '+' || low[end] == '-'))
        do token += low[end++];
        while (end < low.size() && (low[end] == ':' || (low[end] >= '0' && low[end] <= '9')));
      if (const auto zone = zones::fixed_zone(token)) return zone;
    }
  return std::nullopt;
}

/// What a trace shows about the clock it was written by.
struct ClockEvidence {
  bool in_skipped_hour = false;     ///< a time that no local clock ever showed
  bool repeats = false;             ///< times step back inside the hour that occurs twice
  bool passes_without_repeat = false;  ///< …or pass through it once only
  bool crosses_change = false;
};

ClockEvidence evidence(const std::vector<RowTime>& times, const ZoneOffsets& zone) {
  ClockEvidence result;
  std::size_t in_double_hour = 0;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const local_seconds local = times[i].local;
    if (i > 0 && offset_at(zone, Instant{local.time_since_epoch()}) != offset_at(zone, Instant{times[i - 1].local.time_since_epoch()})) result.crosses_change = true;
    if (!is_ambiguous_or_skipped(zone, local)) continue;
    if (local_time(zone, instant_of(zone, local)) != local) {
      result.in_skipped_hour = true;
      continue;
    }
    ++in_double_hour;
    if (i > 0 && local <= times[i - 1].local) result.repeats = true;
  }
  result.passes_without_repeat = in_double_hour > 1 && !result.repeats;
  return result;
}

std::string fixed_name(seconds offset) {
  const auto size = offset < seconds(0) ? -offset : offset;
  const auto pad = [](long long v) { return (v < 10 ? "0" : "") + std::to_string(v); };
  return offset == seconds(0) ? "UTC" : std::string("UTC") + (offset < seconds(0) ? "-" : "+") + pad(size / hours(1)) + ":" + pad(size % hours(1) / minutes(1));
}

Result<ZoneOffsets> zone_of(const std::vector<RowTime>& times, bool is_trace, const Table& table, const Settings& settings,
                            const Context& context, Preview& preview) {
  if (settings.time_zone) {
    const auto [first, last] = std::ranges::minmax(times, {}, &RowTime::local);
    auto zone = zones::zone_offsets(*settings.time_zone, floor<days>(first.local), floor<days>(last.local));
    if (zone) add_guess(preview, "time_zone", zone->name, Certainty::given, "you said so");
    return zone;
  }
  if (std::ranges::all_of(times, [](const RowTime& t) { return t.offset.has_value(); })) return context.zone;
  if (const auto stated = stated_zone(table)) {
    add_guess(preview, "time_zone", stated->name, Certainty::certain, "the file says so above its rows", {context.zone.name});
    return *stated;
  }
  if (is_trace) {
    const ClockEvidence seen = evidence(times, context.zone);
    if (seen.in_skipped_hour || seen.passes_without_repeat) {
      const seconds offset = offset_at(context.zone, instant_of(context.zone, times.front().local));
      const ZoneOffsets fixed = *zones::fixed_zone(fixed_name(offset));
      add_guess(preview, "time_zone", fixed.name, Certainty::open,
                "the logger's clock was not changed with daylight saving; its offset is taken from the first row", {context.zone.name});
      return fixed;
    }
    if (seen.repeats) {
      add_guess(preview, "time_zone", context.zone.name, Certainty::likely, "the times repeat an hour where the clocks of the season's zone do", {"UTC"});
      return context.zone;
    }
  }
  add_guess(preview, "time_zone", context.zone.name, Certainty::likely, "the file does not say; times are read as the season's local time", {"UTC"});
  return context.zone;
}

}  // namespace

Result<Window> window_of(const Settings& settings, const ZoneOffsets& zone) {
  Window window;
  for (const auto& [text, name, moment] : {std::tuple(&settings.from, "from", &window.from), std::tuple(&settings.to, "to", &window.end)}) {
    if (!*text) continue;
    const bool is_end = moment == &window.end;
    if (const auto day = date_from_iso(**text)) *moment = start_of_day(zone, *day + days(is_end ? 1 : 0));
    else if (const auto at = instant_from_rfc3339(**text)) *moment = *at + seconds(is_end ? 1 : 0);
    else return Problem{"not_a_time", name, said("\"{0}\" is not a day like 2031-02-28 or a time like 2031-02-28T07:50:00-07:00.", shown(**text))};
  }
  return window;
}

Result<std::vector<PlacedTime>> placed_in_time(const std::vector<RowTime>& given, bool is_trace, const Table& table,
                                               const Settings& settings, const Context& context, Preview& preview) {
  if (given.empty()) return std::vector<PlacedTime>{};
  // Some loggers write the newest row first.
  const bool newest_first = is_trace && given.front().local > given.back().local;
  std::vector<RowTime> times = given;
  if (newest_first) std::ranges::reverse(times);
  auto zone = zone_of(times, is_trace, table, settings, context, preview);
  if (!zone) return zone.problems();
  std::vector<PlacedTime> placed;
  std::size_t in_second_half = 0;
  std::optional<Instant> before;
  for (const RowTime& time : times) {
    if (time.offset) {
      before = Instant{time.local.time_since_epoch() - *time.offset};
      placed.emplace_back(*before);
      continue;
    }
    Instant at = instant_of(*zone, time.local);
    if (local_time(*zone, at) != time.local) {
      placed.emplace_back(Problem{"time_did_not_exist", "time_zone",
                                  said("this time did not exist in {0}: the clocks were put forward over it. If the clock was not changed, give its fixed offset, e.g. {1}.", verbatim(zone->name), verbatim(fixed_name(offset_at(*zone, at))))});
      continue;
    }
    if (is_trace && before && at <= *before && is_ambiguous_or_skipped(*zone, time.local)) {
      // The second time round: later by as much as the clocks were put back.
      const seconds back = offset_at(*zone, at) - offset_at(*zone, at + hours(3));
      if (back > seconds(0) && local_time(*zone, at + back) == time.local) {
        at += back;
        ++in_second_half;
      }
    }
    before = at;
    placed.emplace_back(at);
  }
  if (in_second_half > 0)
    preview.notes.push_back(said("An hour occurs twice where the clocks were put back; {0, plural, one {# row was} other {# rows were}} placed in its second half by the order of the rows.", in_second_half));
  if (newest_first) std::ranges::reverse(placed);
  return placed;
}

}  // namespace redd::intake::detail
