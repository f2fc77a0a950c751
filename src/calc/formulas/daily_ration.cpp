#include "biology/ration.h"
#include "calc/inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto weight = Mass::from_g(in.number("weight_g"));
  const auto water = Temperature::from_c(in.number("temperature_c"));
  const double grown = biology::growth_ration_iwama1981(weight, water, in.number("conversion"), in.number("growth_coefficient"));
  const auto chart = biology::chart_ration_leitritz1976(weight, water);
  const double fish_g = weight.g() * in.number("count");
  Findings found;
  found.add("growth_percent", 100.0 * grown);
  found.add("growth_food_g", grown * fish_g);
  if (chart) {
    found.add("chart_percent", 100.0 * *chart);
    found.add("chart_food_g", *chart * fish_g);
  }
  found.add("school_food_g", biology::school_share_of_table * grown * fish_g);
  found.in_range = biology::ration(weight, water).in_table;
  if (!found.in_range) found.notes.push_back("Outside 4 to 14 C or 0.1 to 5 g: published tables do not reach so far.");
  if (!chart) found.notes.push_back("The chart read covers 3.9 to 13.9 C and fish up to 1.49 g: no value from it here.");
  return found;
}

}  // namespace

Formula daily_ration() {
  return {.name = "daily_ration",
          .summary = "Food a day for fry of one weight: by the growth line, by a hatchery's chart, and what a school's tank gives.",
          .inputs = {amount("weight_g", "g", "weight of one fish", {0.02, 500}), {.name = "temperature_c", .unit = "C", .meaning = "water temperature", .possible = possible_water_c},
                     optional(amount("count", "", "how many fish", {1, 1e6}), "1"), optional(amount("conversion", "", "g food a g of growth", {0.3, 5}), "1"),
                     optional(amount("growth_coefficient", "", "thermal growth coefficient, times 1000", {0.1, 5}), "1")},
          .outputs = {{"growth_percent", "% of body mass a day", "by the growth line"},
                      {"growth_food_g", "g/d", "for all of them"},
                      {"chart_percent", "% of body mass a day", "by the chart; missing where it does not reach"},
                      {"chart_food_g", "g/d", "for all of them"},
                      {"school_food_g", "g/d", "three fifths of the growth line (assumed: filter and not fish set the limit)"}},
          .source = "derivative of the growth line of Iwama & Tautz 1981; trout chart of Leitritz & Lewis 1976, as printed by an extension service",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
