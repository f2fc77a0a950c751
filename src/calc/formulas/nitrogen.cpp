#include "quantities/nitrogen.h"

#include "calc/inputs.h"

namespace redd::calc::formulas {
namespace {

const std::vector<std::string> basis_names{"n", "nh3", "nh4", "no2", "no3"};

NitrogenBasis basis(const std::string& name) {
  if (name == "nh3") return NitrogenBasis::nh3;
  if (name == "nh4") return NitrogenBasis::nh4;
  if (name == "no2") return NitrogenBasis::no2;
  if (name == "no3") return NitrogenBasis::no3;
  return NitrogenBasis::n;
}

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  found.add("value", NitrogenConc::from(in.number("value"), basis(in.text("from"))).as(basis(in.text("to"))));
  return found;
}

}  // namespace

Formula nitrogen() {
  return {.name = "nitrogen",
          .summary = "The same nitrogen counted as N, NH3, NH4, NO2 or NO3.",
          .inputs = {amount("value", "mg/L", "the amount counted as `from`"), choice("from", "what the given amount counts", basis_names),
                     choice("to", "what is wanted", basis_names)},
          .outputs = {{"value", "mg/L", "the amount counted as `to`"}},
          .source = "Molar masses from standard atomic weights (N 14.007, H 1.008, O 15.999)",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
