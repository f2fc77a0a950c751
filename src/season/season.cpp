#include "season/season.h"

namespace redd::season {

Result<DayView> look_at_day(const Setup& setup, std::span<const records::Record> log, Instant now) {
  DayView day{now, setup.zone};
  day.records = records::effective(log, now);
  const records::SeasonSetup* season = records::find_season(day.records);
  if (!season) return Problem{"no_season", "", "No season had been set up by " + rfc3339_local(setup.zone, now) + ": set one up first."};
  day.season = *season;
  day.belief = inference::estimate(day.season, day.records, day.zone, now);
  day.advice = advice::advise(day.season, day.records, day.belief, day.zone, now);
  return day;
}

}  // namespace redd::season
