#pragma once
// An iCalendar file as events with all their repetitions placed in the school's days. The only file that knows libical.

#include <string>
#include <string_view>
#include <vector>

#include "intake/calendar.h"

namespace redd::intake::detail {

/// One time an event takes place.
struct Span {
  bool whole_days = false;
  Date first{}, last{};   ///< whole days: both included
  Instant begin{}, end{}; ///< timed: end >= begin
};

struct CalendarEvent {
  std::size_t line = 0;  ///< of its BEGIN, counted from 1
  std::string uid{};
  std::string summary{};
  bool cancelled = false;
  std::vector<Span> spans{};  ///< within the context's days, in order of time
  bool listed = false;        ///< from a list of closed days: taken whatever its words say
  std::optional<std::chrono::minutes> shut_from{};  ///< of a listed day
  Phrase problem{};      ///< why it can't be read, one sentence; then there are no spans
};

struct CalendarFile {
  std::string name{};
  std::vector<CalendarEvent> events{};
  std::vector<Phrase> notes{};
};

/// Errors  as preview_calendar().
Result<CalendarFile> events_of(std::string_view bytes, const CalendarContext& context);

}  // namespace redd::intake::detail
