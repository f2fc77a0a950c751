#include "quantities/temperature.h"

#include "calc/inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto celsius = in.number_if("temperature_c");
  const Temperature temperature = celsius ? Temperature::from_c(*celsius) : Temperature::from_f(in.number("temperature_f"));
  Findings found;
  found.add("temperature_c", temperature.c());
  found.add("temperature_f", temperature.f());
  found.add("temperature_k", temperature.k());
  return found;
}

}  // namespace

Formula temperature() {
  return {.name = "temperature",
          .summary = "A temperature in Celsius, Fahrenheit and kelvin.",
          .inputs = {one_of("scale", {.name = "temperature_c", .unit = "C", .meaning = "temperature in Celsius", .possible = Range{-273.15, 1000}}),
                     one_of("scale", {.name = "temperature_f", .unit = "F", .meaning = "temperature in Fahrenheit", .possible = Range{-459.67, 1832}})},
          .outputs = {{"temperature_c", "C", "Celsius"}, {"temperature_f", "F", "Fahrenheit"}, {"temperature_k", "K", "kelvin"}},
          .source = "Definitions: F = 1.8 C + 32, K = C + 273.15",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
