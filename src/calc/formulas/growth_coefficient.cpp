#include "biology/growth.h"
#include "calc/inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  found.add("growth_coefficient", biology::growth_coefficient(Mass::from_g(in.number("weight_g")), Mass::from_g(in.number("weight_after_g")), in.number("days") * in.number("temperature_c")));
  return found;
}

}  // namespace

Formula growth_coefficient() {
  return {.name = "growth_coefficient",
          .summary = "Thermal growth coefficient (times 1000) between two weighings.",
          .inputs = {amount("weight_g", "g", "weight at first", {0.01, 2000}), amount("weight_after_g", "g", "weight afterwards", {0.01, 2000}), amount("days", "d", "days between", {0.1, 400}),
                     {.name = "temperature_c", .unit = "C", .meaning = "mean water temperature", .fitted = Range{4, 14}, .possible = Range{0.1, 30}}},
          .outputs = {{"growth_coefficient", "", "1 is the published line; 0.6 to 1.9 in hatcheries"}},
          .source = "Iwama & Tautz 1981, equation for W(t), exponent 1/3",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
