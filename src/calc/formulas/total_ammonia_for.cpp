#include "calc/inputs.h"
#include "chemistry/ammonia.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto total = chemistry::total_with_un_ionized(NitrogenConc::from_mg_nh3_per_l(in.number("un_ionized_mg_nh3_per_l")),
                                                      Temperature::from_c(in.number("temperature_c")), Ph::from_ph(in.number("ph")));
  Findings found;
  found.add("total_ammonia_mg_n_per_l", total.mg_n_per_l());
  found.add("total_ammonia_mg_nh3_per_l", total.mg_nh3_per_l());
  found.add("total_ammonia_mg_nh4_per_l", total.mg_nh4_per_l());
  return found;
}

}  // namespace

Formula total_ammonia_for() {
  return {.name = "total_ammonia_for",
          .summary = "The total ammonia at which the un-ionized part reaches a given level.",
          .inputs = {water_temperature_c({0, 50}), water_ph({5, 12}),
                     optional(amount("un_ionized_mg_nh3_per_l", "mg NH3/L", "un-ionized ammonia, as NH3"), "0.0125")},
          .outputs = {{"total_ammonia_mg_n_per_l", "mg N/L", "total ammonia, as nitrogen"},
                      {"total_ammonia_mg_nh3_per_l", "mg NH3/L", "the same as NH3"},
                      {"total_ammonia_mg_nh4_per_l", "mg NH4/L", "the same as NH4"}},
          .source = "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
