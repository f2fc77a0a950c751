#pragma once
// The diary of the season ahead as a calendar file, and day by day for a wall calendar.

#include <string>

#include "report/numbers.h"
#include "season/diary.h"
#include "wire/json.h"

namespace redd::report {

struct DiaryIcs {
  bool closures = false;  ///< also the days the school is closed, which most keepers have in their calendar already
  bool alarms = true;     ///< a reminder at 07:30 of the day for what is to be done
};

/// An iCalendar text of whole-day events: set-points, chill steps, the eggs, windows of stages and permit, weekly tests, duties.
///
/// In      stamp: when the file is made. The diary's times are whole local days, so no time zone is needed.
/// Out     the same entry has the same UID in every file of the season; SEQUENCE grows with the log.
std::string diary_ics(const season::Diary& diary, Instant stamp, const DiaryIcs& wanted = {}, const Reader& reader = {});

/// WallView of docs/openapi.json: one entry a day from `from` to `to`, both included.
wire::Json wall_json(const season::Diary& diary, Date from, Date to, const Reader& reader = {});

}  // namespace redd::report
