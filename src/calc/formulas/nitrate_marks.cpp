#include "calc/inputs.h"
#include "chemistry/limits.h"

namespace redd::calc::formulas {
namespace {

namespace limits = chemistry::limits;

std::string standing_of(NitrogenConc nitrate) {
  if (nitrate >= limits::nitrate_ceiling) return "at_or_above_ceiling";
  if (nitrate >= limits::nitrate_act) return "at_or_above_act";
  if (nitrate >= limits::nitrate_guideline) return "at_or_above_guideline";
  return "below_guideline";
}

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  found.add("guideline_mg_no3_per_l", limits::nitrate_guideline.mg_no3_per_l());
  found.add("act_mg_no3_per_l", limits::nitrate_act.mg_no3_per_l());
  found.add("ceiling_mg_no3_per_l", limits::nitrate_ceiling.mg_no3_per_l());
  found.add("guideline_mg_n_per_l", limits::nitrate_guideline.mg_n_per_l());
  found.add("act_mg_n_per_l", limits::nitrate_act.mg_n_per_l());
  found.add("ceiling_mg_n_per_l", limits::nitrate_ceiling.mg_n_per_l());
  if (const auto reading = in.number_if("nitrate_mg_n_per_l")) {
    const auto nitrate = NitrogenConc::from_mg_n_per_l(*reading);
    found.add("nitrate_mg_no3_per_l", nitrate.mg_no3_per_l());
    found.add("standing", standing_of(nitrate));
  }
  found.notes.push_back("The act mark is our own choice and the ceiling common practice without a published source.");
  return found;
}

}  // namespace

Formula nitrate_marks() {
  return {.name = "nitrate_marks",
          .summary = "The three marks nitrate is held against, and where a reading stands.",
          .inputs = {optional(amount("nitrate_mg_n_per_l", "mg N/L", "nitrate, as nitrogen"))},
          .outputs = {{"guideline_mg_no3_per_l", "mg NO3/L", "long-term guideline"},
                      {"act_mg_no3_per_l", "mg NO3/L", "act"},
                      {"ceiling_mg_no3_per_l", "mg NO3/L", "ceiling"},
                      {"guideline_mg_n_per_l", "mg N/L", "the guideline as nitrogen"},
                      {"act_mg_n_per_l", "mg N/L", "the act mark as nitrogen"},
                      {"ceiling_mg_n_per_l", "mg N/L", "the ceiling as nitrogen"},
                      {"nitrate_mg_no3_per_l", "mg NO3/L", "the reading as NO3"},
                      {"standing", "", "below_guideline, at_or_above_guideline, at_or_above_act or at_or_above_ceiling"}},
          .source = "Guideline: CCME 2012 (from memory); act: below the first effects on embryos in McGurk et al. 2006; ceiling: common practice, no source",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
