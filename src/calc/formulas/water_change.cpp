#include "calc/inputs.h"
#include "chemistry/mixing.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const double now = in.number("now"), source = in.number("source");
  Findings found;
  if (const auto target = in.number_if("target")) {
    const auto fraction = chemistry::fraction_to_reach(now, source, *target);
    if (!fraction)
      return Problem{"no_answer", "target", "No water change reaches the target: it does not lie between what the tank holds now and what the new water brings."};
    found.add("fraction", *fraction);
    found.add("after", *target);
    return found;
  }
  const double fraction = in.number("fraction");
  found.add("fraction", fraction);
  found.add("after", chemistry::after_water_changes(now, source, fraction, in.number("changes")));
  return found;
}

}  // namespace

Formula water_change() {
  return {.name = "water_change",
          .summary = "What a dissolved substance comes to after water changes, or the change that brings it to a target. Not for pH: use mix.",
          .inputs = {amount("now", "any", "amount per litre in the tank"), amount("source", "same", "amount per litre in the new water"),
                     one_of("aim", {.name = "fraction", .unit = "", .meaning = "share of the water changed each time", .possible = Range{0, 1}}),
                     one_of("aim", amount("target", "same", "wanted amount per litre after one change")),
                     optional({.name = "changes", .unit = "", .meaning = "number of equal changes", .possible = Range{1, 1000}}, "1")},
          .outputs = {{"fraction", "", "share of the water changed each time"}, {"after", "same", "amount per litre after the changes"}},
          .source = "Mass balance of complete mixing",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
