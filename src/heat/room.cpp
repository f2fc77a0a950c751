#include "heat/room.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace redd::heat {
namespace {

Temperature occupied_on(const RoomScenario& scenario, Date day) {
  using namespace std::chrono;
  const year_month_day date{day};
  const auto new_year = local_days{date.year() / January / 1};
  const double turn = 2.0 * std::numbers::pi * (static_cast<double>((day - new_year).count() + 1) - scenario.warmest_day_of_year) / 365.25;
  return scenario.occupied + (0.5 + 0.5 * std::cos(turn)) * (scenario.occupied_summer - scenario.occupied);
}

bool is_weekend(Date day) {
  const std::chrono::weekday weekday{day};
  return weekday == std::chrono::Saturday || weekday == std::chrono::Sunday;
}

}  // namespace

RoomDay steady_room(Temperature temperature) {
  return [&]<std::size_t... hour>(std::index_sequence<hour...>) {
    return RoomDay{((void)hour, temperature)...};
  }(std::make_index_sequence<24>{});
}

RoomDay room_day(const RoomScenario& scenario, Date day) {
  for (const RoomBreak& each : scenario.breaks)
    if (each.first <= day && day <= each.last) return steady_room(each.temperature);
  const Temperature occupied = occupied_on(scenario, day);
  if (is_weekend(day)) return steady_room(occupied + scenario.weekend_change);
  RoomDay hours = steady_room(occupied);
  for (int hour = 0; hour < 24; ++hour)
    if (hour < scenario.used_from_hour || hour >= scenario.used_until_hour) hours[static_cast<std::size_t>(hour)] = occupied + scenario.night_change;
  return hours;
}

std::vector<RoomDay> room_days(const RoomScenario& scenario, Date first, int days) {
  std::vector<RoomDay> all;
  for (int i = 0; i < days; ++i) all.push_back(room_day(scenario, first + std::chrono::days(i)));
  return all;
}

Temperature mean_of(const RoomDay& day) {
  double sum_c = 0.0;
  for (const Temperature hour : day) sum_c += hour.c();
  return Temperature::from_c(sum_c / 24.0);
}

Temperature warmest_of(const RoomDay& day) { return *std::ranges::max_element(day); }
Temperature coldest_of(const RoomDay& day) { return *std::ranges::min_element(day); }

std::vector<Temperature> hours_of(std::span<const RoomDay> days) {
  std::vector<Temperature> all;
  for (const RoomDay& day : days) all.insert(all.end(), day.begin(), day.end());
  return all;
}

}  // namespace redd::heat
