#include "calc/inputs.h"
#include "quantities/temperature.h"

namespace redd::calc::formulas {
namespace {

ThermalSum sum_asked_for(const Arguments& in) {
  if (const auto c_days = in.number_if("sum_c_days")) return ThermalSum::from_c_days(*c_days);
  if (const auto f_units = in.number_if("sum_f_units")) return ThermalSum::from_f_units(*f_units);
  ThermalSum sum = ThermalSum::from_c_days(0.0);
  for (const double mean_c : in.series("daily_means_c")) sum = sum.after_days(1.0, Temperature::from_c(mean_c));
  return sum;
}

Result<Findings> evaluate(const Arguments& in) {
  const ThermalSum sum = sum_asked_for(in);
  Findings found;
  found.add("sum_c_days", sum.c_days());
  found.add("sum_f_units", sum.f_units());
  return found;
}

}  // namespace

Formula thermal_units() {
  return {.name = "thermal_units",
          .summary = "Accumulated thermal units in Celsius days and Fahrenheit daily temperature units, or summed from daily means.",
          .inputs = {one_of("sum", amount("sum_c_days", "C days", "sum above 0 C", {0, 1e6})),
                     one_of("sum", amount("sum_f_units", "F units", "sum above 32 F", {0, 1e6})),
                     one_of("sum", {.name = "daily_means_c", .kind = InputKind::series, .unit = "C", .meaning = "daily mean temperatures", .possible = possible_water_c})},
          .outputs = {{"sum_c_days", "C days", "sum above 0 C"}, {"sum_f_units", "F units", "sum above 32 F"}},
          .source = "Definition: one day at 1 C above 0 C is 1 C day or 1.8 F daily temperature units",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
