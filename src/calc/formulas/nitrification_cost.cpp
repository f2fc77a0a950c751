#include "calc/inputs.h"
#include "chemistry/nitrification.h"
#include "quantities/water.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const double oxidised_mg_n_per_l = in.number("ammonia_mg_n_per_l");
  const auto alkalinity = Alkalinity::from_meq_per_l(oxidised_mg_n_per_l * chemistry::nitrification_alkalinity_meq_per_mg_n);
  Findings found;
  found.add("oxygen_mg_o2_per_l", oxidised_mg_n_per_l * chemistry::ammonia_to_nitrate_mg_o2_per_mg_n);
  found.add("alkalinity_meq_per_l", alkalinity.meq_per_l());
  found.add("alkalinity_mg_caco3_per_l", alkalinity.mg_caco3_per_l());
  found.add("alkalinity_german_degrees", alkalinity.german_degrees());
  return found;
}

}  // namespace

Formula nitrification_cost() {
  return {.name = "nitrification_cost",
          .summary = "Oxygen and alkalinity that a filter uses up in turning ammonia into nitrate.",
          .inputs = {amount("ammonia_mg_n_per_l", "mg N/L", "total ammonia turned into nitrate")},
          .outputs = {{"oxygen_mg_o2_per_l", "mg/L", "oxygen used"}, {"alkalinity_meq_per_l", "meq/L", "alkalinity used"},
                      {"alkalinity_mg_caco3_per_l", "mg/L as CaCO3", "the same"}, {"alkalinity_german_degrees", "German degrees", "the same"}},
          .source = "Stoichiometry without cell growth; with growth a few percent less",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
