// Every formula answers through the registry, with the keys of the contract and numbers a person can check by hand.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "calc/registry.h"

namespace redd::calc {
namespace {

Answer ask(std::string_view name, const RawInputs& inputs) {
  const auto answer = evaluate(name, inputs);
  if (!answer) {
    ADD_FAILURE() << name << ": " << answer.problems().front().sentence;
    return {};
  }
  // Whatever an answer holds is described by its formula.
  const auto all = all_formulas();
  const auto formula = std::ranges::find(all, name, &Formula::name);
  for (const NamedValue& output : answer->outputs)
    EXPECT_NE(std::ranges::find(formula->outputs, output.name, &Output::name), formula->outputs.end()) << name << " does not describe " << output.name;
  return *answer;
}

double number(const Answer& answer, std::string_view output) {
  for (const NamedValue& each : answer.outputs)
    if (each.name == output) return std::get<double>(each.value);
  ADD_FAILURE() << answer.name << " has no output " << output;
  return std::nan("");
}

bool has(const Answer& answer, std::string_view output) {
  return std::ranges::find(answer.outputs, output, &NamedValue::name) != answer.outputs.end();
}

TEST(UnIonizedAmmonia, GivesTheThreeContractNumbers) {
  const auto answer = ask("un_ionized_ammonia", {{"temperature_c", "10"}, {"ph", "8"}, {"total_ammonia_mg_n_per_l", "2"}});
  EXPECT_NEAR(number(answer, "un_ionized_fraction"), 0.0182, 0.0001);
  EXPECT_NEAR(number(answer, "un_ionized_mg_n_per_l"), 0.0364, 0.0002);
  EXPECT_NEAR(number(answer, "un_ionized_mg_nh3_per_l") / number(answer, "un_ionized_mg_n_per_l"), 1.2159, 0.0001);
  EXPECT_NEAR(number(ask("total_ammonia_for", {{"temperature_c", "10"}, {"ph", "8"}}), "total_ammonia_mg_n_per_l"), 0.56, 0.005);
}

TEST(AmmoniaCriteria, SalmonidsAreTheDefault) {
  const auto with = ask("ammonia_criteria", {{"temperature_c", "10"}, {"ph", "7.5"}});
  const auto without = ask("ammonia_criteria", {{"temperature_c", "10"}, {"ph", "7.5"}, {"salmonids", "false"}});
  EXPECT_NEAR(number(with, "acute_mg_n_per_l"), 13, 0.5);
  EXPECT_NEAR(number(without, "acute_mg_n_per_l"), 21, 0.5);
  EXPECT_EQ(number(with, "chronic_mg_n_per_l"), number(without, "chronic_mg_n_per_l"));
  EXPECT_GT(number(ask("ammonia_guidelines", {{"temperature_c", "10"}, {"ph", "8"}}), "epa_1985_chronic_mg_n_per_l"), 1.1);
}

TEST(OxygenSaturation, TakesAPressureOrAHeightOrNeither) {
  EXPECT_NEAR(number(ask("oxygen_saturation", {{"temperature_c", "10"}}), "saturation_mg_o2_per_l"), 11.288, 0.002);
  EXPECT_NEAR(number(ask("oxygen_saturation", {{"temperature_c", "10"}, {"pressure_mmhg", "700"}}), "saturation_mg_o2_per_l"), 10.387, 0.01);
  const auto high = ask("oxygen_saturation", {{"temperature_c", "8"}, {"elevation_m", "640"}, {"oxygen_mg_o2_per_l", "9"}});
  EXPECT_NEAR(number(high, "pressure_mmhg"), 704.5, 0.1);
  EXPECT_NEAR(number(high, "saturation_fraction"), 9.0 / number(high, "saturation_mg_o2_per_l"), 1e-12);
  EXPECT_FALSE(evaluate("oxygen_saturation", {{"temperature_c", "99.9"}}));
  EXPECT_FALSE(evaluate("oxygen_saturation", {{"temperature_c", "30"}, {"pressure_mmhg", "20"}}));
}

TEST(Carbonate, AnyOneOfTheSetWillDo) {
  const RawInputs water{{"temperature_c", "10"}, {"alkalinity_meq_per_l", "2"}};
  const auto with = [&](const char* key, const std::string& text) {
    RawInputs inputs = water;
    inputs.emplace_back(key, text);
    return ask("carbonate", inputs);
  };
  const auto by_ph = with("ph", "7.5");
  EXPECT_NEAR(number(by_ph, "co2_mg_per_l"), 7.6846, 0.077);
  EXPECT_EQ(number(by_ph, "ph"), 7.5);
  for (const char* key : {"co2_mg_per_l", "pco2_uatm", "dic_mmol_per_l"})
    EXPECT_NEAR(number(with(key, text_from_number(number(by_ph, key))), "ph"), 7.5, 1e-8) << key;
  for (const char* key : {"pk1", "pk2", "pkw", "pkh", "dic_mmol_per_l"}) EXPECT_TRUE(has(by_ph, key)) << key;
  EXPECT_FALSE(evaluate("carbonate", {{"temperature_c", "10"}, {"alkalinity_meq_per_l", "0.1"}, {"ph", "12"}}));
}

RawInputs two_waters() {
  return {{"fraction_a", "0.25"},       {"temperature_a_c", "10"},          {"temperature_b_c", "14"},        {"ph_a", "6.8"},
          {"ph_b", "8.2"},              {"alkalinity_a_meq_per_l", "0.5"}, {"alkalinity_b_meq_per_l", "3.0"}};
}

TEST(Mix, MixesEveryTestGivenForBothWaters) {
  RawInputs inputs = two_waters();
  for (const auto& [key, text] : RawInputs{{"total_ammonia_a_mg_n_per_l", "1"}, {"total_ammonia_b_mg_n_per_l", "0"}, {"nitrate_mg_n_per_l_a", "4"},
                                           {"nitrate_mg_n_per_l_b", "2"}, {"hardness_a_meq_per_l", "1"}, {"hardness_b_meq_per_l", "3"}})
    inputs.emplace_back(key, text);
  const auto answer = ask("mix", inputs);
  EXPECT_DOUBLE_EQ(number(answer, "temperature_c"), 13.0);
  EXPECT_DOUBLE_EQ(number(answer, "alkalinity_meq_per_l"), 2.375);
  EXPECT_DOUBLE_EQ(number(answer, "total_ammonia_mg_n_per_l"), 0.25);
  EXPECT_DOUBLE_EQ(number(answer, "nitrate_mg_n_per_l"), 2.5);
  EXPECT_DOUBLE_EQ(number(answer, "hardness_meq_per_l"), 2.5);
  EXPECT_GT(number(answer, "un_ionized_after_aeration_mg_nh3_per_l"), number(answer, "un_ionized_mg_nh3_per_l"));
  EXPECT_FALSE(has(answer, "nitrite_mg_n_per_l"));
}

TEST(Mix, AsksForTheOtherHalfOfAPair) {
  RawInputs inputs = two_waters();
  inputs.emplace_back("nitrite_a_mg_n_per_l", "0.1");
  const auto answer = evaluate("mix", inputs);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.problems().front().field, "nitrite_b_mg_n_per_l");
}

TEST(Hardness, EveryPairOfUnits) {
  EXPECT_NEAR(number(ask("hardness", {{"value", "4"}, {"from", "german_degrees"}, {"to", "mg_caco3_per_l"}}), "value"), 71.39, 0.01);
  EXPECT_NEAR(number(ask("hardness", {{"value", "100"}, {"from", "mg_caco3_per_l"}, {"to", "french_degrees"}}), "value"), 10.0, 1e-12);
}

TEST(Doses, AreWhatTheArithmeticSays) {
  EXPECT_NEAR(number(ask("dose_bicarbonate", {{"volume_l", "210"}, {"raise_german_degrees", "2"}}), "dose_g"), 210 * 2 * 0.029961, 0.002);
  EXPECT_NEAR(number(ask("dose_calcium", {{"volume_l", "210"}, {"raise_german_degrees", "2"}}), "dose_g"), 210 * 2 * 0.026216, 0.002);
  EXPECT_NEAR(number(ask("dose_calcium", {{"volume_l", "210"}, {"raise_german_degrees", "2"}}), "chloride_added_mg_per_l"), 25.288, 0.005);
  EXPECT_NEAR(number(ask("dose_magnesium", {{"volume_l", "210"}, {"raise_german_degrees", "2"}}), "dose_g"), 210 * 2 * 0.043953, 0.002);
  EXPECT_NEAR(number(ask("dose_ammonium", {{"volume_l", "210"}, {"raise_mg_n_per_l", "2"}}), "dose_g"), 210 * 2 * 0.0038189, 0.0005);
  const auto chlorine = ask("dose_dechlorinator", {{"volume_l", "210"}, {"chlorine_mg_per_l", "2"}});
  const auto chloramine = ask("dose_dechlorinator", {{"volume_l", "210"}, {"chlorine_mg_per_l", "2"}, {"chloramine", "true"}});
  EXPECT_NEAR(number(chlorine, "dose_g"), 2.94, 0.005);
  EXPECT_EQ(number(chlorine, "ammonia_released_mg_n_per_l"), 0.0);
  EXPECT_NEAR(number(chloramine, "ammonia_released_mg_n_per_l"), 0.395, 0.0005);
  EXPECT_EQ(number(chloramine, "dose_g"), number(chlorine, "dose_g"));
}

TEST(NitriteLimit, WorksWithAndWithoutChloride) {
  EXPECT_DOUBLE_EQ(number(ask("nitrite_limit", {}), "mean_mg_n_per_l"), 0.02);
  EXPECT_DOUBLE_EQ(number(ask("nitrite_limit", {{"chloride_mg_per_l", "12"}}), "maximum_mg_n_per_l"), 0.6);
}

TEST(NitrateMarks, PlacesAReading) {
  const auto standing = [](const char* mg_n_per_l) {
    const auto answer = ask("nitrate_marks", {{"nitrate_mg_n_per_l", mg_n_per_l}});
    return std::get<std::string>(std::ranges::find(answer.outputs, "standing", &NamedValue::name)->value);
  };
  EXPECT_EQ(standing("1"), "below_guideline");
  EXPECT_EQ(standing("4"), "at_or_above_guideline");
  EXPECT_EQ(standing("6"), "at_or_above_act");
  EXPECT_EQ(standing("20"), "at_or_above_ceiling");
}

TEST(SmallOnes, Convert) {
  EXPECT_DOUBLE_EQ(number(ask("temperature", {{"temperature_f", "50"}}), "temperature_c"), 10.0);
  EXPECT_DOUBLE_EQ(number(ask("thermal_units", {{"sum_c_days", "100"}}), "sum_f_units"), 180.0);
  EXPECT_DOUBLE_EQ(number(ask("thermal_units", {{"daily_means_c", "8,8.5,-0.2, 7"}}), "sum_c_days"), 23.5);
  EXPECT_NEAR(number(ask("nitrogen", {{"value", "10"}, {"from", "no3"}, {"to", "n"}}), "value"), 2.259, 0.001);
  EXPECT_NEAR(number(ask("water_change", {{"now", "40"}, {"source", "5"}, {"target", "13"}}), "fraction"), 27.0 / 35.0, 1e-12);
  EXPECT_NEAR(number(ask("water_change", {{"now", "40"}, {"source", "0"}, {"fraction", "0.5"}, {"changes", "3"}}), "after"), 5.0, 1e-12);
  EXPECT_FALSE(evaluate("water_change", {{"now", "40"}, {"source", "20"}, {"target", "13"}}));
  EXPECT_NEAR(number(ask("nitrification_cost", {{"ammonia_mg_n_per_l", "1"}}), "alkalinity_mg_caco3_per_l"), 7.145, 0.001);
  EXPECT_NEAR(number(ask("copper_criteria", {{"hardness_mg_caco3_per_l", "25"}}), "acute_ug_per_l"), 4.801, 0.001);
  EXPECT_NEAR(number(ask("chloramine_lc50", {{"minutes", "60"}}), "lc50_ug_per_l"), 1136.0, 0.1);
}

TEST(ControlChart, RunLengthsOfThreeCharts) {
  EXPECT_NEAR(number(ask("control_chart", {{"chart", "ewma"}, {"lambda", "0.03"}, {"limit", "2.437"}}), "average_run_length"), 500, 3);
  EXPECT_NEAR(number(ask("control_chart", {{"chart", "cusum"}, {"k", "0.5"}, {"h", "4"}, {"shift", "0.5"}}), "average_run_length"), 26.6, 0.16);
  EXPECT_NEAR(number(ask("control_chart", {{"chart", "cusum"}, {"sided", "one"}, {"k", "0"}, {"h", "10"}}), "average_run_length"), 124.66, 0.1);
  EXPECT_NEAR(number(ask("control_chart", {{"chart", "shewhart"}}), "average_run_length"), 370.4, 0.05);
  EXPECT_NEAR(number(ask("control_chart", {{"chart", "shewhart"}, {"two_of_three", "true"}}), "average_run_length"), 225.44, 0.02);
  EXPECT_NEAR(number(ask("control_chart", {{"chart", "shewhart"}, {"wanted_run_length", "370.398"}}), "limit"), 3.0, 1e-4);
  EXPECT_NEAR(number(ask("control_chart", {{"chart", "cusum"}, {"k", "0.5"}, {"wanted_run_length", "168"}}), "h"), 4.0, 0.01);
}

TEST(ControlChart, ChartsASeries) {
  const std::string values =
      "9.45,7.99,9.29,11.66,12.16,10.18,8.04,11.46,9.2,10.34,9.03,11.47,10.51,9.4,10.08,9.37,10.62,10.31,8.52,10.84,10.9,9.33,12.29,11.5,10.6,11.08,"
      "10.38,11.62,11.31,10.52";
  const auto ewma = ask("control_chart", {{"chart", "ewma"}, {"lambda", "0.1"}, {"limit", "2.7"}, {"values", values}, {"target", "10"}, {"sigma", "1"}});
  EXPECT_EQ(number(ewma, "first_signal_reading"), 29);
  const auto cusum = ask("control_chart", {{"chart", "cusum"}, {"k", "0.5"}, {"h", "5"}, {"values", values}, {"target", "10"}, {"sigma", "1"}});
  EXPECT_EQ(number(cusum, "first_signal_reading"), 29);
  EXPECT_EQ(number(cusum, "decision_limit"), 5.0);
  const auto shewhart = ask("control_chart", {{"chart", "shewhart"}, {"values", values}});
  EXPECT_EQ(number(shewhart, "signal_count"), 0);
  EXPECT_FALSE(has(shewhart, "first_signal_reading"));
}

TEST(ControlChart, RefusesWhatBelongsToAnotherChart) {
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "cusum"}, {"k", "0.5"}, {"limit", "5"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "ewma"}, {"lambda", "0.1"}, {"h", "5"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "ewma"}, {"limit", "3"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "cusum"}, {"h", "4"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "ewma"}, {"lambda", "0.1"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "ewma"}, {"lambda", "0.1"}, {"limit", "3"}, {"two_of_three", "true"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "shewhart"}, {"limit", "2"}, {"two_of_three", "true"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "cusum"}, {"k", "0.5"}, {"h", "4"}, {"values", "1,1,1"}}));
  EXPECT_FALSE(evaluate("control_chart", {{"chart", "cusum"}, {"k", "0.5"}, {"h", "4"}, {"values", "1,x,1"}}));
}

// A formula never lets a NaN or an infinity through, even at the far corners of what its inputs accept.
TEST(EveryFormula, AnswersFinitelyOrRefusesAtTheCornersOfItsInputs) {
  for (const Formula& formula : all_formulas()) {
    if (formula.name == "control_chart") continue;  // its corners are designs; see above
    for (int corner = 0; corner < 64; ++corner) {
      RawInputs inputs;
      std::vector<std::string> sets;
      for (std::size_t i = 0; i < formula.inputs.size(); ++i) {
        const Input& input = formula.inputs[i];
        if (!input.one_of.empty()) {
          if (std::ranges::find(sets, input.one_of) != sets.end()) continue;
          if (corner % 3 == 0) continue;  // another member of the set
          sets.push_back(input.one_of);
        }
        const bool high = (corner >> (i % 6)) & 1;
        if (input.kind == InputKind::number && input.possible) inputs.emplace_back(input.name, text_from_number(high ? input.possible->high : input.possible->low));
        if (input.kind == InputKind::choice) inputs.emplace_back(input.name, high ? input.choices.back() : input.choices.front());
      }
      const auto answer = evaluate(formula, inputs);
      if (!answer) continue;
      for (const NamedValue& output : answer->outputs)
        if (const double* value = std::get_if<double>(&output.value)) EXPECT_TRUE(std::isfinite(*value)) << formula.name << " " << output.name;
    }
  }
}

}  // namespace
}  // namespace redd::calc
