#include "calc/inputs.h"
#include "quantities/water.h"

namespace redd::calc::formulas {
namespace {

const std::vector<std::string> unit_names{"mg_caco3_per_l", "german_degrees", "french_degrees", "english_degrees", "us_grains_per_gallon", "mmol_per_l", "meq_per_l"};

HardnessUnit unit(const Arguments& in, std::string_view name) {
  const auto found = hardness_unit_named(in.text(name));
  require(found.has_value(), "hardness", "a listed unit is unknown");
  return *found;
}

/// Classes of the US Geological Survey; other agencies break at 75, 150 and 300.
std::string class_of(double mg_caco3_per_l) {
  if (mg_caco3_per_l <= 60.0) return "soft";
  if (mg_caco3_per_l <= 120.0) return "moderately_hard";
  if (mg_caco3_per_l <= 180.0) return "hard";
  return "very_hard";
}

Result<Findings> evaluate(const Arguments& in) {
  const double value = in.number("value");
  Findings found;
  found.add("value", hardness_converted(value, unit(in, "from"), unit(in, "to")));
  found.add("usgs_class", class_of(hardness_converted(value, unit(in, "from"), HardnessUnit::mg_caco3_per_l)));
  return found;
}

}  // namespace

Formula hardness() {
  return {.name = "hardness",
          .summary = "Hardness or alkalinity from one unit into another.",
          .inputs = {amount("value", "", "the amount in the unit `from`", {0, 1e6}), choice("from", "unit of the given amount", unit_names),
                     choice("to", "unit wanted", unit_names)},
          .outputs = {{"value", "", "the amount in the unit `to`"}, {"usgs_class", "", "soft, moderately_hard, hard or very_hard, breaks at 60, 120 and 180 mg/L as CaCO3 (for hardness, not alkalinity)"}},
          .source = "Definitions: German degree 10 mg CaO/L, French 10 mg CaCO3/L, English 1 grain per imperial gallon, US grain per US gallon; classes of the US Geological Survey",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
