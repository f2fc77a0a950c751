#include "calc/inputs.h"
#include "chemistry/ammonia.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto temperature = Temperature::from_c(in.number("temperature_c"));
  const auto ph = Ph::from_ph(in.number("ph"));
  Findings found;
  const NitrogenConc ccme = chemistry::long_term_guideline_ccme(temperature, ph);
  found.add("ccme_long_term_mg_n_per_l", ccme.mg_n_per_l());
  found.add("ccme_long_term_mg_nh3_per_l", ccme.mg_nh3_per_l());
  found.add("epa_1985_chronic_mg_n_per_l", chemistry::chronic_criterion_epa1985_salmonids(temperature, ph).mg_n_per_l());
  return found;
}

}  // namespace

Formula ammonia_guidelines() {
  return {.name = "ammonia_guidelines",
          .summary = "Older and Canadian limits of total ammonia at this temperature and pH, beside the US criteria of 2013.",
          .inputs = {water_temperature_c({0, 30}), water_ph({6.5, 9})},
          .outputs = {{"ccme_long_term_mg_n_per_l", "mg N/L", "total ammonia that holds 0.019 mg/L un-ionized (as NH3)"},
                      {"ccme_long_term_mg_nh3_per_l", "mg NH3/L", "the same as NH3, as the guideline prints it"},
                      {"epa_1985_chronic_mg_n_per_l", "mg N/L", "US 1985 four-day criterion with salmonids, as used in British Columbia"}},
          .source = "CCME 2010, Canadian water quality guideline for ammonia (0.019 mg/L un-ionized as NH3); US EPA 1985 ammonia criterion, salmonids present",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
