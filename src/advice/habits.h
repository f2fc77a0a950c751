#pragma once
// What the log says of when this class tests its water, so that the weekly sitting is planned for a day that gets done.

#include <optional>
#include <vector>

#include "inference/belief.h"
#include "records/school_calendar.h"

namespace redd::advice {

/// Days of the week counted from Sunday (0).
struct Habits {
  struct Weekday {
    unsigned weekday = 0;
    int times = 0;                              ///< it went so
    int of = 0;                                 ///< of so many last times
    std::vector<records::RecordId> records{};   ///< newest reading of each sitting, and answers to advice
  };
  std::optional<Weekday> usual{};    ///< the sittings fall on it
  std::vector<Weekday> avoided{};    ///< sittings due on it are left out
};

/// In      records: effective ones. belief: of the same moment, for the days of the sittings.
/// Out     a habit is 3 of the last 4: sittings of at least four of the six tests for the usual day; for an avoided one, days of that
///         weekday with the school open on which a sitting was due (a week after the last) or was answered with skipped or not now, against
///         those on which one was held.
/// Assumed: 3 of 4. A class that tests on any of five days alike would show a usual weekday by chance in about one look of seven (5 (4 0.2^3 0.8 +
///         0.2^4) = 0.14); what follows from it, a day or two, does no harm.
Habits habits_of(const std::vector<records::Record>& records, const inference::Belief& belief, const records::SchoolCalendar& school, const ZoneOffsets& zone,
                 Instant now);

/// The day for a sitting due on `due`, by habit: the usual weekday, else the school day before an avoided one. Never more than two days earlier
/// or one later, so that no reading gets older than eight days.
Date by_habit(const Habits& habits, const records::SchoolCalendar& school, Date due);

}  // namespace redd::advice
