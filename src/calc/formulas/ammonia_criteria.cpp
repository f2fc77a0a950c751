#include "calc/inputs.h"
#include "chemistry/ammonia.h"
#include "chemistry/limits.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto temperature = Temperature::from_c(in.number("temperature_c"));
  const auto ph = Ph::from_ph(in.number("ph"));
  const NitrogenConc chronic = chemistry::chronic_criterion_epa2013(temperature, ph);
  Findings found;
  found.add("acute_mg_n_per_l", chemistry::acute_criterion_epa2013(temperature, ph, in.flag("salmonids")).mg_n_per_l());
  found.add("chronic_mg_n_per_l", chronic.mg_n_per_l());
  found.add("four_day_mg_n_per_l", chemistry::four_day_over_chronic_epa2013 * chronic.mg_n_per_l());
  found.add("chronic_as_un_ionized_mg_nh3_per_l", chemistry::un_ionized(chronic, temperature, ph).mg_nh3_per_l());
  if (chemistry::un_ionized(chronic, temperature, ph) > chemistry::limits::action_un_ionized_ammonia)
    found.notes.push_back("The chronic criterion protects early life stages by itself, yet here it allows more un-ionized ammonia than the 0.0125 mg/L (as NH3) "
                          "at which to act for eggs: trout eggs kept from fertilisation at 0.027 mg/L died (Solbe & Shurben 1989).");
  return found;
}

}  // namespace

Formula ammonia_criteria() {
  return {.name = "ammonia_criteria",
          .summary = "US criteria for total ammonia in fresh water: one-hour acute and thirty-day chronic.",
          .inputs = {water_temperature_c({0, 30}), water_ph({6.5, 9}),
                     flag("salmonids", "salmon or trout (Oncorhynchus) are present; lowers the acute criterion", true),
                     flag("early_life_stages", "eggs, alevins or fry are present; the 2013 chronic criterion is the same either way", true)},
          .outputs = {{"acute_mg_n_per_l", "mg N/L", "one-hour mean of total ammonia"},
                      {"chronic_mg_n_per_l", "mg N/L", "thirty-day mean of total ammonia"},
                      {"four_day_mg_n_per_l", "mg N/L", "highest four-day mean within the thirty days, 2.5 times the chronic"},
                      {"chronic_as_un_ionized_mg_nh3_per_l", "mg NH3/L", "un-ionized ammonia at the chronic criterion"}},
          .source = "US EPA 2013, Aquatic life ambient water quality criteria for ammonia - freshwater, EPA-822-R-13-001",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
