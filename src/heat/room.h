#pragma once
// The temperature of the room by hour and day: a school day, nights, weekends and breaks, and the turn of the year. Start at room_day().
// The room is taken to jump at each change; a real building lags some hours, and the tank's own lag of about a day smooths either.

#include <array>
#include <span>
#include <vector>

#include "quantities/temperature.h"
#include "quantities/time.h"

namespace redd::heat {

/// Room temperature for each local hour of a day, 0-23 (hour h holds from h:00 to h+1:00).
using RoomDay = std::array<Temperature, 24>;

/// A room that never changes.
RoomDay steady_room(Temperature temperature);

/// Days when the building runs differently: heating set back in winter, cooling off in summer.
struct RoomBreak {
  Date first;
  Date last;  ///< included
  Temperature temperature;
};

/// How a room is kept. Defaults are ordinary, no source; set-back to 13 C and uncooled rooms up to 32 C are on record for school buildings.
struct RoomScenario {
  Temperature occupied = Temperature::from_c(21.0);          ///< in use, in the coldest part of the year
  Temperature occupied_summer = Temperature::from_c(24.0);   ///< in use, in the warmest part
  TemperatureChange night_change = TemperatureChange::from_c(0.0);    ///< added outside the hours of use
  TemperatureChange weekend_change = TemperatureChange::from_c(0.0);  ///< added all through Saturday and Sunday, instead of the night's
  int used_from_hour = 7;                                    ///< 0-23
  int used_until_hour = 17;                                  ///< 1-24, after used_from_hour
  int warmest_day_of_year = 200;                             ///< 1-365; about 20 in the southern hemisphere
  std::vector<RoomBreak> breaks{};                           ///< the first that holds a day wins
};

/// Hourly temperatures of one day.
///
/// Out     in use: a yearly wave between the two occupied temperatures; a break holds its temperature all day.
RoomDay room_day(const RoomScenario& scenario, Date day);

/// Consecutive days, from the first.
std::vector<RoomDay> room_days(const RoomScenario& scenario, Date first, int days);

Temperature mean_of(const RoomDay& day);
Temperature warmest_of(const RoomDay& day);
Temperature coldest_of(const RoomDay& day);

/// The days end to end, as the trajectory takes them.
std::vector<Temperature> hours_of(std::span<const RoomDay> days);

}  // namespace redd::heat
