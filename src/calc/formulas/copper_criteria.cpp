#include "calc/inputs.h"
#include "chemistry/toxicants.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto hardness = Hardness::from_mg_caco3_per_l(in.number("hardness_mg_caco3_per_l"));
  Findings found;
  found.add("acute_ug_per_l", chemistry::copper_acute_ug_per_l(hardness));
  found.add("chronic_ug_per_l", chemistry::copper_chronic_ug_per_l(hardness));
  found.add("acute_dissolved_ug_per_l", chemistry::dissolved_share_of_copper * chemistry::copper_acute_ug_per_l(hardness));
  found.add("chronic_dissolved_ug_per_l", chemistry::dissolved_share_of_copper * chemistry::copper_chronic_ug_per_l(hardness));
  found.notes.push_back("Later US documents set lower values; soft water of low alkalinity is the most dangerous.");
  return found;
}

}  // namespace

Formula copper_criteria() {
  return {.name = "copper_criteria",
          .summary = "US 1985 criteria for copper by hardness.",
          .inputs = {{.name = "hardness_mg_caco3_per_l", .unit = "mg/L as CaCO3", .meaning = "general hardness", .fitted = Range{25, 400}, .possible = Range{0.1, 5000}}},
          .outputs = {{"acute_ug_per_l", "ug/L", "acute, total copper"}, {"chronic_ug_per_l", "ug/L", "chronic, total copper"},
                      {"acute_dissolved_ug_per_l", "ug/L", "acute, dissolved copper"}, {"chronic_dissolved_ug_per_l", "ug/L", "chronic, dissolved copper"}},
          .source = "US EPA 1985 copper criteria, hardness equations as in Washington Administrative Code 173-201A-240",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
