#include "chemistry/mixing.h"

#include <array>

#include "calc/inputs.h"
#include "calc/registry.h"
#include "chemistry/ammonia.h"

namespace redd::calc::formulas {
namespace {

/// Tests whose value mixes by volume, given as a pair.
struct ConservedTest {
  std::string_view name;
  std::string_view unit_suffix;
  std::string_view unit;
  std::string_view meaning;
};
constexpr std::array conserved_tests{
    ConservedTest{"total_ammonia", "mg_n_per_l", "mg N/L", "total ammonia, as nitrogen"},
    ConservedTest{"nitrite", "mg_n_per_l", "mg N/L", "nitrite, as nitrogen"},
    ConservedTest{"nitrate", "mg_n_per_l", "mg N/L", "nitrate, as nitrogen"},
    ConservedTest{"hardness", "meq_per_l", "meq/L", "general hardness"},
    ConservedTest{"chloride", "mg_per_l", "mg/L", "chloride"},
    ConservedTest{"oxygen", "mg_o2_per_l", "mg/L", "dissolved oxygen"},
    ConservedTest{"chlorine", "mg_per_l", "mg/L", "total chlorine, as Cl2"},
    ConservedTest{"phosphate", "mg_p_per_l", "mg P/L", "phosphate, as phosphorus"},
    ConservedTest{"copper", "ug_per_l", "ug/L", "copper"},
};

std::string output_name(const ConservedTest& test) { return std::string(test.name) + "_" + std::string(test.unit_suffix); }
std::string input_name(const ConservedTest& test, char water) {
  return std::string(test.name) + "_" + water + "_" + std::string(test.unit_suffix);
}

chemistry::BufferedWater water(const Arguments& in, const std::string& letter) {
  return {Temperature::from_c(in.number("temperature_" + letter + "_c")), Ph::from_ph(in.number("ph_" + letter)),
          Alkalinity::from_meq_per_l(in.number("alkalinity_" + letter + "_meq_per_l"))};
}

bool exists(const chemistry::BufferedWater& water) {
  return chemistry::carbonate_from_ph(water.temperature, water.alkalinity, water.ph).has_value();
}

void add_ammonia(Findings& found, const chemistry::MixedWater& mixed, double total_mg_n_per_l) {
  const auto total = NitrogenConc::from_mg_n_per_l(total_mg_n_per_l);
  const auto just_mixed = chemistry::un_ionized(total, mixed.temperature, Ph::from_ph(mixed.just_mixed.ph));
  const auto aerated = chemistry::un_ionized(total, mixed.temperature, Ph::from_ph(mixed.after_aeration.ph));
  found.add("un_ionized_mg_nh3_per_l", just_mixed.mg_nh3_per_l());
  found.add("un_ionized_after_aeration_mg_nh3_per_l", aerated.mg_nh3_per_l());
}

Result<Findings> evaluate(const Arguments& in) {
  const double fraction_a = in.number("fraction_a");
  const auto a = water(in, "a"), b = water(in, "b");
  for (const auto& [letter, each] : {std::pair{"a", a}, std::pair{"b", b}})
    if (!exists(each))
      return Problem{"no_answer", std::string("ph_") + letter,
                     said("Water {0} cannot exist: at its pH hydroxide alone exceeds its alkalinity. Check both readings.", letter)};
  const auto mixed = chemistry::mixed(a, b, fraction_a, in.number("pco2_uatm"));
  if (!mixed)
    return Problem{"no_answer", "pco2_uatm", "The mixture has no pH between 0 and 14 at these inputs."};
  Findings found;
  found.add("ph", mixed->just_mixed.ph);
  found.add("ph_after_aeration", mixed->after_aeration.ph);
  found.add("temperature_c", mixed->temperature.c());
  found.add("alkalinity_meq_per_l", mixed->just_mixed.alkalinity_meq_per_l);
  found.add("dic_mmol_per_l", mixed->just_mixed.dic_mmol_per_l);
  found.add("co2_mg_per_l", mixed->just_mixed.co2_mg_per_l);
  found.add("co2_after_aeration_mg_per_l", mixed->after_aeration.co2_mg_per_l);
  Problems problems;
  for (const ConservedTest& test : conserved_tests) {
    const auto value_a = in.number_if(input_name(test, 'a')), value_b = in.number_if(input_name(test, 'b'));
    if (value_a.has_value() != value_b.has_value()) {
      const std::string missing = input_name(test, value_a ? 'b' : 'a');
      problems.push_back({"missing_input", missing, said("A test is mixed from both waters: give {0} too.", missing)});
    }
    if (!value_a || !value_b) continue;
    const double value = chemistry::mixed_value(fraction_a, *value_a, *value_b);
    found.add(output_name(test), value);
    if (test.name == "total_ammonia") add_ammonia(found, *mixed, value);
  }
  if (!problems.empty()) return problems;
  found.notes.push_back(said("pH follows from mixed alkalinity and inorganic carbon; aeration is taken with air of {0} uatm CO2 (outdoor air about 420, a full classroom 1000 or more).", text_from_number(in.number("pco2_uatm"))));
  return found;
}

}  // namespace

Formula mix() {
  Formula formula{
      .name = "mix",
      .summary = "Two waters poured together, through the carbonate system: just mixed, and after aeration.",
      .inputs = {{.name = "fraction_a", .unit = "", .meaning = "share of water a by volume", .possible = Range{0, 1}},
                 water_temperature_c({0, 50}, "temperature_a_c", "temperature of water a"),
                 water_temperature_c({0, 50}, "temperature_b_c", "temperature of water b"),
                 water_ph({4, 11}, "ph_a", "pH of water a"), water_ph({4, 11}, "ph_b", "pH of water b"),
                 {.name = "alkalinity_a_meq_per_l", .unit = "meq/L", .meaning = "alkalinity of water a", .fitted = Range{0, 10}, .possible = Range{0, 100}},
                 {.name = "alkalinity_b_meq_per_l", .unit = "meq/L", .meaning = "alkalinity of water b", .fitted = Range{0, 10}, .possible = Range{0, 100}},
                 optional(amount("pco2_uatm", "uatm", "CO2 in the air the mixture is aerated with", {1e-6, 1e7}),
                          text_from_number(chemistry::outdoor_co2_uatm))},
      .outputs = {{"ph", "", "pH just mixed, before any gas is exchanged"},
                  {"ph_after_aeration", "", "pH in balance with the air"},
                  {"temperature_c", "C", "temperature"},
                  {"alkalinity_meq_per_l", "meq/L", "alkalinity"},
                  {"dic_mmol_per_l", "mmol/L", "total inorganic carbon just mixed"},
                  {"co2_mg_per_l", "mg/L", "dissolved CO2 just mixed"},
                  {"co2_after_aeration_mg_per_l", "mg/L", "dissolved CO2 in balance with the air"},
                  {"un_ionized_mg_nh3_per_l", "mg NH3/L", "un-ionized ammonia just mixed, when total ammonia is given"},
                  {"un_ionized_after_aeration_mg_nh3_per_l", "mg NH3/L", "un-ionized ammonia after aeration, usually the worse"}},
      .source = "Conservation of alkalinity and inorganic carbon; constants of Plummer & Busenberg 1982, activities by Davies 1962; un-ionized ammonia by Emerson et al. 1975",
      .evaluate = evaluate};
  for (const ConservedTest& test : conserved_tests) {
    for (const char letter : {'a', 'b'}) {
      Input input = optional(amount(input_name(test, letter), std::string(test.unit), said("{0} of water {1}", test.meaning, letter)));
      input.also = output_name(test) + "_" + letter;
      formula.inputs.push_back(std::move(input));
    }
    formula.outputs.push_back({output_name(test), std::string(test.unit), std::string(test.meaning)});
  }
  return formula;
}

}  // namespace redd::calc::formulas
