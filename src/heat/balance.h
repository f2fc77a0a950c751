#pragma once
// The heat balance of the tank and what it answers in a steady room: can this chiller hold this temperature, at what duty and cost,
// how long to get there, where it settles. Start at held() and time_to_cool().

#include <optional>
#include <span>

#include "heat/chiller.h"
#include "heat/moist_air.h"
#include "heat/relaxation.h"
#include "heat/room.h"
#include "quantities/estimate.h"

namespace redd::heat {

/// A tank as the balance sees it.
struct TankHeat {
  HeatCapacity capacity;                                   ///< see heat_capacity()
  Conductance conductance;                                 ///< > 0; see conductance_estimate()
  Power pump = Power::from_w(0.0);                         ///< day and night. A pump under water gives all its plug power to it (from memory)
  Power light = Power::from_w(0.0);                        ///< that reaches the water while lit: 30-60 % of plug power (from memory)
  int light_from_hour = 8, light_until_hour = 16;
  Power damp = Power::from_w(0.0);                         ///< brought by condensation on glass and surface, >= 0 when planning
};

/// Heat from pump, light and damp: at an hour 0-23, and in the mean of a day.
Power own_heat(const TankHeat& tank, int hour);
Power mean_own_heat(const TankHeat& tank);

/// One moment's heat flows into the water, item by item.
struct HeatBalance {
  Power through_walls;  ///< negative when the room is colder than the water
  Power pump, light, damp;
  Power total;          ///< what has to be taken out to keep the water as it is; negative: to be put in
};
HeatBalance heat_balance(const TankHeat& tank, Temperature water, Temperature room);

/// Where the water ends up with the chiller running without pause (or with none), in a room that stays so.
Temperature settles_at(const TankHeat& tank, const std::optional<Chiller>& chiller, Temperature room);

/// How well a temperature is held.
enum class Holding {
  never_reached,  ///< running without pause, the water settles above the set-point
  refused,        ///< above 95 % duty: the first warm day, dirty condenser or wrong guess undoes it
  tight,          ///< above 80 % duty
  held,
  not_needed      ///< the water stays at or below the set-point without chilling
};
/// Duties beyond which a plan is called tight, and refused. Assumed: the rest is for warm days and for what is not known.
inline constexpr double tight_duty = 0.80;
inline constexpr double refused_duty = 0.95;
Holding holding_at(double duty_fraction);

struct Held {
  Holding holding;
  double duty_fraction;        ///< heat to remove / what the chiller can remove: above 1 means never reached; 0 when not needed
  Temperature settles_at;      ///< running without pause
  Power to_remove;             ///< mean heat to take out, >= 0
  Power electric;              ///< mean electric power of the chiller; at full power when never reached
  Energy electric_per_week() const { return electric * Hours(168.0); }
};

/// Steady answer for one room temperature.
Held held(const TankHeat& tank, const Chiller& chiller, Temperature set_point, Temperature room);

/// Money for a week of this mean power.
double cost_per_week(Power electric, double price_per_kwh);

/// Time to cool from one temperature to a lower one, running without pause in a steady room; capacity falls as the water cools.
///
/// Out     zero when already there; nothing when it is never reached.
/// Errors  none. The integral is exact to 1e-6 (Gauss-Legendre in the logarithm of the distance to where it settles).
std::optional<Hours> time_to_cool(const TankHeat& tank, const Chiller& chiller, Temperature from, Temperature to, Temperature room);

/// Chiller to buy: the larger of 1.5 x the steady load and what pulls the water down in the time wanted, at the set-point.
/// Assumed: the factor 1.5 (common practice, no source).
Power chiller_wanted(const TankHeat& tank, Temperature set_point, Temperature room, TemperatureChange pull_down, Hours in);

}  // namespace redd::heat
