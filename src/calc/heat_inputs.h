#pragma once
// Inputs that the formulas of heat share: the tank as a volume or a conductance, the room, the pump, the chiller.

#include <string>

#include "calc/inputs.h"
#include "calc/registry.h"
#include "heat/balance.h"
#include "heat/emergency.h"
#include "heat/walls.h"

namespace redd::calc {

inline constexpr Range possible_air_c{-60.0, 60.0};
/// Narrower than what liquid water can be: warmer is a slip of the pen (Fahrenheit), and the formulas of damp air end before boiling.
inline constexpr Range possible_tank_c{-1.0, 60.0};

inline Input room_temperature_c() {
  return {.name = "room_temperature_c", .unit = "C", .meaning = "room air around the tank", .fitted = Range{5, 35}, .possible = possible_air_c};
}
inline Input conductance_w_per_k() {
  return {.name = "conductance_w_per_k", .unit = "W/K", .meaning = "heat through all walls per degree, from a fit or from tank_conductance",
          .fitted = Range{0.5, 60}, .possible = Range{0.01, 1e4}};
}
inline Input pump_w(std::string meaning = "heat of pumps and anything else in the water; a pump under water gives it all its plug power") {
  return amount("pump_w", "W", std::move(meaning), {0, 1e4});
}
inline Input humidity_fraction() {
  return {.name = "humidity_fraction", .unit = "", .meaning = "relative humidity, 0.5 for 50 %", .possible = Range{0.001, 1}};
}
inline Input measure(std::string name, std::string unit, std::string meaning, Range fitted, Range possible) {
  return {.name = std::move(name), .unit = std::move(unit), .meaning = std::move(meaning), .fitted = fitted, .possible = possible};
}
inline Input tank_temperature_c(std::string name, std::string meaning, Range fitted = {0, 30}) {
  return {.name = std::move(name), .unit = "C", .meaning = std::move(meaning), .fitted = fitted, .possible = possible_tank_c};
}
inline Input tank_volume_l() { return {.name = "volume_l", .unit = "L", .meaning = "volume of water", .fitted = Range{30, 600}, .possible = Range{0.1, 1e6}}; }

/// Power of the chiller and, when it is a plate's figure, the point it was rated at.
inline std::vector<Input> chiller_inputs() {
  return {amount("chiller_w", "W", "heat the chiller takes from the water, not its plug power; there is no conversion from horsepower", {0.1, 1e6}),
          optional({.name = "rated_water_temperature_c", .unit = "C",
                    .meaning = "water temperature at which chiller_w was rated; left out, chiller_w is taken as it is",
                    .fitted = Range{4, 30}, .possible = possible_tank_c}),
          optional({.name = "rated_room_temperature_c", .unit = "C", .meaning = "room temperature of the rating; left out, this room",
                    .fitted = Range{10, 40}, .possible = possible_air_c})};
}

inline std::vector<Input> joined(std::vector<Input> first, std::vector<Input> then) {
  for (Input& each : then) first.push_back(std::move(each));
  return first;
}

inline Temperature temperature(const Arguments& in, std::string_view name) { return Temperature::from_c(in.number(name)); }

/// The conductance given, or the rule for a bare lidded tank of this volume; then a note says so.
inline Estimate<Conductance> conductance_of(const Arguments& in, Findings& found) {
  if (const auto given = in.number_if("conductance_w_per_k")) {
    const auto exact = Conductance::from_w_per_k(*given);
    return {exact, exact, exact, Support::measured};
  }
  found.notes.push_back("Conductance from the volume alone (bare glass with a lid): right within a factor 1.5. Foam lowers it to a third or less; "
                        "give conductance_w_per_k when you know it.");
  return heat::conductance_from_volume(Volume::from_l(in.number("volume_l")));
}

inline heat::Chiller chiller_of(const Arguments& in, Findings& found) {
  heat::Chiller chiller{.rated = Power::from_w(in.number("chiller_w"))};
  if (const auto water_c = in.number_if("rated_water_temperature_c")) {
    chiller.rated_water = Temperature::from_c(*water_c);
    chiller.rated_room = Temperature::from_c(in.number_if("rated_room_temperature_c").value_or(in.number("room_temperature_c")));
    found.notes.push_back("Capacity is taken to fall 3.5 % for each degree of colder water and 1 % for each degree of warmer room (from memory).");
    return chiller;
  }
  chiller.water_slope_per_c = chiller.room_slope_per_c = 0.0;
  found.notes.push_back("chiller_w is taken as it is. A plate's figure holds for warm water: at 8 C expect about two thirds of a rating at 20 C. "
                        "Give rated_water_temperature_c to allow for it.");
  return chiller;
}

inline const char* const heat_source =
    "Heat balance C dT/dt = UA (T_room - T) + P - Q in closed form; films after ISO 6946, conductivities after ISO 10077-2; slopes and performance of the "
    "chiller from memory";

}  // namespace redd::calc
