#pragma once
// On which days somebody feeds, as far as calendar and duties tell.

#include "records/school_calendar.h"

namespace redd::planning {

/// A closed weekend is no break: common practice has somebody look in. From three closed days on, nobody feeds unless somebody is on duty.
inline constexpr int shortest_break_days = 3;

/// Closed days around this one, itself included; 0 when the school is open.
int closed_run(const records::SchoolCalendar& calendar, Date day);

bool somebody_feeds(const records::SchoolCalendar& calendar, Date day);

}  // namespace redd::planning
