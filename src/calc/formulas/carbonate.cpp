#include "chemistry/carbonate.h"

#include "calc/inputs.h"
#include "chemistry/activity.h"

namespace redd::calc::formulas {
namespace {

std::optional<chemistry::CarbonateState> state_asked_for(const Arguments& in) {
  const auto temperature = Temperature::from_c(in.number("temperature_c"));
  const auto alkalinity = Alkalinity::from_meq_per_l(in.number("alkalinity_meq_per_l"));
  const auto ionic_strength = in.number_if("ionic_strength_mol_per_l");
  if (const auto ph = in.number_if("ph")) return chemistry::carbonate_from_ph(temperature, alkalinity, Ph::from_ph(*ph), ionic_strength);
  if (const auto co2 = in.number_if("co2_mg_per_l")) return chemistry::carbonate_from_co2(temperature, alkalinity, *co2, ionic_strength);
  if (const auto dic = in.number_if("dic_mmol_per_l")) return chemistry::carbonate_from_dic(temperature, alkalinity, *dic, ionic_strength);
  return chemistry::carbonate_from_pco2(temperature, alkalinity, in.number("pco2_uatm"), ionic_strength);
}

Result<Findings> evaluate(const Arguments& in) {
  const auto state = state_asked_for(in);
  if (!state)
    return Problem{"no_answer", in.has("ph") ? "ph" : "alkalinity_meq_per_l",
                   "No such water exists: at this pH hydroxide alone would exceed the alkalinity, or the pH would leave 0 to 14. Check both readings."};
  const auto alkalinity = Alkalinity::from_meq_per_l(in.number("alkalinity_meq_per_l"));
  const double ionic_strength = in.number_if("ionic_strength_mol_per_l").value_or(chemistry::ionic_strength_from_alkalinity(alkalinity));
  const auto constants = chemistry::carbonate_constants(Temperature::from_c(in.number("temperature_c")), ionic_strength);
  Findings found;
  found.add("ph", state->ph);
  found.add("co2_mg_per_l", state->co2_mg_per_l);
  found.add("dic_mmol_per_l", state->dic_mmol_per_l);
  found.add("pco2_uatm", state->pco2_uatm);
  found.add("bicarbonate_mmol_per_l", state->bicarbonate_mmol_per_l);
  found.add("carbonate_mmol_per_l", state->carbonate_mmol_per_l);
  found.add("pk1", constants.pk1);
  found.add("pk2", constants.pk2);
  found.add("pkw", constants.pkw);
  found.add("pkh", constants.pkh);
  found.add("ionic_strength_mol_per_l", ionic_strength);
  return found;
}

}  // namespace

Formula carbonate() {
  return {.name = "carbonate",
          .summary = "The carbonate system of fresh water: alkalinity and one of pH, dissolved CO2, CO2 in the gas above, or total inorganic carbon give the rest.",
          .inputs = {water_temperature_c({0, 90}),
                     {.name = "alkalinity_meq_per_l", .unit = "meq/L", .meaning = "alkalinity", .fitted = Range{0, 10}, .possible = Range{0, 100}},
                     one_of("state", water_ph({4, 11})),
                     one_of("state", amount("co2_mg_per_l", "mg/L", "dissolved carbon dioxide", {1e-9, 1e4})),
                     one_of("state", amount("pco2_uatm", "uatm", "partial pressure of CO2 in the gas in balance with the water; outdoor air about 420", {1e-6, 1e7})),
                     one_of("state", amount("dic_mmol_per_l", "mmol/L", "total inorganic carbon", {0, 1e3})),
                     optional({.name = "ionic_strength_mol_per_l", .unit = "mol/L", .meaning = "ionic strength; left out, 0.001 times the alkalinity",
                               .fitted = Range{0, 0.1}, .possible = Range{0, 1}})},
          .outputs = {{"ph", "", "pH"},
                      {"co2_mg_per_l", "mg/L", "dissolved carbon dioxide"},
                      {"dic_mmol_per_l", "mmol/L", "total inorganic carbon"},
                      {"pco2_uatm", "uatm", "CO2 pressure in balance with the water"},
                      {"bicarbonate_mmol_per_l", "mmol/L", "bicarbonate"},
                      {"carbonate_mmol_per_l", "mmol/L", "carbonate"},
                      {"pk1", "", "first acid constant of CO2 at zero ionic strength"},
                      {"pk2", "", "second acid constant at zero ionic strength"},
                      {"pkw", "", "ion product of water at zero ionic strength"},
                      {"pkh", "", "solubility of CO2, mol/L/atm"},
                      {"ionic_strength_mol_per_l", "mol/L", "ionic strength used"}},
          .source = "Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011, constants as in the WATEQ4F data base; activities by Davies 1962",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
