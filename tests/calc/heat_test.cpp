// The formulas of heat through the registry, against numbers worked out elsewhere.
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
  const auto all = all_formulas();
  const auto formula = std::ranges::find(all, name, &Formula::name);
  for (const NamedValue& output : answer->outputs)
    EXPECT_NE(std::ranges::find(formula->outputs, output.name, &Output::name), formula->outputs.end()) << name << " does not describe " << output.name;
  return *answer;
}

const NamedValue* output(const Answer& answer, std::string_view name) {
  const auto found = std::ranges::find(answer.outputs, name, &NamedValue::name);
  return found == answer.outputs.end() ? nullptr : &*found;
}
double number(const Answer& answer, std::string_view name) {
  const auto* found = output(answer, name);
  if (found == nullptr) ADD_FAILURE() << answer.name << " has no output " << name;
  return found == nullptr ? std::nan("") : std::get<double>(found->value);
}
std::string word(const Answer& answer, std::string_view name) {
  const auto* found = output(answer, name);
  return found == nullptr ? "" : std::get<std::string>(found->value);
}

RawInputs with(RawInputs inputs, const RawInputs& more) {
  for (const auto& [key, text] : more) {
    const auto same = std::ranges::find_if(inputs, [&](const auto& each) { return each.first == key; });
    if (same == inputs.end()) inputs.emplace_back(key, text);
    else same->second = text;
  }
  return inputs;
}

TEST(DewPoint, OfAirAndWhetherTheWallSweats) {
  const RawInputs air{{"air_temperature_c", "22"}, {"humidity_fraction", "0.5"}};
  const auto plain = ask("dew_point", air);
  EXPECT_NEAR(number(plain, "dew_point_c"), 11.101, 0.005);
  EXPECT_EQ(output(plain, "sweats"), nullptr);
  const auto bare = ask("dew_point", with(air, {{"water_temperature_c", "8"}}));
  EXPECT_EQ(word(bare, "sweats"), "true");
  EXPECT_GT(number(bare, "condensation_w_per_m2"), 5.0);
  const auto foamed = ask("dew_point", with(air, {{"water_temperature_c", "8"}, {"foam_thickness_mm", "25"}}));
  EXPECT_EQ(word(foamed, "sweats"), "false");
  EXPECT_EQ(number(foamed, "condensation_w_per_m2"), 0.0);
  EXPECT_FALSE(evaluate("dew_point", {{"air_temperature_c", "22"}, {"humidity_fraction", "50"}}));
}

const RawInputs chilled{{"conductance_w_per_k", "10"}, {"room_temperature_c", "21"}, {"set_point_temperature_c", "8"}, {"pump_w", "20"}, {"chiller_w", "250"}};

TEST(ChillerDuty, IsTheSteadyShareAndItsWord) {
  const auto answer = ask("chiller_duty", with(chilled, {{"price_per_kwh", "0.25"}}));
  EXPECT_NEAR(number(answer, "duty_fraction"), 0.6, 1e-12);
  EXPECT_EQ(word(answer, "holding"), "held");
  EXPECT_NEAR(number(answer, "cost_per_week"), 0.25 * number(answer, "electric_kwh_per_week"), 1e-12);
  EXPECT_EQ(number(answer, "duty_low_fraction"), number(answer, "duty_high_fraction"));
  const auto weak = ask("chiller_duty", with(chilled, {{"chiller_w", "150"}}));
  EXPECT_EQ(word(weak, "holding"), "never_reached");
  EXPECT_NEAR(number(weak, "settles_at_c"), 8.0, 1e-9);
  EXPECT_EQ(word(ask("chiller_duty", with(chilled, {{"chiller_w", "180"}})), "holding"), "tight");
  EXPECT_EQ(word(ask("chiller_duty", with(chilled, {{"room_temperature_c", "4"}})), "holding"), "not_needed");
}

TEST(ChillerDuty, APlatesFigureIsWorthLessInColdWater) {
  EXPECT_GT(number(ask("chiller_duty", with(chilled, {{"rated_water_temperature_c", "20"}})), "duty_fraction"), 0.85);
}

TEST(ChillerDuty, OfAVolumeSaysItsDoubt) {
  RawInputs inputs = chilled;
  inputs.front() = {"volume_l", "200"};
  const auto answer = ask("chiller_duty", inputs);
  EXPECT_LT(number(answer, "duty_low_fraction"), number(answer, "duty_fraction"));
  EXPECT_GT(number(answer, "duty_high_fraction"), number(answer, "duty_fraction"));
  EXPECT_NEAR(number(answer, "conductance_w_per_k"), 0.33 * std::cbrt(40000.0), 1e-9);
  EXPECT_FALSE(evaluate("chiller_duty", with(chilled, {{"volume_l", "200"}})));
}

TEST(TimeToCool, GivesHoursOrNever) {
  const RawInputs pull_down{{"volume_l", "200"}, {"conductance_w_per_k", "10"}, {"room_temperature_c", "21"}, {"water_temperature_c", "21"},
                            {"target_temperature_c", "8"}, {"pump_w", "20"}, {"chiller_w", "250"}};
  EXPECT_NEAR(number(ask("time_to_cool", pull_down), "hours"), 19.388, 0.01);
  const auto never = ask("time_to_cool", with(pull_down, {{"chiller_w", "150"}}));
  EXPECT_EQ(word(never, "reached"), "false");
  EXPECT_EQ(output(never, "hours"), nullptr);
  EXPECT_NE(never.notes.front().find("Never reached"), std::string::npos);
}

TEST(WarmingInOutage, GivesHoursOrNever) {
  const RawInputs outage{{"volume_l", "200"}, {"conductance_w_per_k", "10"}, {"room_temperature_c", "21"}, {"water_temperature_c", "8"}, {"limit_temperature_c", "12"}};
  EXPECT_NEAR(number(ask("warming_in_outage", outage), "hours"), 8.56, 0.01);
  EXPECT_NEAR(number(ask("warming_in_outage", with(outage, {{"pump_w", "15"}})), "hours"), 7.513, 0.01);
  EXPECT_EQ(word(ask("warming_in_outage", with(outage, {{"limit_temperature_c", "22"}})), "reached"), "false");
  EXPECT_EQ(number(ask("warming_in_outage", with(outage, {{"limit_temperature_c", "7"}})), "hours"), 0.0);
  RawInputs by_volume = outage;
  std::erase_if(by_volume, [](const auto& each) { return each.first == "conductance_w_per_k"; });
  const auto doubtful = ask("warming_in_outage", by_volume);
  EXPECT_NEAR(number(doubtful, "hours_latest") / number(doubtful, "hours_soonest"), 2.25, 1e-9);
}

TEST(IceBottles, AreCountedWhole) {
  const RawInputs hold{{"gain_w", "70"}, {"water_temperature_c", "10"}, {"bottle_g", "1500"}};
  const auto answer = ask("ice_bottles", hold);
  EXPECT_NEAR(number(answer, "ice_g"), 14630, 30);
  EXPECT_EQ(number(answer, "bottles"), 10.0);
  EXPECT_NEAR(number(answer, "hours_per_bottle"), 24 * 1500 / number(answer, "ice_g"), 1e-9);
  const RawInputs tank{{"volume_l", "200"}, {"conductance_w_per_k", "4"}, {"room_temperature_c", "21"}, {"water_temperature_c", "10"}, {"bottle_g", "1000"}, {"drop_c", "1"}};
  EXPECT_NEAR(number(ask("ice_bottles", tank), "gain_w"), 44.0, 1e-9);
  EXPECT_NEAR(number(ask("ice_bottles", tank), "drop_ice_g"), 2027, 5);
  EXPECT_FALSE(evaluate("ice_bottles", {{"volume_l", "200"}, {"water_temperature_c", "10"}, {"bottle_g", "1000"}}));
  EXPECT_FALSE(evaluate("ice_bottles", with(hold, {{"drop_c", "1"}})));
}

TEST(WaterChangeTemperature, LimitsTheStep) {
  const auto answer = ask("water_change_temperature", {{"tank_temperature_c", "8"}, {"source_temperature_c", "16"}, {"fraction", "0.2"}, {"volume_l", "200"}});
  EXPECT_NEAR(number(answer, "after_temperature_c"), 9.6, 1e-12);
  EXPECT_NEAR(number(answer, "largest_fraction"), 0.125, 1e-12);
  EXPECT_NEAR(number(answer, "largest_l"), 25.0, 1e-12);
  EXPECT_NEAR(number(answer, "tempered_source_temperature_c"), 13.0, 1e-12);
}

TEST(Evaporation, TurnsRoundInDampAir) {
  const RawInputs room{{"water_temperature_c", "10"}, {"air_temperature_c", "21"}, {"humidity_fraction", "0.4"}};
  EXPECT_NEAR(number(ask("evaporation", room), "evaporation_kg_per_m2_h"), 0.012, 0.001);
  EXPECT_NEAR(number(ask("evaporation", room), "turning_humidity_fraction"), 0.49, 0.01);
  EXPECT_GT(number(ask("evaporation", with(room, {{"humidity_fraction", "0.7"}})), "heat_w"), 0.0);
  EXPECT_GT(number(ask("evaporation", room), "engineers_rule_kg_per_m2_h"), 2.5 * number(ask("evaporation", room), "evaporation_kg_per_m2_h"));
}

TEST(TankConductance, AddsItsFaces) {
  const RawInputs measures{{"length_cm", "90"}, {"width_cm", "45"}, {"water_depth_cm", "47"}};
  const auto bare = ask("tank_conductance", measures);
  EXPECT_NEAR(number(bare, "conductance_w_per_k"), 11.0, 2.0);
  EXPECT_NEAR(number(bare, "conductance_w_per_k"), number(bare, "sides_w_per_k") + number(bare, "floor_w_per_k") + number(bare, "top_w_per_k"), 1e-9);
  EXPECT_NEAR(number(bare, "volume_l"), 190.35, 0.01);
  const auto foamed = ask("tank_conductance", with(measures, {{"foam_thickness_mm", "25"}, {"lid", "foam"}, {"base", "foam"}}));
  EXPECT_NEAR(number(foamed, "conductance_w_per_k"), 2.2, 0.3);
}

}  // namespace
}  // namespace redd::calc
