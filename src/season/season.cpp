#include "season/season.h"

#include <algorithm>

#include "emergency/holds.h"
#include "season/day_looks.h"
#include "season/water_look.h"

namespace redd::season {

Result<DayView> believed_day(const Setup& setup, std::span<const records::Record> log, Instant now) {
  DayView day{now, setup.zone};
  day.records = records::effective(log, now);
  const records::SeasonSetup* season = records::find_season(day.records);
  if (!season) return Problem{"no_season", "", said("No season had been set up by {0}: set one up first.", rfc3339_local(setup.zone, now))};
  day.season = *season;
  day.belief = inference::estimate(day.season, day.records, day.zone, now);
  return day;
}

namespace {

/// The first day that can still be planned. Assumed: in the morning the day's own set-point can still be chosen, later tomorrow's is.
Date first_planned_day(const DayView& day) {
  constexpr std::chrono::hours noon{12};
  const auto local = local_time(day.zone, day.now);
  const Date today = local_day(day.zone, day.now);
  return local - std::chrono::local_seconds{today} < noon ? today : today + std::chrono::days(1);
}

planning::TankHeatModel heat_of(const DayView& day) { return planning::tank_heat(day.season, day.records, day.belief, day.zone, day.now); }

Result<planning::SeasonAsked> asked_of(const DayView& day, std::span<const planning::PlanDay> abilities) {
  return planning::season_asked(day.season, day.belief, records::SchoolCalendar(day.records), abilities, first_planned_day(day));
}

/// Without a plan the diary looks a school year ahead at most, and not past a month after the permit's last day.
DiaryCase diary_case(const DayView& day, std::span<const records::Record> log) {
  using std::chrono::days;
  const Date today = local_day(day.zone, day.now);
  const Date farthest = today + days(400);
  const auto animals = day.belief.brood.animals;
  DiaryCase known{day.now, day.zone, day.season, records::SchoolCalendar(day.records)};
  // Of the log, not of what counts: taking a record back must not make the diary older.
  for (const records::Record& record : log)
    if (record.logged_at <= day.now) known.newest = std::max(known.newest, record.id);
  known.eggs_to_come = !day.belief.brood.start && animals != inference::Animals::released;
  known.released = animals == inference::Animals::released;
  known.last = std::min(farthest, day.season.release_until ? *day.season.release_until + days(31) : today + days(92));
  known.test_days = advice::weekly_test_days(day.season, day.records, day.belief, day.zone, day.now, farthest);
  return known;
}

}  // namespace

Result<Diary> look_at_diary(const Setup& setup, std::span<const records::Record> log, Instant now, const Phrase& why) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  return diary_of(diary_case(*day, log), nullptr, why);
}

Result<planning::SeasonAsked> plan_asked(const Setup& setup, std::span<const records::Record> log, Instant now) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  return asked_of(*day, planning::plan_abilities(heat_of(*day), first_planned_day(*day)));
}

Result<PlanView> look_at_plan(const Setup& setup, std::span<const records::Record> log, Instant now) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  const auto heat = heat_of(*day);
  const auto abilities = planning::plan_abilities(heat, first_planned_day(*day));
  auto asked = asked_of(*day, abilities);
  if (!asked) return asked.problems();
  std::optional<planning::SeasonAsked> last_week;
  if (const auto before = plan_asked(setup, log, now - std::chrono::days(7))) last_week = *before;
  auto plan = planning::temperature_plan(std::move(asked).value(), day->belief, day->season, abilities, first_planned_day(*day), last_week);
  if (const auto& best = plan.alternatives.best.plan) plan.cautions = planning::plan_cautions(heat, best->days.front(), best->set_points);
  if (!abilities.empty()) plan.asked.assumed.push_back(heat.rests_on);
  Diary diary = diary_of(diary_case(*day, log), &plan);
  return PlanView{now, setup.zone, day->season, records::SchoolCalendar(day->records), std::move(plan), day->belief, first_planned_day(*day), std::move(diary)};
}

Result<HeatLook> look_at_heat(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::HeatAsked& asked) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  return HeatLook{now, day->zone, planning::heat_view(heat_of(*day), day->season, day->belief, day->zone, now, asked)};
}

Result<EmergencyLook> look_at_emergencies(const Setup& setup, std::span<const records::Record> log, Instant now) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  const auto heat = planning::heat_view(heat_of(*day), day->season, day->belief, day->zone, now);
  const emergency::Case at{day->season, day->records, day->belief, heat, now};
  return EmergencyLook{now, day->zone, day->season, emergency::animals_word(at), emergency::has_animals(at), emergency::emergencies(at)};
}

Result<std::optional<FilterAsked>> filter_asked(const Setup& setup, std::span<const records::Record> log, Instant now) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  if (day->belief.brood.animals == inference::Animals::released) return std::optional<FilterAsked>{};
  return std::optional(FilterAsked{day->season, day->belief, inference::filter_case(day->season, day->records, day->belief, day->zone, now)});
}

Result<DayView> look_at_day(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter) {
  auto believed = doubted_day(setup, log, now, filter);
  if (!believed) return believed;
  DayView& day = believed.value();
  if (filter) day.filter = *filter;
  const DayLooks beside(day, filter);
  advice::Looks looks = beside.looks();
  const auto water = water_on_list(day, filter) ? beside.water_programme(true) : std::nullopt;
  if (water) looks.water = &*water;
  day.advice = advice::advise(day.season, day.records, day.belief, filter, day.zone, now, looks);
  return believed;
}

}  // namespace redd::season
