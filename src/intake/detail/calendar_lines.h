#pragma once
// The lines of an iCalendar file that matter here, unfolded: events and zones with their times, repetitions, summaries and keys.
// Everything else (descriptions, places, people, alarms, pictures) is dropped before anything reads it.

#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace redd::intake::detail {

struct CalendarLines {
  std::string name{};                      ///< of the calendar
  std::string text{};                      ///< one VCALENDAR with the zones and events of the file
  std::vector<std::size_t> event_lines{};  ///< line of each event's BEGIN in the file, in the order of `text`
  std::size_t without_place = 0;           ///< tasks, journals and the like that were dropped
};

/// In      text: UTF-8.
/// Errors  not_a_calendar, cut_off, broken_structure, too_many_events.
Result<CalendarLines> calendar_lines(std::string_view text);

}  // namespace redd::intake::detail
