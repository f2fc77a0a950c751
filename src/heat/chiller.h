#pragma once
// What a chiller takes out of the water, and what it draws from the wall to do so. Start at cooling_power().
// A chiller's printed power holds at the maker's test point only: colder water and a warmer room both take from it.

#include <optional>

#include "quantities/heat.h"
#include "quantities/temperature.h"

namespace redd::heat {

/// A chiller as its plate or the season's own log describes it.
struct Chiller {
  Power rated;                                              ///< heat taken from the water at the rating point, >= 0
  Temperature rated_water = Temperature::from_c(20.0);      ///< water at the rating point. Assumed 20 C where the plate is silent
  Temperature rated_room = Temperature::from_c(25.0);       ///< room at the rating point. Assumed 25 C where the plate is silent
  /// Change of capacity per degree, as a share. Source  3-4 % per degree of colder water and about 1 % per degree of warmer room, from memory.
  double water_slope_per_c = 0.035;   ///< >= 0
  double room_slope_per_c = -0.010;
  /// Share of the ideal (Carnot) performance reached. Source  0.3 for small air-cooled units, from memory; gives 1.8-2.2 at 8 C.
  double carnot_share_fraction = 0.30;
};

/// A chiller of which the power is known where it is used, so that no rating point enters.
Chiller chiller_known_at(Power power, Temperature water, Temperature room);

/// Heat it takes from the water when running.
///
/// Out     W >= 0; rated * exp(water slope * dT_water + room slope * dT_room): 60-70 % of a 20 C rating at 8 C.
Power cooling_power(const Chiller& chiller, Temperature water, Temperature room);

/// Best possible performance between two temperatures: heat removed per work (a heat pump's heating counts one more).
/// In      cold < hot.
double carnot_cop(Temperature cold, Temperature hot);

/// Heat removed per electric energy.
/// Source  0.3 of the ideal between an evaporator 8 K below the water and a condenser 15 K above the room; all three from memory.
double cop(const Chiller& chiller, Temperature water, Temperature room);

/// Electric power while running, and the heat it then gives to the room (all it took from the water and all it drew).
Power electric_power(const Chiller& chiller, Temperature water, Temperature room);
Power heat_to_room(const Chiller& chiller, Temperature water, Temperature room);

/// The chiller starts half a band above the set-point and stops half a band below. A heater starts a whole band below and stops half a
/// band below, so that the two never work against each other.
struct Thermostat {
  Temperature set_point;
  TemperatureChange band = TemperatureChange::from_c(1.0);  ///< > 0. Assumed 1 C where nothing is known
};

/// What a machine does: obeys its thermostat, or fails at one end.
enum class Working { normal, stuck_on, stuck_off };

/// Everything that holds the water, and how it is set.
struct Equipment {
  std::optional<Chiller> chiller{};
  Power heater = Power::from_w(0.0);
  Working chiller_works = Working::normal;
  Working heater_works = Working::normal;
};

}  // namespace redd::heat
