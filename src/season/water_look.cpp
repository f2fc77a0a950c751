#include "season/water_look.h"

#include "season/day_looks.h"

namespace redd::season {
namespace {

/// Runs `ask` with everything of the day; its parts live as long as the call.
template <class Ask>
auto with_asked(const DayView& day, const planning::FilterOutlook* filter, Ask&& ask) {
  const auto now = inference::filter_case(day.season, day.records, day.belief, day.zone, day.now);
  return ask(planning::WaterAsked{day.season, day.records, day.belief, now, filter, day.zone, day.now});
}

}  // namespace

Result<WaterLook> look_at_water(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter) {
  auto day = doubted_day(setup, log, now, filter);
  if (!day) return day.problems();
  WaterLook look{std::move(day).value()};
  const bool on_list = water_on_list(look.day, filter);
  look.programme = DayLooks(look.day, filter).water_programme(on_list);
  if (look.programme && !filter) look.programme->cautions.push_back({"Worked out without the filter's outlook: today's list asks for changes of a programme only once that is there."});
  return look;
}

Result<WaterTrial> try_water(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::ChangeWished& wished,
                             const planning::FilterOutlook* filter) {
  auto day = doubted_day(setup, log, now, filter);
  if (!day) return day.problems();
  if (day->belief.brood.animals == inference::Animals::released) return Problem{"nothing_to_change", "", "The brood is released: no change is forecast any more."};
  auto tried = with_asked(*day, filter, [&](const planning::WaterAsked& asked) { return planning::try_change(planning::water_case(asked), wished); });
  if (!tried) return tried.problems();
  return WaterTrial{std::move(day).value(), std::move(tried).value()};
}

bool water_on_list(const DayView& day, const planning::FilterOutlook* filter) {
  if (!filter || !filter->tanks) return false;
  using inference::Quantity;
  const Date today = local_day(day.zone, day.now), last = today + std::chrono::days(static_cast<int>(planning::programme_days));
  const bool eggs_soon = day.belief.brood.animals == inference::Animals::none && day.season.egg_day && *day.season.egg_day >= today && *day.season.egg_day <= last;
  if (!inference::has_animals(day.belief.brood.animals) && !eggs_soon) return false;
  for (const Quantity quantity : {Quantity::total_ammonia, Quantity::ph})
    if (const auto* read = day.belief.find(quantity); !read || inference::is_stale(*read)) return false;
  return true;
}

std::optional<planning::WaterProgramme> water_programme_of(const DayView& day, const planning::FilterOutlook* filter) {
  return water_on_list(day, filter) ? DayLooks(day, filter).water_programme(true) : std::nullopt;
}

}  // namespace redd::season
