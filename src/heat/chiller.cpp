#include "heat/chiller.h"

#include <algorithm>
#include <cmath>

namespace redd::heat {

Chiller chiller_known_at(Power power, Temperature water, Temperature room) {
  Chiller chiller{.rated = power};
  chiller.rated_water = water;
  chiller.rated_room = room;
  return chiller;
}

Power cooling_power(const Chiller& chiller, Temperature water, Temperature room) {
  return std::exp(chiller.water_slope_per_c * (water - chiller.rated_water).c() + chiller.room_slope_per_c * (room - chiller.rated_room).c()) *
         chiller.rated;
}

double carnot_cop(Temperature cold, Temperature hot) { return cold.k() / (hot - cold).c(); }

double cop(const Chiller& chiller, Temperature water, Temperature room) {
  constexpr auto evaporator_below_water = TemperatureChange::from_c(8.0), condenser_above_room = TemperatureChange::from_c(15.0);
  // A room colder than the water helps no further: the machine keeps a least lift to work against. Assumed 20 K.
  const Temperature evaporator = water - evaporator_below_water;
  const Temperature condenser = std::max(room + condenser_above_room, evaporator + TemperatureChange::from_c(20.0));
  return chiller.carnot_share_fraction * carnot_cop(evaporator, condenser);
}

Power electric_power(const Chiller& chiller, Temperature water, Temperature room) {
  return 1.0 / cop(chiller, water, room) * cooling_power(chiller, water, room);
}

Power heat_to_room(const Chiller& chiller, Temperature water, Temperature room) {
  return cooling_power(chiller, water, room) + electric_power(chiller, water, room);
}

}  // namespace redd::heat
