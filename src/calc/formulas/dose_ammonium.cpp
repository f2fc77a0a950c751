#include "calc/inputs.h"
#include "chemistry/dosing.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto raise = NitrogenConc::from_mg_n_per_l(in.number("raise_mg_n_per_l"));
  Findings found;
  found.add("dose_g", chemistry::ammonium_chloride_for(Volume::from_l(in.number("volume_l")), raise).g());
  found.add("raise_mg_nh3_per_l", raise.mg_nh3_per_l());
  found.add("raise_mg_nh4_per_l", raise.mg_nh4_per_l());
  found.notes.push_back("Only for ripening a filter in a tank without eggs or fish.");
  return found;
}

}  // namespace

Formula dose_ammonium() {
  return {.name = "dose_ammonium",
          .summary = "Ammonium chloride (NH4Cl) to feed a ripening filter.",
          .inputs = {volume_l(), amount("raise_mg_n_per_l", "mg N/L", "wanted rise of total ammonia, as nitrogen", {0, 1000})},
          .outputs = {{"dose_g", "g", "pure dry salt"}, {"raise_mg_nh3_per_l", "mg NH3/L", "the rise as NH3"}, {"raise_mg_nh4_per_l", "mg NH4/L", "the rise as NH4"}},
          .source = "Stoichiometry from standard atomic weights",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
