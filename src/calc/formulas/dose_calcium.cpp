#include "calc/inputs.h"
#include "chemistry/dosing.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto raise = Hardness::from_german_degrees(in.number("raise_german_degrees"));
  Findings found;
  found.add("dose_g", chemistry::calcium_chloride_for(Volume::from_l(in.number("volume_l")), raise).g());
  found.add("raise_meq_per_l", raise.meq_per_l());
  found.add("chloride_added_mg_per_l", raise.meq_per_l() * chemistry::calcium_chloride_adds_chloride_mg_per_meq);
  found.notes.push_back("Dissolving calcium chloride heats the water: dissolve it in a separate vessel, with eye protection, and let it cool.");
  return found;
}

}  // namespace

Formula dose_calcium() {
  return {.name = "dose_calcium",
          .summary = "Calcium chloride dihydrate (CaCl2.2H2O) to raise general hardness, GH.",
          .inputs = {volume_l(), amount("raise_german_degrees", "German degrees", "wanted rise of GH", {0, 1000})},
          .outputs = {{"dose_g", "g", "pure dihydrate"}, {"raise_meq_per_l", "meq/L", "the rise in meq/L"},
                      {"chloride_added_mg_per_l", "mg/L", "chloride that comes with it; it also shields against nitrite"}},
          .source = "Stoichiometry from standard atomic weights",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
