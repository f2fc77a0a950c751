#include <cmath>

#include "calc/heat_inputs.h"

namespace redd::calc::formulas {
namespace {

/// Heat that comes in: given, or worked out with its doubt at the high end, because ice is counted for the bad case.
Result<Power> gain_of(const Arguments& in, Findings& found) {
  if (const auto gain_w = in.number_if("gain_w")) return Power::from_w(*gain_w);
  if (!in.has("room_temperature_c"))
    return Problem{"missing_input", "room_temperature_c", "ice_bottles needs room_temperature_c when the heat is to be worked out from volume_l."};
  const auto conductance = conductance_of(in, found);
  if (conductance.high > conductance.mid) found.notes.push_back("Ice is counted at the high end of the conductance.");
  const TemperatureChange warmer = temperature(in, "room_temperature_c") - temperature(in, "water_temperature_c");
  return (warmer.c() > 0.0 ? conductance.high : conductance.low) * warmer + Power::from_w(in.number("pump_w"));
}

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  const auto gain = gain_of(in, found);
  if (!gain) return gain.problems();
  const Temperature water = temperature(in, "water_temperature_c"), ice = temperature(in, "bottle_temperature_c");
  const Mass bottle = Mass::from_g(in.number("bottle_g"));
  const Mass to_hold = heat::ice_to_hold(*gain, Hours(in.number("hours")), water, ice);
  found.add("gain_w", gain->w());
  found.add("heat_per_bottle_j", bottle.g() * heat::heat_taken_by_ice_j_per_g(ice, water));
  found.add("ice_g", to_hold.g());
  found.add("bottles", std::ceil(to_hold.g() / bottle.g() - 1e-9));
  if (const auto each = heat::hours_held_by_ice(bottle, *gain, water, ice)) found.add("hours_per_bottle", each->count());
  if (const auto drop_c = in.number_if("drop_c")) {
    if (!in.has("volume_l")) return Problem{"missing_input", "volume_l", "ice_bottles needs volume_l, not gain_w, to work out a drop_c."};
    found.add("drop_ice_g", heat::ice_for_drop(Volume::from_l(in.number("volume_l")), TemperatureChange::from_c(*drop_c), water, ice).g());
  }
  if (gain->w() <= 0.0) found.notes.push_back("No heat comes in: the water holds by itself.");
  found.notes.push_back("Closed bottles; one takes about a day to freeze again, so keep at least two days' worth (common practice, no source). "
                        "Keep the water moving and bottles away from eggs, and no faster than 1 C an hour.");
  return found;
}

}  // namespace

Formula ice_bottles() {
  return {.name = "ice_bottles",
          .summary = "Frozen bottles that hold a tank at a temperature, or bring it down.",
          .inputs = {one_of("heat", amount("gain_w", "W", "heat that comes into the water", {0, 1e5})), one_of("heat", tank_volume_l()),
                     optional(conductance_w_per_k()), optional(room_temperature_c()),
                     tank_temperature_c("water_temperature_c", "water to hold", {0, 25}),
                     optional(pump_w(), "0"), amount("bottle_g", "g", "water frozen in one bottle", {1, 1e5}),
                     optional({.name = "bottle_temperature_c", .unit = "C", .meaning = "freezer", .fitted = Range{-30, 0}, .possible = Range{-90, 0}}, "-18"),
                     optional(amount("hours", "h", "how long to hold", {0, 1e4}), "24"),
                     optional(amount("drop_c", "C", "a fall wanted besides, ending at water_temperature_c", {0, 40}))},
          .outputs = {{"gain_w", "W", "heat that comes in"},
                      {"heat_per_bottle_j", "J", "heat one bottle takes up"},
                      {"ice_g", "g", "ice for the hours"},
                      {"bottles", "", "bottles for the hours, whole ones"},
                      {"hours_per_bottle", "h", "time one bottle holds the water"},
                      {"drop_ice_g", "g", "ice for the drop, besides"}},
          .source = "Latent and specific heats of OpenStax, College Physics; advice on handling is common practice, no source",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
