// Growth, ration and what food does to water, by name.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "calc/registry.h"

namespace redd::calc {
namespace {

double number(std::string_view name, const RawInputs& inputs, std::string_view output, bool in_range = true) {
  const auto answer = evaluate(name, inputs);
  EXPECT_TRUE(answer) << name;
  if (!answer) return std::nan("");
  EXPECT_EQ(answer->in_range, in_range) << name;
  for (const NamedValue& each : answer->outputs)
    if (each.name == output) return std::get<double>(each.value);
  return std::nan("");
}

TEST(Growth, FollowsTheChosenModelAndSaysWhenItIsCarriedTooFar) {
  // (0.2^(1/3) + 0.01 * 28)^3
  EXPECT_NEAR(number("growth", {{"weight_g", "0.2"}, {"temperature_c", "10"}, {"days", "28"}}, "weight_after_g"), 0.6473, 0.001);
  EXPECT_NEAR(number("growth", {{"weight_g", "0.15"}, {"temperature_c", "12.5"}, {"days", "120"}, {"model", "elliott1995"}}, "weight_after_g", false), 3.95, 0.01);
  number("growth", {{"weight_g", "0.2"}, {"temperature_c", "18"}, {"days", "28"}}, "weight_after_g", false);
}

TEST(GrowthCoefficient, ComesBackFromGrowth) {
  EXPECT_NEAR(number("growth_coefficient", {{"weight_g", "0.1282"}, {"weight_after_g", "2.053"}, {"days", "70"}, {"temperature_c", "8.5"}}, "growth_coefficient"), 1.29, 0.005);
}

TEST(DailyRation, GivesBothSourcesForAllFish) {
  const RawInputs one{{"weight_g", "0.15"}, {"temperature_c", "7.2222222"}}, all{{"weight_g", "0.15"}, {"temperature_c", "7.2222222"}, {"count", "200"}};
  EXPECT_NEAR(number("daily_ration", one, "chart_percent"), 4.0, 0.001);
  EXPECT_NEAR(number("daily_ration", all, "growth_food_g"), 200 * number("daily_ration", one, "growth_food_g"), 1e-9);
  EXPECT_LT(number("daily_ration", all, "school_food_g"), number("daily_ration", all, "growth_food_g"));
  EXPECT_TRUE(std::isnan(number("daily_ration", {{"weight_g", "0.2"}, {"temperature_c", "2"}}, "chart_percent", false)));
}

TEST(ConditionFactor, GoesBothWays) {
  EXPECT_NEAR(number("condition_factor", {{"length_mm", "50"}, {"weight_g", "1.3"}}, "condition"), 1.04, 1e-9);
  EXPECT_NEAR(number("condition_factor", {{"length_mm", "50"}, {"condition", "1.04"}}, "weight_g"), 1.3, 1e-9);
  EXPECT_FALSE(evaluate("condition_factor", {{"length_mm", "50"}, {"weight_g", "1.3"}, {"condition", "1"}}));
}

TEST(FoodLoad, CountsEatenAndRottenFoodApart) {
  const RawInputs in{{"food_g", "3"}, {"volume_l", "200"}};
  EXPECT_NEAR(number("food_load", in, "ammonia_mg_n"), 138, 1e-9);
  EXPECT_NEAR(number("food_load", in, "uneaten_mg_n_per_l"), 1.2, 1e-9);
  EXPECT_LT(number("food_load", in, "oxygen_low_mg_o2_per_l"), number("food_load", in, "oxygen_high_mg_o2_per_l"));
}

}  // namespace
}  // namespace redd::calc
