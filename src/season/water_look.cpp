#include "season/water_look.h"

#include <algorithm>

#include "emergency/holds.h"

namespace redd::season {
namespace {

/// Runs `ask` with everything of the day; its parts live as long as the call.
template <class Ask>
auto with_asked(const DayView& day, const planning::FilterOutlook* filter, Ask&& ask) {
  const auto now = inference::filter_case(day.season, day.records, day.belief, day.zone, day.now);
  return ask(planning::WaterAsked{day.season, day.records, day.belief, now, filter, day.zone, day.now});
}

/// What today's list asks of the water stands before the programme, which does not count it.
void say_what_today_asks(planning::WaterProgramme& programme, const advice::Advice& advice) {
  const auto asked = std::ranges::find_if(advice.actions, [](const advice::Action& a) { return a.water_change.has_value(); });
  if (asked == advice.actions.end()) return;
  const Sentence first = emergency::joined(emergency::joined({"Today's list asks for this first:"}, asked->what), {"The list goes by the worst a card allows, this programme by all readings together and without that change: look again once it is logged."});
  programme.cautions.insert(programme.cautions.begin(), first);
  if (programme.programme.changes.empty()) programme.headline = emergency::joined({"Do first what today's list asks."}, programme.headline);
}

}  // namespace

Result<WaterLook> look_at_water(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter) {
  auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  WaterLook look{std::move(day).value()};
  look.programme = with_asked(look.day, filter, [](const planning::WaterAsked& asked) { return planning::water_programme(asked); });
  // Without the filter: what the readings alone ask for, and no second programme.
  if (look.programme)
    if (const auto today = look_at_day(setup, log, now)) say_what_today_asks(*look.programme, today->advice);
  return look;
}

Result<WaterTrial> try_water(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::ChangeWished& wished,
                             const planning::FilterOutlook* filter) {
  auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  if (day->belief.brood.animals == inference::Animals::released) return Problem{"nothing_to_change", "", "The brood is released: no change is forecast any more."};
  auto tried = with_asked(*day, filter, [&](const planning::WaterAsked& asked) { return planning::try_change(planning::water_case(asked), wished); });
  if (!tried) return tried.problems();
  return WaterTrial{std::move(day).value(), std::move(tried).value()};
}

std::optional<planning::WaterProgramme> water_programme_of(const DayView& day, const planning::FilterOutlook* filter) {
  if (!filter || !filter->tanks) return std::nullopt;
  using inference::Quantity;
  const Date today = local_day(day.zone, day.now), last = today + std::chrono::days(static_cast<int>(planning::programme_days));
  const bool eggs_soon = day.belief.brood.animals == inference::Animals::none && day.season.egg_day && *day.season.egg_day >= today && *day.season.egg_day <= last;
  if (!inference::has_animals(day.belief.brood.animals) && !eggs_soon) return std::nullopt;
  for (const Quantity quantity : {Quantity::total_ammonia, Quantity::ph})
    if (const auto* read = day.belief.find(quantity); !read || inference::is_stale(*read)) return std::nullopt;
  return with_asked(day, filter, [](const planning::WaterAsked& asked) { return planning::water_programme(asked); });
}

}  // namespace redd::season
