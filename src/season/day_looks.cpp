#include "season/day_looks.h"

#include "emergency/holds.h"
#include "planning/doubted_water.h"

namespace redd::season {
namespace {

/// First steps and times of an emergency cost the tank's heat, up to a tenth of a second: only when something is logged as failed.
std::vector<emergency::Emergency> emergencies_of(const DayView& day) {
  if (emergency::open_failures(day.records).empty()) return {};
  const auto heat = planning::heat_view(planning::tank_heat(day.season, day.records, day.belief, day.zone, day.now), day.season, day.belief, day.zone, day.now);
  return emergency::emergencies({day.season, day.records, day.belief, heat, day.now});
}

}  // namespace

DayLooks::DayLooks(const DayView& day, const planning::FilterOutlook* filter)
    : day_(day),
      filter_(filter),
      emergencies_(emergencies_of(day)),
      counts_(inference::counts_of(day.records, day.belief, day.zone, day.now)),
      feed_(planning::feed_plan(day.season, day.records, day.belief, records::SchoolCalendar(day.records), filter, day.zone, day.now)),
      loading_(planning::loading_view({day.season, day.records, day.belief, filter, day.zone, day.now})) {}

advice::Looks DayLooks::looks() const {
  advice::Looks looks;
  looks.emergencies = emergencies_;
  looks.counts = &counts_;
  if (feed_) looks.feed = &*feed_;
  looks.loading = &loading_;
  return looks;
}

std::optional<planning::WaterProgramme> DayLooks::water_programme(bool on_list) const {
  if (day_.belief.brood.animals == inference::Animals::released) return std::nullopt;
  auto now = inference::filter_case(day_.season, day_.records, day_.belief, day_.zone, day_.now);
  const planning::WaterAsked asked{day_.season, day_.records, day_.belief, now, filter_, day_.zone, day_.now};
  planning::WaterCase made = planning::water_case(asked);
  const planning::WaterProgramme begun = planning::begun_programme(made);
  advice::Looks known = looks();
  if (on_list) known.water = &begun;
  made.asked_today = advice::asked_of_water(day_.season, day_.records, day_.belief, filter_, day_.zone, day_.now, known);
  // Only what is to come moves with the set-point: the tanks as they stand now are the same, and `made` reads `now` anew each time.
  if (made.asked_today.set_point) now = planning::with_set_point(std::move(now), *made.asked_today.set_point, day_.zone);
  return planning::water_programme(made, begun);
}

Result<DayView> doubted_day(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter) {
  auto day = believed_day(setup, log, now);
  if (day) day.value().belief = planning::with_doubt(std::move(day.value().belief), day->season, filter);
  return day;
}

}  // namespace redd::season
