// How questions are read and refused. Each formula's own answer: tests/calc/formulas_test.cpp.
#include "calc/registry.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace redd::calc {
namespace {

Problem problem_of(std::string_view name, const RawInputs& inputs) {
  const auto answer = evaluate(name, inputs);
  EXPECT_FALSE(answer) << "an answer where a problem was due";
  return answer ? Problem{} : answer.problems().front();
}

void expect_problem(const Problem& problem, const std::string& code, const std::string& field, const std::string& word) {
  EXPECT_EQ(problem.code, code) << problem.sentence;
  EXPECT_EQ(problem.field, field) << problem.sentence;
  EXPECT_NE(problem.sentence.find(word), std::string::npos) << problem.sentence;
}

TEST(Evaluate, NamesAnUnknownFormulaAndTheNearestKnown) {
  expect_problem(problem_of("nitrite_limits", {}), "unknown_formula", "nitrite_limits", "Did you mean nitrite_limit?");
  expect_problem(problem_of("", {}), "unknown_formula", "", "Known are");
}

TEST(Evaluate, NamesAnUnknownKeyAndWhatIsAccepted) {
  const auto problem = problem_of("un_ionized_ammonia", {{"temprature_c", "10"}, {"ph", "8"}});
  expect_problem(problem, "unknown_input", "temprature_c", "It accepts temperature_c, ph");
  expect_problem(problem, "unknown_input", "temprature_c", "Did you mean temperature_c?");
}

TEST(Evaluate, FindsEveryProblemAtOnce) {
  const auto answer = evaluate("un_ionized_ammonia", {{"temperature_c", "200"}, {"ph", "7,2"}, {"colour", "red"}});
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.problems().size(), 3u);
}

TEST(Evaluate, RefusesWhatIsMissingDoubledOrExclusive) {
  expect_problem(problem_of("un_ionized_ammonia", {{"ph", "8"}}), "missing_input", "temperature_c", "needs temperature_c");
  expect_problem(problem_of("un_ionized_ammonia", {{"ph", "8"}, {"ph", "7"}, {"temperature_c", "9"}}), "duplicate_input", "ph", "more than once");
  expect_problem(problem_of("oxygen_saturation", {{"temperature_c", "8"}, {"pressure_mmhg", "700"}, {"elevation_m", "640"}}), "exclusive_inputs",
                 "elevation_m", "only one of");
  expect_problem(problem_of("carbonate", {{"temperature_c", "8"}, {"alkalinity_meq_per_l", "2"}}), "missing_input", "ph", "one of ph, co2_mg_per_l, pco2_uatm");
  expect_problem(problem_of("carbonate", {{"temperature_c", "8"}, {"alkalinity_meq_per_l", "2"}, {"ph", "7"}, {"pco2_uatm", "420"}}), "exclusive_inputs",
                 "pco2_uatm", "only one of");
}

TEST(Evaluate, RefusesWhatIsNoPlainNumber) {
  for (const char* text : {"7,2", "nan", "inf", "-inf", "7.2x", "", " 7", "0x10", "1e999", "--7", "seven", "1 000"})
    expect_problem(problem_of("un_ionized_ammonia", {{"temperature_c", "8"}, {"ph", text}}), "not_a_number", "ph", "is not a number");
  expect_problem(problem_of("un_ionized_ammonia", {{"temperature_c", "8"}, {"ph", "7,2"}}), "not_a_number", "ph", "with a point");
}

TEST(Evaluate, RefusesTheImpossible) {
  expect_problem(problem_of("un_ionized_ammonia", {{"temperature_c", "8"}, {"ph", "15"}}), "out_of_range", "ph", "from 0 to 14");
  expect_problem(problem_of("un_ionized_ammonia", {{"temperature_c", "200"}, {"ph", "7"}}), "out_of_range", "temperature_c", "100 C");
  expect_problem(problem_of("un_ionized_ammonia", {{"temperature_c", "8"}, {"ph", "7"}, {"total_ammonia_mg_n_per_l", "-1"}}), "out_of_range",
                 "total_ammonia_mg_n_per_l", "impossible");
  expect_problem(problem_of("mix", {{"fraction_a", "1.2"}, {"temperature_a_c", "8"}, {"temperature_b_c", "8"}, {"ph_a", "7"}, {"ph_b", "7"},
                                    {"alkalinity_a_meq_per_l", "1"}, {"alkalinity_b_meq_per_l", "1"}}),
                 "out_of_range", "fraction_a", "from 0 to 1");
}

TEST(Evaluate, RefusesUnknownWordsAndFlags) {
  expect_problem(problem_of("hardness", {{"value", "1"}, {"from", "german_degree"}, {"to", "meq_per_l"}}), "not_a_choice", "from", "german_degrees");
  expect_problem(problem_of("ammonia_criteria", {{"temperature_c", "8"}, {"ph", "7"}, {"salmonids", "maybe"}}), "not_a_flag", "salmonids", "true");
}

TEST(Evaluate, AnswersOutsideTheFittedRangeAndSaysSo) {
  const auto answer = evaluate("ammonia_criteria", {{"temperature_c", "12"}, {"ph", "9.4"}});
  ASSERT_TRUE(answer);
  EXPECT_FALSE(answer->in_range);
  ASSERT_FALSE(answer->notes.empty());
  EXPECT_NE(answer->notes.front().find("ph=9.4"), std::string::npos);
  EXPECT_NE(answer->notes.front().find("6.5 to 9"), std::string::npos);
  EXPECT_TRUE(evaluate("ammonia_criteria", {{"temperature_c", "12"}, {"ph", "9"}})->in_range);
}

TEST(Evaluate, FillsDefaultsIntoTheInputsShown) {
  const auto answer = evaluate("un_ionized_ammonia", {{"temperature_c", "8"}, {"ph", "7"}});
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->inputs.size(), 4u);
  EXPECT_EQ(answer->inputs[2].name, "total_ammonia_mg_n_per_l");
  EXPECT_EQ(std::get<double>(answer->inputs[2].value), 1.0);
}

TEST(Evaluate, NeverAnswersWithoutAFiniteNumber) {
  const Formula broken{.name = "broken", .summary = "s", .inputs = {}, .outputs = {{"x", "", ""}}, .source = "none",
                       .evaluate = [](const Arguments&) -> Result<Findings> {
                         Findings found;
                         found.add("x", std::nan(""));
                         return found;
                       }};
  const auto answer = evaluate(broken, {});
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.problems().front().code, "no_answer");
}

TEST(NumberText, ReadsBackExactly) {
  for (const double value : {0.1, 1.0 / 3.0, 1e-12, 123456789.125, 1e22, -2.5, 0.0}) EXPECT_EQ(*number_from_text(text_from_number(value)), value);
  EXPECT_EQ(text_from_number(0.1), "0.1");
  EXPECT_EQ(text_from_number(10000000.0), "10000000");
  EXPECT_EQ(*number_from_text("+7.5"), 7.5);
  EXPECT_EQ(*number_from_text("1e-3"), 0.001);
  EXPECT_FALSE(std::signbit(*number_from_text("-0")));
}

TEST(Formulas, HaveTheContractsNamesAndAreSorted) {
  const auto all = all_formulas();
  EXPECT_TRUE(std::ranges::is_sorted(all, {}, &Formula::name));
  for (const char* name : {"un_ionized_ammonia", "ammonia_criteria", "oxygen_saturation", "carbonate", "mix", "hardness", "dose_bicarbonate", "dose_calcium",
                           "dose_magnesium", "dose_ammonium", "dose_dechlorinator", "nitrite_limit", "development", "control_chart"})
    EXPECT_NE(std::ranges::find(all, name, &Formula::name), all.end()) << name;
}

TEST(Formulas, AreDescribedThroughout) {
  for (const Formula& formula : all_formulas()) {
    SCOPED_TRACE(formula.name);
    EXPECT_FALSE(formula.summary.empty());
    EXPECT_FALSE(formula.source.empty());
    EXPECT_FALSE(formula.outputs.empty());
    ASSERT_NE(formula.evaluate, nullptr);
    for (const Input& input : formula.inputs) {
      EXPECT_FALSE(input.meaning.empty()) << input.name;
      EXPECT_EQ(std::ranges::count(formula.inputs, input.name, &Input::name), 1) << input.name;
      if (input.kind == InputKind::choice) EXPECT_FALSE(input.choices.empty()) << input.name;
      if (input.fitted && input.possible) {
        EXPECT_GE(input.fitted->low, input.possible->low) << input.name;
        EXPECT_LE(input.fitted->high, input.possible->high) << input.name;
      }
    }
    for (const Output& output : formula.outputs) EXPECT_EQ(std::ranges::count(formula.outputs, output.name, &Output::name), 1) << output.name;
  }
}

}  // namespace
}  // namespace redd::calc
