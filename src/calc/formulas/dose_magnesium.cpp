#include "calc/inputs.h"
#include "chemistry/dosing.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto raise = Hardness::from_german_degrees(in.number("raise_german_degrees"));
  Findings found;
  found.add("dose_g", chemistry::magnesium_sulfate_for(Volume::from_l(in.number("volume_l")), raise).g());
  found.add("raise_meq_per_l", raise.meq_per_l());
  return found;
}

}  // namespace

Formula dose_magnesium() {
  return {.name = "dose_magnesium",
          .summary = "Magnesium sulfate heptahydrate (MgSO4.7H2O) to raise general hardness, GH.",
          .inputs = {volume_l(), amount("raise_german_degrees", "German degrees", "wanted rise of GH", {0, 1000})},
          .outputs = {{"dose_g", "g", "pure heptahydrate"}, {"raise_meq_per_l", "meq/L", "the rise in meq/L"}},
          .source = "Stoichiometry from standard atomic weights",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
