#include "biology/ration.h"
#include "calc/inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const double food_g = in.number("food_g"), volume_l = in.number("volume_l"), protein = in.number("protein_fraction");
  Findings found;
  const double eaten_mg_n = biology::ammonia_of_food_mg_n_per_g(protein) * food_g, rotten_mg_n = biology::nitrogen_of_food_mg_n_per_g(protein) * food_g;
  const auto oxygen = biology::oxygen_of_food_mg_o2_per_g();
  found.add("ammonia_mg_n", eaten_mg_n);
  found.add("ammonia_mg_n_per_l", eaten_mg_n / volume_l);
  found.add("uneaten_mg_n", rotten_mg_n);
  found.add("uneaten_mg_n_per_l", rotten_mg_n / volume_l);
  found.add("oxygen_low_mg_o2_per_l", oxygen.low * food_g / volume_l);
  found.add("oxygen_high_mg_o2_per_l", oxygen.high * food_g / volume_l);
  return found;
}

}  // namespace

Formula food_load() {
  return {.name = "food_load",
          .summary = "What a portion of food does to the water: ammonia when it is eaten, ammonia when it is left to rot, oxygen used.",
          .inputs = {amount("food_g", "g", "dry food", {0, 1e5}), volume_l(),
                     optional({.name = "protein_fraction", .meaning = "share of protein", .fitted = Range{0.35, 0.6}, .possible = Range{0, 1}}, "0.5")},
          .outputs = {{"ammonia_mg_n", "mg N", "ammonia set free when all of it is eaten: 0.092 x protein"},
                      {"ammonia_mg_n_per_l", "mg N/L", "in the whole tank, if nothing takes it away"},
                      {"uneaten_mg_n", "mg N", "all its nitrogen, when it rots instead: 0.16 x protein"},
                      {"uneaten_mg_n_per_l", "mg N/L", "in the whole tank"},
                      {"oxygen_low_mg_o2_per_l", "mg/L", "oxygen used by fish alone (0.25 g a gram)"},
                      {"oxygen_high_mg_o2_per_l", "mg/L", "by fish, bacteria and filter (0.5 g a gram)"}},
          .source = "Timmons & Ebeling 2007 (from memory); protein at 16 % nitrogen",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
