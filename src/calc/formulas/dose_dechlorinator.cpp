#include "calc/inputs.h"
#include "chemistry/dosing.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const double chlorine_mg_per_l = in.number("chlorine_mg_per_l");
  const double released_mg_n_per_l = in.flag("chloramine") ? chemistry::ammonia_released_by(chlorine_mg_per_l).mg_n_per_l() : 0.0;
  Findings found;
  found.add("dose_g", chemistry::thiosulfate_for(Volume::from_l(in.number("volume_l")), chlorine_mg_per_l).g());
  found.add("ammonia_released_mg_n_per_l", released_mg_n_per_l);
  found.notes.push_back("The dose takes the largest published ratio (7.0 mg per mg chlorine, to tetrathionate); test total chlorine afterwards, "
                        "before the water meets eggs or fish.");
  if (released_mg_n_per_l > 0.0)
    found.notes.push_back("Thiosulfate breaks chloramine and leaves its ammonia in the water; any free ammonia the utility adds comes on top.");
  return found;
}

}  // namespace

Formula dose_dechlorinator() {
  return {.name = "dose_dechlorinator",
          .summary = "Sodium thiosulfate pentahydrate for chlorinated or chloraminated tap water.",
          .inputs = {volume_l(), amount("chlorine_mg_per_l", "mg Cl2/L", "total chlorine of the tap water, as Cl2", {0, 1000}),
                     flag("chloramine", "the chlorine is chloramine, which releases ammonia", false)},
          .outputs = {{"dose_g", "g", "pure pentahydrate"},
                      {"ammonia_released_mg_n_per_l", "mg N/L", "total ammonia left by the chloramine"}},
          .source = "Stoichiometry from standard atomic weights: 2 S2O3 per Cl2 (tetrathionate); NH2Cl holds one N per Cl2 equivalent",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
