#include "calc/inputs.h"
#include "chemistry/toxicants.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  Findings found;
  found.add("lc50_ug_per_l", chemistry::monochloramine_lc50_ug_per_l(in.number("minutes")));
  found.notes.push_back("Half of the fish die at this level: it shows how fast tap water kills and is no limit to work to.");
  return found;
}

}  // namespace

Formula chloramine_lc50() {
  return {.name = "chloramine_lc50",
          .summary = "Monochloramine that kills half of juvenile chinook within a time.",
          .inputs = {{.name = "minutes", .unit = "min", .meaning = "exposure", .fitted = Range{1, 14400}, .possible = Range{0.01, 1e6}}},
          .outputs = {{"lc50_ug_per_l", "ug/L", "monochloramine, as Cl2"}},
          .source = "Farrell et al. 2001, LC50 = 7244 t^-0.4525",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
