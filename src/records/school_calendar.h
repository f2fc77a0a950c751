#pragma once
// When the school is open, and who looks after the tank: closures and duties of the log as answers about a day. Start at SchoolCalendar.

#include <array>
#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "records/record.h"

namespace redd::records {

/// Which days of the week have school, from Sunday (0) to Saturday (6).
using Weekdays = std::array<bool, 7>;
inline constexpr Weekdays monday_to_friday{false, true, true, true, true, true, false};

/// "mon tue wed thu fri", "Sunday, Monday" to weekdays: English names or their first three letters or more, between spaces or commas;
/// also a span, "mon-fri". Nothing when a word is no weekday or none is named.
std::optional<Weekdays> weekdays_from_text(std::string_view text);

/// "12:30", "7:05" to minutes after midnight; nothing when it is no time of a day (00:00 to 23:59).
std::optional<std::chrono::minutes> clock_from_text(std::string_view text);
/// Minutes after midnight as "07:05".
std::string clock_text(std::chrono::minutes time);

/// First and last closed day of a closure, or of a duty.
Date last_day_of(const Closure& closure);
Date last_day_of(const Duty& duty);

/// The school's days as far as the log knows them. A small value: copies are independent of the records it was made from.
class SchoolCalendar {
 public:
  /// Every Monday to Friday is open.
  SchoolCalendar() = default;
  /// In      effective records. Closures and duties may overlap.
  explicit SchoolCalendar(std::span<const Record> effective_records);

  /// A day of the week with school, whatever was logged.
  bool is_school_weekday(Date day) const;
  /// Open at least part of the day.
  bool is_open(Date day) const;
  /// The whole-day closure logged for this day; the first logged of several. Nothing on an ordinary weekend.
  std::optional<Closure> closure_on(Date day) const;
  /// The first open day after this one; nothing within three years.
  std::optional<Date> next_open_day(Date day) const;
  /// The last open day before this one; nothing within three years.
  std::optional<Date> last_open_day_before(Date day) const;
  /// Days closed one after the other from this one, weekends counted; 0 when it is open, at most three years.
  int closed_days_from(Date day) const;
  /// Local time the school shuts early on an open day: the earliest logged. Nothing on an ordinary or closed day.
  std::optional<std::chrono::minutes> shut_from(Date day) const;
  /// Labels on duty, in the order of the log, each once.
  std::vector<std::string> on_duty(Date day) const;

  const std::vector<Closure>& closures() const { return closures_; }
  const std::vector<Duty>& duties() const { return duties_; }

 private:
  Weekdays weekdays_ = monday_to_friday;
  std::vector<Closure> closures_{};
  std::vector<Duty> duties_{};
};

}  // namespace redd::records
