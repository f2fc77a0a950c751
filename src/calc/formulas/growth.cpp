#include "biology/growth.h"
#include "calc/inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto weight = Mass::from_g(in.number("weight_g"));
  const auto water = Temperature::from_c(in.number("temperature_c"));
  const std::string& key = in.text("model");
  // The models of the two species they were fitted to; the coefficient is the same form for all.
  const auto species = biology::find_species(key == "elliott1997" ? "atlantic_salmon" : "brown_trout");
  if (!species) return species.problems();
  const auto model = biology::growth_models(*species)[key == "iwama1981" ? 0 : 1];
  const Mass after = biology::weight_after(model, weight, water, Days(in.number("days")), in.number("factor"));
  Findings found;
  found.source = std::string(model.source);
  found.add("weight_after_g", after.g());
  if (biology::in_fitted_range(model, weight, water) && biology::in_fitted_range(model, after, water)) return found;
  found.in_range = false;
  found.notes.push_back("Outside what the model was fitted to; it is held, not trusted, there: no growth is taken beyond its ends, and the thermal coefficient counts water beyond 14 C as 14 C.");
  return found;
}

}  // namespace

Formula growth() {
  return {.name = "growth",
          .summary = "Weight of a fed fry after some days at one temperature, by one of three published models.",
          .inputs = {amount("weight_g", "g", "weight at first", {0.01, 2000}), {.name = "temperature_c", .unit = "C", .meaning = "water temperature", .possible = possible_water_c},
                     amount("days", "d", "days of growth", {0, 400}),
                     optional({.name = "factor", .meaning = "growth coefficient (times 1000) of iwama1981, or how much faster than the fish of Elliott's paper", .possible = Range{0, 10}}, "1"),
                     optional(choice("model", "published model", {"iwama1981", "elliott1995", "elliott1997"}), "iwama1981")},
          .outputs = {{"weight_after_g", "g", "weight afterwards"}},
          .source = "Iwama & Tautz 1981; Elliott, Hurley & Fryer 1995; Elliott & Hurley 1997 (constants from memory)",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
