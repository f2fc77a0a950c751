#include "quantities/time.h"

#include <algorithm>
#include <array>

namespace redd {
namespace {

using namespace std::chrono;

/// Reads exactly `width` digits at `pos`; nothing when one is missing.
std::optional<int> digits(std::string_view text, std::size_t pos, std::size_t width) {
  if (pos + width > text.size()) return std::nullopt;
  int value = 0;
  for (const char c : text.substr(pos, width)) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

std::string padded(int value, int width) {
  std::string text = std::to_string(value);
  return std::string(text.size() < static_cast<std::size_t>(width) ? width - text.size() : 0, '0') + text;
}

std::string iso_time(seconds since_midnight) {
  const hh_mm_ss time{since_midnight};
  return padded(static_cast<int>(time.hours().count()), 2) + ":" + padded(static_cast<int>(time.minutes().count()), 2) + ":" +
         padded(static_cast<int>(time.seconds().count()), 2);
}

/// The candidate instants of a local time: one per offset in force around it that maps back onto it.
struct Candidates {
  std::vector<Instant> exact;
  Instant before_gap;  ///< read with the offset in force before the change
};

Candidates candidates_of(const ZoneOffsets& zone, local_seconds local) {
  const Instant as_utc{local.time_since_epoch()};
  // No zone is further than 16 h from UTC, so the offsets in force a day on either side are all that can matter.
  std::vector<seconds> offsets{offset_at(zone, as_utc - hours(24))};
  for (const OffsetChange& change : zone.changes)
    if (change.from > as_utc - hours(24) && change.from <= as_utc + hours(24)) offsets.push_back(change.offset);
  Candidates found{{}, as_utc - offsets.front()};
  for (std::size_t i = 0; i < offsets.size(); ++i) {
    const Instant at = as_utc - offsets[i];
    if (local_time(zone, at) == local && std::ranges::find(found.exact, at) == found.exact.end())
      found.exact.push_back(at);
  }
  std::ranges::sort(found.exact);
  if (found.exact.empty()) {
    for (const OffsetChange& change : zone.changes) {
      const seconds before = offset_at(zone, change.from - seconds(1));
      const local_seconds gap_start{(change.from + before).time_since_epoch()};
      const local_seconds gap_end{(change.from + change.offset).time_since_epoch()};
      if (gap_start <= local && local < gap_end) found.before_gap = as_utc - before;
    }
  }
  return found;
}

}  // namespace

seconds offset_at(const ZoneOffsets& zone, Instant at) {
  if (zone.changes.empty()) return seconds(0);
  const auto after = std::ranges::upper_bound(zone.changes, at, {}, &OffsetChange::from);
  return after == zone.changes.begin() ? after->offset : std::prev(after)->offset;
}

local_seconds local_time(const ZoneOffsets& zone, Instant at) {
  return local_seconds{at.time_since_epoch() + offset_at(zone, at)};
}

Date local_day(const ZoneOffsets& zone, Instant at) { return floor<days>(local_time(zone, at)); }

Instant instant_of(const ZoneOffsets& zone, local_seconds local) {
  const Candidates found = candidates_of(zone, local);
  return found.exact.empty() ? found.before_gap : found.exact.front();
}

bool is_ambiguous_or_skipped(const ZoneOffsets& zone, local_seconds local) {
  return candidates_of(zone, local).exact.size() != 1;
}

Instant start_of_day(const ZoneOffsets& zone, Date day) {
  // Where midnight itself is skipped, RFC 3.3.5 reading lands exactly on the first instant after the gap.
  return instant_of(zone, local_seconds{day});
}

Days length_of_day(const ZoneOffsets& zone, Date day) {
  return start_of_day(zone, day + days(1)) - start_of_day(zone, day);
}

std::optional<Date> date_from_iso(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto y = digits(text, 0, 4), m = digits(text, 5, 2), d = digits(text, 8, 2);
  if (!y || !m || !d || *y < 1900 || *y > 2199) return std::nullopt;
  const year_month_day ymd{year(*y), month(static_cast<unsigned>(*m)), day(static_cast<unsigned>(*d))};
  if (!ymd.ok()) return std::nullopt;
  return Date{sys_days{ymd}.time_since_epoch()};
}

std::string iso_from_date(Date date) {
  const year_month_day ymd{sys_days{date.time_since_epoch()}};
  return padded(static_cast<int>(ymd.year()), 4) + "-" + padded(static_cast<int>(static_cast<unsigned>(ymd.month())), 2) +
         "-" + padded(static_cast<int>(static_cast<unsigned>(ymd.day())), 2);
}

std::optional<Instant> instant_from_rfc3339(std::string_view text) {
  if (text.size() < 20 || (text[10] != 'T' && text[10] != 't' && text[10] != ' ')) return std::nullopt;
  const auto date = date_from_iso(text.substr(0, 10));
  const auto hour = digits(text, 11, 2), minute = digits(text, 14, 2), second = digits(text, 17, 2);
  if (!date || !hour || !minute || !second || text[13] != ':' || text[16] != ':') return std::nullopt;
  if (*hour > 23 || *minute > 59 || *second > 59) return std::nullopt;
  std::string_view rest = text.substr(19);
  if (rest.starts_with('.')) {  // fractions of a second are below what a log needs
    const auto end = rest.find_first_not_of("0123456789", 1);
    if (end == 1 || end == std::string_view::npos) return std::nullopt;
    rest.remove_prefix(end);
  }
  seconds offset{0};
  if (rest != "Z" && rest != "z") {
    if (rest.size() != 6 || (rest[0] != '+' && rest[0] != '-') || rest[3] != ':') return std::nullopt;
    const auto off_h = digits(rest, 1, 2), off_m = digits(rest, 4, 2);
    if (!off_h || !off_m || *off_h > 18 || *off_m > 59) return std::nullopt;
    offset = (hours(*off_h) + minutes(*off_m)) * (rest[0] == '-' ? -1 : 1);
  }
  return Instant{date->time_since_epoch()} + hours(*hour) + minutes(*minute) + seconds(*second) - offset;
}

std::string rfc3339_from_instant(Instant at) {
  const auto day = floor<days>(at);
  return iso_from_date(Date{day.time_since_epoch()}) + "T" + iso_time(at - day) + "Z";
}

std::string rfc3339_local(const ZoneOffsets& zone, Instant at) {
  const local_seconds local = local_time(zone, at);
  const auto day = floor<days>(local);
  const auto offset = offset_at(zone, at);
  const auto size = offset < seconds(0) ? -offset : offset;
  return iso_from_date(day) + "T" + iso_time(local - day) + (offset < seconds(0) ? "-" : "+") + iso_time(size).substr(0, 5);
}

}  // namespace redd
