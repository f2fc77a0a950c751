#pragma once
// Instants, calendar days and the school's time zone, without a clock and without reading a zone file.
// The rim resolves a zone name once into ZoneOffsets (a list of changes); the core then turns instants into
// school-local days and back, across daylight saving and leap days.

#include <chrono>
#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace redd {

/// A moment, UTC, whole seconds.
using Instant = std::chrono::sys_seconds;
/// A span in days, fractions allowed.
using Days = std::chrono::duration<double, std::ratio<86400>>;
/// A calendar day in the school's own calendar (no zone attached).
using Date = std::chrono::local_days;

/// From this UTC instant on, local time = UTC + offset.
struct OffsetChange {
  Instant from{};
  std::chrono::seconds offset{};
  friend bool operator==(const OffsetChange&, const OffsetChange&) = default;
};

/// A named zone as the list of its offset changes, oldest first. Before the first change the first offset holds.
struct ZoneOffsets {
  std::string name = "UTC";
  std::vector<OffsetChange> changes{};
  friend bool operator==(const ZoneOffsets&, const ZoneOffsets&) = default;
};

/// Offset in force at an instant; zero for an empty list.
std::chrono::seconds offset_at(const ZoneOffsets& zone, Instant at);

/// Local wall time at an instant.
std::chrono::local_seconds local_time(const ZoneOffsets& zone, Instant at);

/// The school-local calendar day of an instant.
Date local_day(const ZoneOffsets& zone, Instant at);

/// The instant of a local wall time. A time skipped by a forward change is read with the offset before the gap
/// (RFC 5545, 3.3.5); a time that occurs twice means its first occurrence (same section).
Instant instant_of(const ZoneOffsets& zone, std::chrono::local_seconds local);

/// True when this local time does not exist or exists twice, so that a form may ask.
bool is_ambiguous_or_skipped(const ZoneOffsets& zone, std::chrono::local_seconds local);

/// First instant of a local day (a day may last 23, 24 or 25 hours).
Instant start_of_day(const ZoneOffsets& zone, Date day);

/// Length of a local day.
Days length_of_day(const ZoneOffsets& zone, Date day);

/// "2031-02-28" to a day, or nothing when the text is not an existing day in that exact form. Years 1900-2199.
std::optional<Date> date_from_iso(std::string_view text);
std::string iso_from_date(Date day);

/// "2031-02-28T07:05:00Z" (or with +hh:mm) to an instant, RFC 3339 with mandatory offset; nothing when malformed.
std::optional<Instant> instant_from_rfc3339(std::string_view text);
/// Always UTC with a trailing Z.
std::string rfc3339_from_instant(Instant at);
/// With the zone's own offset, e.g. "2031-02-28T07:05:00-07:00".
std::string rfc3339_local(const ZoneOffsets& zone, Instant at);

/// Signed span between two instants in days.
constexpr Days days_between(Instant from, Instant to) { return to - from; }
/// An instant so many days later, rounded to the second.
constexpr Instant after_days(Instant from, double days) {
  return from + std::chrono::round<std::chrono::seconds>(Days(days));
}

}  // namespace redd
