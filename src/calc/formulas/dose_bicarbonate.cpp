#include "calc/inputs.h"
#include "chemistry/dosing.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto raise = Alkalinity::from_german_degrees(in.number("raise_german_degrees"));
  Findings found;
  found.add("dose_g", chemistry::sodium_bicarbonate_for(Volume::from_l(in.number("volume_l")), raise).g());
  found.add("raise_meq_per_l", raise.meq_per_l());
  found.add("sodium_added_mg_per_l", raise.meq_per_l() * chemistry::molar_mass::sodium);
  found.notes.push_back("Raise alkalinity slowly, over hours: a higher pH turns more of the ammonia un-ionized. It does not change general hardness.");
  return found;
}

}  // namespace

Formula dose_bicarbonate() {
  return {.name = "dose_bicarbonate",
          .summary = "Sodium bicarbonate (NaHCO3) to raise alkalinity, KH.",
          .inputs = {volume_l(), amount("raise_german_degrees", "German degrees", "wanted rise of KH", {0, 1000})},
          .outputs = {{"dose_g", "g", "pure dry salt"}, {"raise_meq_per_l", "meq/L", "the rise in meq/L"}, {"sodium_added_mg_per_l", "mg/L", "sodium that comes with it"}},
          .source = "Stoichiometry from standard atomic weights",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
