// The readings of several teams asked through the door: pooled as the day's water is, and each slip named.
#include "desk/pooled_question.h"

#include <gtest/gtest.h>

#include "inference/card_reading.h"

namespace redd::desk {
namespace {

using wire::Json;

Json question(Json readings) {
  Json asked = *wire::parsed(R"({"kit": {"key": "k", "name": "Made up", "tests": [
    {"key": "nitrite", "quantity": "nitrite", "method": "colour_steps", "unit": "mg_n_per_l", "steps": [0, 0.1, 0.2, 0.4, 0.8]},
    {"key": "kh", "quantity": "alkalinity", "method": "drop_count", "unit": "german_degrees", "per_drop": 1}]}})");
  asked["readings"] = std::move(readings);
  return asked;
}
Json reply(const Json& asked) { return pooled_asked(Json{{"pooled_readings", asked}}); }
Json step(double value, const char* team) { return {{"test", "nitrite"}, {"form", "step"}, {"value", value}, {"team", team}}; }

TEST(PooledReadingsAsked, AgreeWithTheBelief) {
  const Json pooled = reply(question({step(0.2, "Otter"), step(0.4, "Heron")}))["pooled_readings"];
  records::KitTest test{.key = "nitrite", .quantity = records::Quantity::nitrite, .unit = records::TestUnit::mg_n_per_l, .steps = {0, 0.1, 0.2, 0.4, 0.8}};
  using Form = records::Reading::Form;
  const std::vector<inference::TestReading> reads{{test, {.form = Form::step, .value = 0.2}}, {test, {.form = Form::step, .value = 0.4}}};
  const auto together = inference::value_behind(reads);
  EXPECT_DOUBLE_EQ(pooled["low"], together->value.low);
  EXPECT_DOUBLE_EQ(pooled["high"], together->value.high);
  EXPECT_EQ(pooled["disagree"], false);
  EXPECT_EQ(pooled["alone"].size(), 2U);
  EXPECT_EQ(pooled["alone"][1]["team"], "Heron");
  EXPECT_EQ(pooled["spread_text"], "2 teams: the lowest read 0.2 mg/L as N on the card, the highest 0.4 mg/L as N on the card.");
}

TEST(PooledReadingsAsked, SayWhenTheyCanHardlyAllBeRight) {
  const Json pooled = reply(question({step(0, "Otter"), step(0.8, "Heron")}))["pooled_readings"];
  EXPECT_EQ(pooled["disagree"], true);
  EXPECT_NE(pooled["sentence"].get<std::string>().find("can hardly all be right"), std::string::npos);
  EXPECT_TRUE(pooled["high"].is_null()) << "0.8 is the last step: how much more is not known";
}

TEST(PooledReadingsAsked, TellSameReadingsAndOneAlone) {
  EXPECT_EQ(reply(question({step(0.1, "a"), step(0.1, "b"), step(0.1, "c")}))["pooled_readings"]["spread_text"], "3 teams: all read 0.1 mg/L as N on the card.");
  EXPECT_EQ(reply(question({step(0.1, "a"), step(0.1, "b")}))["pooled_readings"]["spread_text"], "2 teams: both read 0.1 mg/L as N on the card.");
  EXPECT_EQ(reply(question({step(0.1, "a")}))["pooled_readings"]["spread_text"], "");
}

TEST(PooledReadingsAsked, TellItInTheReadersLanguage) {
  const Json request{{"pooled_readings", question({step(0.2, "Otter"), step(0.4, "Heron")})}};
  const Json pooled = pooled_asked(request, {.language = report::Language::es})["pooled_readings"];
  EXPECT_EQ(pooled["spread_text"], "2 equipos: el más bajo leyó 0,2 mg/L como N en la tarjeta, el más alto 0,4 mg/L como N en la tarjeta.");
  EXPECT_EQ(pooled["low"], pooled_asked(request)["pooled_readings"]["low"]) << "exact numbers do not change with the reader";
}

TEST(PooledReadingsAsked, ARangeSaysLessThanAStep) {
  const auto width = [](Json reading) {
    const Json pooled = reply(question({std::move(reading)}))["pooled_readings"];
    return pooled["high"].get<double>() - pooled["low"].get<double>();
  };
  EXPECT_GT(width({{"test", "nitrite"}, {"form", "between"}, {"value", 0.1}, {"upper_value", 0.4}}), width(step(0.2, "a")));
}

TEST(PooledReadingsAsked, NameTheFieldAtFault) {
  const auto field = [](const Json& asked) { return reply(asked)["problems"][0]["field"].get<std::string>(); };
  EXPECT_EQ(field(7), "/pooled_readings");
  EXPECT_EQ(field({{"readings", Json::array()}}), "/pooled_readings/kit");
  EXPECT_EQ(field(question(Json::array())), "/pooled_readings/readings");
  EXPECT_EQ(field(question({step(0.3, "a")})), "/pooled_readings/readings/0");
  EXPECT_EQ(field(question({step(0.1, "a"), {{"test", "kh"}, {"form", "drops"}, {"value", 4}}})), "/pooled_readings/readings/1/test");
  EXPECT_EQ(field(question({{{"test", "iron"}, {"form", "step"}, {"value", 1}}})), "/pooled_readings/readings/0/test");
}

}  // namespace
}  // namespace redd::desk
