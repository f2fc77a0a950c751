#include "calc/inputs.h"
#include "chemistry/limits.h"
#include "chemistry/nitrite.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto limit = chemistry::nitrite_limit(in.number_if("chloride_mg_per_l"));
  Findings found;
  found.add("mean_mg_n_per_l", limit.mean.mg_n_per_l());
  found.add("maximum_mg_n_per_l", limit.maximum.mg_n_per_l());
  found.add("mean_mg_no2_per_l", limit.mean.mg_no2_per_l());
  found.add("maximum_mg_no2_per_l", limit.maximum.mg_no2_per_l());
  if (!in.has("chloride_mg_per_l")) found.notes.push_back("Chloride is not known, so the strictest class (below 2 mg/L) is taken.");
  return found;
}

}  // namespace

Formula nitrite_limit() {
  return {.name = "nitrite_limit",
          .summary = "How much nitrite fresh-water life bears at this chloride.",
          .inputs = {optional(amount("chloride_mg_per_l", "mg/L", "chloride; left out, the strictest class is taken"))},
          .outputs = {{"mean_mg_n_per_l", "mg N/L", "thirty-day mean"},
                      {"maximum_mg_n_per_l", "mg N/L", "at no time more"},
                      {"mean_mg_no2_per_l", "mg NO2/L", "the mean as NO2"},
                      {"maximum_mg_no2_per_l", "mg NO2/L", "the maximum as NO2"}},
          .source = "British Columbia water quality guideline for nitrogen (Meays 2009), nitrite by chloride class",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
