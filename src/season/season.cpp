#include "season/season.h"

namespace redd::season {
namespace {

/// The day up to what is believed of it.
Result<DayView> believed_day(const Setup& setup, std::span<const records::Record> log, Instant now) {
  DayView day{now, setup.zone};
  day.records = records::effective(log, now);
  const records::SeasonSetup* season = records::find_season(day.records);
  if (!season) return Problem{"no_season", "", "No season had been set up by " + rfc3339_local(setup.zone, now) + ": set one up first."};
  day.season = *season;
  day.belief = inference::estimate(day.season, day.records, day.zone, now);
  return day;
}

}  // namespace

Result<std::optional<FilterAsked>> filter_asked(const Setup& setup, std::span<const records::Record> log, Instant now) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  if (day->belief.brood.animals == inference::Animals::released) return std::optional<FilterAsked>{};
  return std::optional(FilterAsked{day->season, day->belief, inference::filter_case(day->season, day->records, day->belief, day->zone, now)});
}

Result<DayView> look_at_day(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter) {
  auto believed = believed_day(setup, log, now);
  if (!believed) return believed;
  DayView& day = believed.value();
  if (filter) day.filter = *filter;
  day.advice = advice::advise(day.season, day.records, day.belief, filter, day.zone, now);
  return believed;
}

}  // namespace redd::season
