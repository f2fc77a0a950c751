#include "planning/water_programme.h"

#include <algorithm>
#include <cmath>

#include "chemistry/dosing.h"
#include "inference/water_belief.h"
#include "planning/detail/water_programme_words.h"
#include "planning/detail/water_search.h"
#include "planning/water_change.h"
#include "tank/conditions.h"

namespace redd::planning {
namespace {

using inference::Quantity;
using std::chrono::days;

/// KH and GH of what is topped up with: as last logged, else the water to change with.
void set_top_up(WaterCase& made) {
  made.top_up_hardness_meq_per_l = made.source.hardness_meq_per_l ? made.source.hardness_meq_per_l->mid : 0.0;
  made.top_up_alkalinity_meq_per_l = made.source.alkalinity_meq_per_l.mid;
  std::optional<std::string> key;
  for (const auto& record : made.asked.records)
    if (const auto* top_up = std::get_if<records::TopUp>(&record.entry.body); top_up && top_up->source_water) key = top_up->source_water;
  const auto water = key ? inference::source_water(made.asked.records, key) : std::nullopt;
  if (water && water->hardness) made.top_up_hardness_meq_per_l = water->hardness->meq_per_l();
  if (water && water->alkalinity) made.top_up_alkalinity_meq_per_l = water->alkalinity->meq_per_l();
}

/// The free bottom is vacuumed under fry only. Source  common practice: not under eggs or alevins, which lie on it; no source.
bool may_vacuum(const inference::Belief& belief) {
  using inference::Animals;
  return !inference::has_animals(belief.brood.animals) || (belief.brood.animals == Animals::fry && belief.brood.most_sensitive == Animals::fry);
}

/// In      on_list: today's list asks for the first of them.
WaterAlternative alternative(const WaterCase& made, std::string key, std::span<const WaterDeed> deeds, bool on_list = false) {
  WaterAlternative a;
  a.key = std::move(key);
  a.forecast = forecast_water(made.tanks, made.course(), deeds, {.bands = true});
  for (std::size_t i = 0; i < deeds.size(); ++i) {
    a.changes.push_back(planned_change(made, deeds[i].at_day, deeds[i].fraction, deeds[i].vacuum));
    a.changes.back().asked_today = i == 0 && on_list;
    if (i < a.forecast.changes.size()) a.changes.back().bands = a.forecast.changes[i];
    a.total = Volume::from_l(a.total.l() + a.changes.back().volume.l());
  }
  a.sentence = sentence_of(a, made);
  return a;
}

std::vector<WaterDeed> usual_deeds(const WaterCase& made, double fraction) {
  std::vector<WaterDeed> deeds;
  if (fraction <= 0.0) return deeds;
  for (const Date day : usual_change_days(made, made.open_days)) deeds.push_back(deed_of(planned_change(made, made.noon_of(day), fraction, false)));
  return deeds;
}

std::optional<Sentence> cap_of(const WaterCase& made, double largest) {
  if (largest >= planning::largest_fraction) return std::nullopt;
  return Sentence{"At most {0} at once: more of this source's water would move pH by more than half a unit, or KH or GH by more than {1}.",
                  {Share{largest}, Hardness::from_meq_per_l(made.limits.jump.hardness_meq_per_l)}};
}

bool too_old(const inference::Belief& belief) {
  for (const Quantity quantity : {Quantity::total_ammonia, Quantity::ph})
    if (const auto* read = belief.find(quantity); !read || inference::is_stale(*read)) return true;
  return false;
}

}  // namespace

std::vector<Date> days_for_change(const WaterCase& made, Date last) {
  std::vector<Date> open;
  const Date today = made.today();
  constexpr std::chrono::hours latest{14};  // Assumed: later no change is begun
  const auto local = local_time(made.asked.zone, made.asked.at);
  const bool in_time = local - std::chrono::local_seconds{today} < latest;
  if (in_time && made.school.is_open(today) && !made.school.is_open(today + days(1))) open.push_back(today);
  for (Date day = today + days(1); day <= last; day += days(1))
    if (made.school.is_open(day)) open.push_back(day);
  return open;
}

std::vector<Date> usual_change_days(const WaterCase& made, std::span<const Date> open) {
  std::vector<Date> chosen;
  if (open.empty()) return chosen;
  Date due = open.front();
  for (const auto& record : made.asked.records)
    if (std::holds_alternative<records::WaterChange>(record.entry.body)) due = local_day(made.asked.zone, record.entry.at) + days(7);
  due = std::max(due, open.front());
  for (; due <= open.back(); due += days(7)) {
    due = *std::ranges::lower_bound(open, due);
    chosen.push_back(due);
  }
  return chosen;
}

double WaterCase::noon_of(Date day) const {
  const Instant noon = instant_of(asked.zone, std::chrono::local_seconds{day} + std::chrono::hours(12));
  return std::max(asked.now.now_day, days_between(asked.now.season.begin, noon).count());
}

Date WaterCase::date_of(double day) const { return local_day(asked.zone, after_days(asked.now.season.begin, day)); }

WaterCourse WaterCase::course() const {
  return {asked.now, limits, new_water, top_up_hardness_meq_per_l, top_up_alkalinity_meq_per_l, watch_from_day, until_day};
}

Temperature WaterCase::tank_on(double day) const { return Temperature::from_c(tank::temperature_c_at(asked.now.season.forcing, day)); }

WaterCase water_case(const WaterAsked& asked, const TankDraws* draws) {
  const TankDraws own{.seed = static_cast<std::uint64_t>(asked.season.seed.value_or(1))};
  const TankDraws& drawn = draws ? *draws : own;
  Evaporation evaporation = evaporation_of(asked.season, asked.records, asked.belief, asked.at);
  WaterCase made{.asked = asked, .tanks = water_tanks(asked.belief, asked.now, asked.filter, evaporation, drawn)};
  made.evaporation = std::move(evaporation);
  made.school = records::SchoolCalendar(asked.records);
  made.limits = water_limits(asked.season, asked.belief, asked.now, asked.zone);
  made.source = new_water(asked.belief.source, asked.belief.source_record, asked.belief);
  set_top_up(made);
  made.new_water = new_water_draws(made.source, made.tanks.size(), drawn.seed);
  made.open_days = days_for_change(made, made.today() + days(static_cast<int>(programme_days) - 1));
  made.watch_from_day = asked.now.now_day + 1.0;
  if (!made.open_days.empty()) made.watch_from_day = std::min(made.watch_from_day, made.noon_of(made.open_days.front()));
  made.until_day = asked.now.now_day + programme_days;
  return made;
}

double largest_fraction_without_jump(const WaterCase& made) {
  constexpr double step = 0.05, allowed = 0.02;
  WaterCourse course = made.course();
  WaterLimits always = made.limits;
  always.from_day = made.tanks.at_day;
  const WaterCourse now{course.now, always, course.new_water, course.hardness_of_top_up_meq_per_l, course.alkalinity_of_top_up_meq_per_l, made.tanks.at_day + 2.0, made.tanks.at_day};
  double largest = 0.0;
  for (int i = 1; i <= static_cast<int>(std::lround(planning::largest_fraction / step)); ++i) {
    const WaterDeed deed{made.tanks.at_day, step * i, false, 0.0};
    if (forecast_water(made.tanks, now, std::span(&deed, 1)).by_limit[static_cast<std::size_t>(WaterLimitKind::jump)] > allowed) break;
    largest = deed.fraction;
  }
  return largest;
}

PlannedChange planned_change(const WaterCase& made, double at_day, double fraction, bool vacuum) {
  constexpr double thermometers_c = 1.0;  // Assumed: tempered water is within a degree
  PlannedChange c;
  c.at_day = at_day;
  c.day = made.date_of(at_day);
  c.fraction = fraction;
  c.volume = Volume::from_l(fraction * made.asked.season.volume.l());
  c.tank = made.tank_on(at_day);
  c.temper = tempering(fraction, c.tank, made.source.temperature);
  if (made.source.temperature) c.gas_as_it_comes = gas_fraction_on_warming(*made.source.temperature, c.tank);
  if (made.source.chlorine_mg_per_l > 0.0) c.thiosulfate = chemistry::thiosulfate_for(c.volume, made.source.chlorine_mg_per_l);
  c.must_stand = c.thiosulfate.has_value() || (c.gas_as_it_comes && gas_fraction_after(fraction, *c.gas_as_it_comes) > most_gas_fraction);
  c.freed_ammonia_mg_n_per_l = fraction * made.source.freed_ammonia_mg_n_per_l;
  const double gap_c = c.temper.as_it_comes ? (c.temper.aim - c.tank).c() : thermometers_c;
  c.refill_minutes = minutes_to_refill(TemperatureChange::from_c(fraction * gap_c));
  c.vacuum = vacuum;
  return c;
}

WaterDeed deed_of(const PlannedChange& c) {
  const double gap_c = c.temper.as_it_comes ? (c.temper.aim - c.tank).c() : 1.0;
  return {c.at_day, c.fraction, c.vacuum, c.fraction * gap_c};
}

std::optional<WaterProgramme> water_programme(const WaterAsked& asked) {
  if (asked.belief.brood.animals == inference::Animals::released) return std::nullopt;
  return water_programme(water_case(asked));
}

double AskedToday::largest_on(Date day, double most) const {
  constexpr double step = 0.05;
  for (const Apart& work : apart)
    if (day >= work.from && day <= work.to) most = std::min(most, work.below - step);
  return most;
}

inference::FilterCase with_set_point(inference::FilterCase now, const AskedToday::SetPoint& set_point, const ZoneOffsets& zone) {
  constexpr double most_c_per_day = 1.0;
  auto& forcing = now.season.forcing;
  const double from = std::max(now.now_day, days_between(now.season.begin, start_of_day(zone, set_point.from)).count());
  double water_c = tank::temperature_c_at(forcing, from);
  for (std::size_t i = 0; i < forcing.days.size(); ++i) {
    if (forcing.first_day + static_cast<double>(i) <= from) continue;
    water_c += std::clamp(set_point.to.c() - water_c, -most_c_per_day, most_c_per_day);
    forcing.days[i].temperature_c = water_c;
  }
  return now;
}

WaterProgramme begun_programme(const WaterCase& made) {
  WaterProgramme p;
  p.begin = made.asked.now.season.begin;
  p.now_day = made.asked.now.now_day;
  p.watch_from_day = made.watch_from_day;
  p.until_day = made.until_day;
  p.today = made.today();
  p.last = made.date_of(made.until_day);
  p.animals = inference::has_animals(made.asked.belief.brood.animals);
  if (made.limits.from_day) p.limits_from = made.date_of(*made.limits.from_day);
  p.limits = made.limits;
  p.source = made.source;
  p.evaporation = made.evaporation;
  p.hardness_rise_meq_per_l_per_week = 7.0 * made.evaporation.l_per_day.mid * made.top_up_hardness_meq_per_l / made.asked.season.volume.l();
  p.stale = too_old(made.asked.belief);
  p.from_posterior = made.tanks.basis == WaterTanks::Basis::posterior;
  p.largest_fraction = largest_fraction_without_jump(made);
  p.cap = cap_of(made, p.largest_fraction);
  return p;
}

std::optional<WaterProgramme> water_programme(const WaterCase& made) { return water_programme(made, begun_programme(made)); }

std::optional<WaterProgramme> water_programme(const WaterCase& made, WaterProgramme p) {
  WaterCourse today = made.course();
  today.watch_from_day = today.until_day = made.asked.now.now_day;
  p.now_broken = forecast_water(made.tanks, today, {}).by_limit;

  p.none = alternative(made, "none", {});
  if (!p.none.forecast.sound) return std::nullopt;
  p.usual_assumed = !made.asked.season.usual_change_fraction;
  p.usual_fraction = made.asked.season.usual_change_fraction.value_or(usual_change_fraction);
  p.usual = alternative(made, "usual", usual_deeds(made, p.usual_fraction));
  // Without the filter's outlook the list hears nothing of the programme, so its change stays as it asks.
  const FoundProgramme found = search_programme(made, {p.largest_fraction, may_vacuum(made.asked.belief), p.from_posterior && !p.stale}, p.none.forecast);
  if (found.on_list) p.asked_today = made.asked_today.change;
  p.programme = alternative(made, "programme", found.deeds, found.on_list);
  p.reached = p.programme.forecast.broken_probability <= 1.0 - wanted_safe_probability;
  p.helps = !p.programme.changes.empty();
  say_programme(p, made);
  return p;
}

}  // namespace redd::planning
