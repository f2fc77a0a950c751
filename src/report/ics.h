#pragma once
// Days and times as an iCalendar text any calendar program takes in. Start at ics_text(). Pure: the stamp is given, nothing is looked up.
// Source  RFC 5545 (iCalendar): 3.1 content lines and folding, 3.3.11 escaping, 3.6.1 events, 3.6.6 alarms; RFC 7986, 5.1 NAME.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantities/time.h"

namespace redd::report {

/// One event: whole days, or a span of time.
struct IcsEvent {
  std::string uid{};                    ///< see ics_uid(); the same event keeps it from file to file
  std::optional<Date> day{};            ///< a whole-day event; then from and to are not looked at
  std::optional<Date> last_day{};       ///< included; absent: that one day
  Instant from{};                       ///< a timed event
  Instant to{};                         ///< >= from; equal: a moment
  std::string summary{};
  std::string description{};
  std::optional<long long> sequence{};  ///< >= 0, greater in a later file that says something else
  std::optional<int> alarm_minutes{};   ///< before the beginning (of the day: its midnight); negative: after it, e.g. -450 for 07:30
};

/// A calendar of events.
///
/// In      texts: any bytes; what is no UTF-8 is shown as U+FFFD, control characters other than line breaks and tabs are left out.
///         name: of the calendar. stamp: when it was made.
/// Out     CRLF lines of at most 75 octets, no UTF-8 sequence split; times in UTC, so that no zone is needed.
std::string ics_text(std::span<const IcsEvent> events, std::string_view name, Instant stamp);

/// A uid that depends on nothing but these two: the season (its name and first day) and what the event is ("hatch", "test 2031-01-20").
std::string ics_uid(std::string_view season, std::string_view what);

}  // namespace redd::report
