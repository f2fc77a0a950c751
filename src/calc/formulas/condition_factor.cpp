#include "biology/growth.h"
#include "calc/inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  const double length_mm = in.number("length_mm");
  if (const auto weight = in.number_if("weight_g")) found.add("condition", biology::condition_factor(Mass::from_g(*weight), length_mm));
  if (const auto condition = in.number_if("condition")) found.add("weight_g", biology::weight_by_length(length_mm, *condition).g());
  return found;
}

}  // namespace

Formula condition_factor() {
  return {.name = "condition_factor",
          .summary = "Condition factor K = 100 W/L^3 (g, cm) from a weight, or the weight from a condition factor.",
          .inputs = {amount("length_mm", "mm", "snout to fork of the tail", {5, 2000}), one_of("known", amount("weight_g", "g", "weight", {0.001, 1e5})),
                     one_of("known", amount("condition", "", "condition factor", {0.1, 5}))},
          .outputs = {{"condition", "100 g/cm3", "about 0.8 in new fry, 1.0 to 1.1 later"}, {"weight_g", "g", "weight"}},
          .source = "definition; Piper and others 1982 (from memory)",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
