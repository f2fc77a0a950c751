#include "calc/inputs.h"
#include "chemistry/ammonia.h"
#include "chemistry/limits.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const auto temperature = Temperature::from_c(in.number("temperature_c"));
  const auto ph = Ph::from_ph(in.number("ph"));
  const auto total = NitrogenConc::from_mg_n_per_l(in.number("total_ammonia_mg_n_per_l"));
  const double ionic_strength = in.number("ionic_strength_mol_per_l");
  const NitrogenConc free = chemistry::un_ionized(total, temperature, ph, ionic_strength);
  Findings found;
  found.add("un_ionized_fraction", chemistry::un_ionized_fraction(temperature, ph, ionic_strength));
  found.add("un_ionized_mg_n_per_l", free.mg_n_per_l());
  found.add("un_ionized_mg_nh3_per_l", free.mg_nh3_per_l());
  found.add("pka", chemistry::ammonium_pka(temperature));
  found.add("total_ammonia_at_action_mg_n_per_l",
            chemistry::total_with_un_ionized(chemistry::limits::action_un_ionized_ammonia, temperature, ph, ionic_strength).mg_n_per_l());
  found.add("total_ammonia_at_alarm_mg_n_per_l",
            chemistry::total_with_un_ionized(chemistry::limits::alarm_un_ionized_ammonia, temperature, ph, ionic_strength).mg_n_per_l());
  return found;
}

}  // namespace

Formula un_ionized_ammonia() {
  return {.name = "un_ionized_ammonia",
          .summary = "The toxic, un-ionized part of total ammonia in fresh water.",
          .inputs = {water_temperature_c({0, 50}), water_ph({5, 12}),
                     optional(amount("total_ammonia_mg_n_per_l", "mg N/L", "total ammonia, as nitrogen"), "1"),
                     optional({.name = "ionic_strength_mol_per_l", .unit = "mol/L",
                               .meaning = "ionic strength; 0 gives the published table and errs to the safe side",
                               .fitted = Range{0, 0.1}, .possible = Range{0, 1}}, "0")},
          .outputs = {{"un_ionized_fraction", "", "share of the total that is un-ionized"},
                      {"un_ionized_mg_n_per_l", "mg N/L", "un-ionized ammonia, as nitrogen"},
                      {"un_ionized_mg_nh3_per_l", "mg NH3/L", "un-ionized ammonia, as NH3"},
                      {"pka", "", "acid constant of ammonium in pure water"},
                      {"total_ammonia_at_action_mg_n_per_l", "mg N/L", "total that would hold 0.0125 mg/L un-ionized (as NH3): act"},
                      {"total_ammonia_at_alarm_mg_n_per_l", "mg N/L", "total that would hold 0.025 mg/L un-ionized (as NH3): alarm"}},
          .source = "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379, pKa = 0.09018 + 2729.92/T; ionic strength by Davies 1962",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
