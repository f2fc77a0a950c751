#pragma once
// A plain list of the days a school is closed, one closure a line, as events: "2030-12-23 to 2031-01-03, Winter break".

#include <string_view>

#include "intake/detail/calendar_events.h"

namespace redd::intake::detail {

/// Whether any line holds a day written as 2030-12-23. In: UTF-8.
bool lists_days(std::string_view text);

/// One event a line: a day or two (first and last), a time from which the school shuts, and a name, in any order and between any of space,
/// comma, semicolon and tab. A line without a digit before the first day is a header; lines that begin with # are left out. A line with
/// other digits but no day is an event that can't be read.
///
/// Errors  too_many_events.
Result<CalendarFile> listed_days(std::string_view text, const CalendarContext& context);

}  // namespace redd::intake::detail
