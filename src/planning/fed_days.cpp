#include "planning/fed_days.h"

namespace redd::planning {

int closed_run(const records::SchoolCalendar& calendar, Date day) {
  using std::chrono::days;
  constexpr int farthest_back = 30;
  if (calendar.is_open(day)) return 0;
  Date begin = day;
  for (int i = 0; i < farthest_back && !calendar.is_open(begin - days(1)); ++i) begin -= days(1);
  return calendar.closed_days_from(begin);
}

bool somebody_feeds(const records::SchoolCalendar& calendar, Date day) {
  return !calendar.on_duty(day).empty() || closed_run(calendar, day) < shortest_break_days;
}

}  // namespace redd::planning
