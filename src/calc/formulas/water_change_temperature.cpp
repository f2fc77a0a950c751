#include "calc/heat_inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const Temperature tank = temperature(in, "tank_temperature_c"), source = temperature(in, "source_temperature_c");
  const auto most = TemperatureChange::from_c(in.number("largest_change_c"));
  const double largest = heat::largest_water_change(tank, source, most);
  Findings found;
  found.add("largest_fraction", largest);
  if (const auto volume_l = in.number_if("volume_l")) found.add("largest_l", largest * *volume_l);
  if (const auto fraction = in.number_if("fraction")) {
    found.add("after_temperature_c", (tank + *fraction * (source - tank)).c());
    found.add("tempered_source_temperature_c", heat::tempered_source(tank, source, *fraction, most).c());
    if (*fraction > largest) found.notes.push_back("This change moves the tank by more than the limit: temper the new water, or change less at a time.");
  }
  found.notes.push_back("A step of 1 C and 2 C a day are common practice (from memory). Slower is always safe.");
  return found;
}

}  // namespace

Formula water_change_temperature() {
  return {.name = "water_change_temperature",
          .summary = "Temperature after a water change, the largest change within a step, and how far the new water has to be tempered.",
          .inputs = {tank_temperature_c("tank_temperature_c", "water in the tank"), tank_temperature_c("source_temperature_c", "new water"),
                     optional({.name = "fraction", .unit = "", .meaning = "share of the water to be changed", .possible = Range{0.001, 1}}),
                     optional(measure("largest_change_c", "C", "step the tank may make", {0.1, 3}, {0, 40}), "1"),
                     optional(volume_l())},
          .outputs = {{"largest_fraction", "", "largest share changed at once within the step"},
                      {"largest_l", "L", "the same in litres, when the volume is given"},
                      {"after_temperature_c", "C", "tank after changing the fraction"},
                      {"tempered_source_temperature_c", "C", "new water brought to this keeps the fraction within the step"}},
          .source = "Mixing of equal heat capacities; step: common practice, from memory",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
