// The formula `development` as `redd calc` asks it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "biology/species.h"
#include "calc/registry.h"

namespace redd::calc {
namespace {

Answer answer(const RawInputs& inputs) {
  const auto result = evaluate("development", inputs);
  EXPECT_TRUE(result) << (result ? "" : result.problems().front().sentence);
  return *result;
}

double number(const Answer& answer, std::string_view name) {
  for (const NamedValue& each : answer.outputs)
    if (each.name == name) return std::get<double>(each.value);
  ADD_FAILURE() << "no output " << name;
  return 0.0;
}

Problem problem(const RawInputs& inputs) {
  const auto result = evaluate("development", inputs);
  EXPECT_FALSE(result);
  return result.problems().front();
}

TEST(DevelopmentFormula, GivesDaysUnitsAndInterval) {
  const Answer a = answer({{"species", "coho"}, {"stage", "hatch"}, {"temperature_c", "8"}});
  EXPECT_NEAR(number(a, "days"), 58.1, 0.05);  // computed from Beacham & Murray 1990, Table A.2
  EXPECT_NEAR(number(a, "atu_c_days"), 8.0 * number(a, "days"), 1e-9);
  EXPECT_NEAR(number(a, "low_days"), number(a, "days") * std::exp(-1.6448536 * 0.08), 1e-5);
  EXPECT_NEAR(number(a, "high_days"), number(a, "days") * std::exp(1.6448536 * 0.08), 1e-5);
  EXPECT_TRUE(a.in_range);
  EXPECT_NE(a.source.find("Beacham & Murray 1990"), std::string::npos);
}

TEST(DevelopmentFormula, AnswersEverySpeciesStageAndModel) {
  for (const auto& species : biology::all_species())
    for (const auto stage : biology::all_stages)
      for (const auto key : biology::model_keys(species, stage)) {
        const Answer a = answer({{"species", std::string(species.key)},
                                 {"stage", std::string(name_of(stage))},
                                 {"temperature_c", "7"},
                                 {"model", std::string(key)}});
        EXPECT_LT(number(a, "low_days"), number(a, "days"));
        EXPECT_LT(number(a, "days"), number(a, "high_days"));
        EXPECT_TRUE(a.in_range) << species.key << " " << key;
      }
}

TEST(DevelopmentFormula, KnowsAliases) {
  const auto days = [](const char* species) {
    return number(answer({{"species", species}, {"stage", "swim_up"}, {"temperature_c", "8"}}), "days");
  };
  EXPECT_EQ(days("pink"), days("pink_even"));
  EXPECT_EQ(days("steelhead"), days("rainbow_trout"));
}

TEST(DevelopmentFormula, FlagsAndWidensOutsideTheTestedRange) {
  const Answer a = answer({{"species", "coho"}, {"stage", "hatch"}, {"temperature_c", "15"}});
  EXPECT_FALSE(a.in_range);
  EXPECT_GT(number(a, "high_days") / number(a, "days"), std::exp(1.65 * 0.08));
}

TEST(DevelopmentFormula, RefusesWhatHasNoAnswerAndNamesWhatItTakes) {
  EXPECT_EQ(problem({{"species", "coho"}, {"stage", "hatch"}, {"temperature_c", "0.1"}}).field, "temperature_c");
  EXPECT_EQ(problem({{"species", "coho"}, {"stage", "hatch"}, {"temperature_c", "-1"}}).field, "temperature_c");
  EXPECT_EQ(problem({{"species", "coho"}, {"stage", "hatch"}, {"temperature_c", "200"}}).field, "temperature_c");
  const Problem species = problem({{"species", "cod"}, {"stage", "hatch"}, {"temperature_c", "8"}});
  EXPECT_EQ(species.field, "species");
  EXPECT_NE(species.sentence.find("lake_trout"), std::string::npos);
  const Problem stage = problem({{"species", "coho"}, {"stage", "spawn"}, {"temperature_c", "8"}});
  EXPECT_EQ(stage.field, "stage");
  EXPECT_NE(stage.sentence.find("swim_up"), std::string::npos);
  const Problem model =
      problem({{"species", "coho"}, {"stage", "hatch"}, {"temperature_c", "8"}, {"model", "nobody1900"}});
  EXPECT_EQ(model.field, "model");
  EXPECT_NE(model.sentence.find("beacham1990"), std::string::npos);
}

}  // namespace
}  // namespace redd::calc
