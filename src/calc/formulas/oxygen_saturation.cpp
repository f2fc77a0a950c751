#include "calc/inputs.h"
#include "chemistry/oxygen.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto temperature = Temperature::from_c(in.number("temperature_c"));
  const auto elevation_m = in.number_if("elevation_m");
  const double pressure_mmhg = elevation_m ? chemistry::pressure_mmhg_at_elevation(*elevation_m) : in.number("pressure_mmhg");
  // The pressure formula divides by what one atmosphere leaves after water vapour, so it ends at the boiling point.
  const double vapor_mmhg = chemistry::vapor_pressure_mmhg(temperature);
  if (pressure_mmhg <= vapor_mmhg || chemistry::standard_pressure_mmhg <= vapor_mmhg)
    return Problem{"no_answer", elevation_m ? "elevation_m" : "pressure_mmhg",
                   "At this pressure water of this temperature boils, so it holds no air. Give the air pressure in mmHg (about 760 at sea level)."};
  const double saturation = chemistry::oxygen_saturation(temperature, pressure_mmhg, in.number("salinity_psu")).mg_o2_per_l();
  Findings found;
  found.add("saturation_mg_o2_per_l", saturation);
  found.add("pressure_mmhg", pressure_mmhg);
  if (const auto reading = in.number_if("oxygen_mg_o2_per_l")) found.add("saturation_fraction", *reading / saturation);
  if (elevation_m) found.notes.push_back("Pressure is that of the standard atmosphere at this height; the weather moves it by a few percent.");
  return found;
}

}  // namespace

Formula oxygen_saturation() {
  return {.name = "oxygen_saturation",
          .summary = "Dissolved oxygen that water holds in balance with moist air.",
          .inputs = {water_temperature_c({0, 40}),
                     one_of("pressure", optional({.name = "pressure_mmhg", .unit = "mmHg", .meaning = "true air pressure at the tank, not reduced to sea level",
                                                  .fitted = Range{400, 850}, .possible = Range{1, 2000}}, "760")),
                     one_of("pressure", optional({.name = "elevation_m", .unit = "m", .meaning = "height above sea level, instead of a pressure",
                                                  .fitted = Range{-430, 5000}, .possible = Range{-1000, 9000}})),
                     optional({.name = "salinity_psu", .unit = "psu", .meaning = "salinity", .fitted = Range{0, 40}, .possible = Range{0, 100}}, "0"),
                     optional(amount("oxygen_mg_o2_per_l", "mg/L", "a reading to compare", {0, 100}))},
          .outputs = {{"saturation_mg_o2_per_l", "mg/L", "oxygen at saturation"},
                      {"pressure_mmhg", "mmHg", "air pressure used"},
                      {"saturation_fraction", "", "the reading as a share of saturation"}},
          .source = "Benson & Krause 1984, Limnol. Oceanogr. 29:620, eq. 32, as adopted by USGS Office of Water Quality memorandum 2011.03; "
                    "pressure by USGS memoranda 81.11 and 81.15",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
