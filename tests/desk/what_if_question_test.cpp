// What-ifs through the door in JSON: the base travels and comes back, answers are worded, strangers' bases end nothing.
#include "desk/what_if_question.h"

#include <gtest/gtest.h>

#include "support/what_if_season.h"
#include "wire/codec.h"

namespace redd::desk {
namespace {

using namespace redd::testing;
using wire::Json;

const Json& base() {
  static const Json made = [] {
    auto season = ripe_season();
    season.add(2, chilled_tank());
    const auto look = season::look_at_what_if({}, season.log(), on_day(56, 12));
    require(look.has_value(), "what_if_question_test", "no look");
    return report::what_if_base_json(*look);
  }();
  return made;
}

Json asked(const Json& sliders) { return what_if_asked({{"what_if", {{"base", base()["asked"]}, {"sliders", sliders}}}}); }

std::string code(const Json& answer) { return answer.contains("problems") ? answer["problems"][0]["code"].get<std::string>() : "none: " + answer.dump().substr(0, 200); }

TEST(WhatIfQuestion, TheBaseComesBackToTheLastBit) {
  const auto again = report::what_if_asked_from_json(base()["asked"]);
  ASSERT_TRUE(again.has_value());
  EXPECT_EQ(wire::printed(report::json_from_what_if_asked(*again)), wire::printed(base()["asked"]));
}

TEST(WhatIfQuestion, AllAsItIsEqualsThePlan) {
  const Json answer = asked(Json::object())["what_if"];
  EXPECT_FALSE(answer["changed"].get<bool>());
  ASSERT_EQ(answer["chances"].size(), planning::what_if_limit_count);
  for (const Json& chance : answer["chances"]) EXPECT_EQ(chance["probability"], chance["as_planned_probability"]) << chance["key"];
  for (const Json& date : answer["dates"]) EXPECT_EQ(date["mid"], date["as_planned_mid"]);
  for (const Json& line : answer["lines"]) EXPECT_EQ(line["mid"].size(), base()["days"].size()) << line["key"];
}

TEST(WhatIfQuestion, AnswersAnyReaderFromOneBase) {
  const Json request{{"what_if", {{"base", base()["asked"]}, {"sliders", {{"room_warmer_c", 15}}}}}};
  const Json plain = what_if_asked(request)["what_if"], other = what_if_asked(request, {.fahrenheit = true, .us_gallons = true, .language = report::Language::es})["what_if"];
  EXPECT_TRUE(other["sentence"].get<std::string>().starts_with("Lo más probable es que el enfriador no mantenga el agua")) << other["sentence"];
  EXPECT_NE(other["sentence"].get<std::string>().find(" °F"), std::string::npos) << other["sentence"];
  EXPECT_EQ(other["lines"][0]["name"], "Temperatura");
  for (std::size_t i = 0; i < plain["lines"].size(); ++i) EXPECT_EQ(other["lines"][i]["mid"], plain["lines"][i]["mid"]) << "exact numbers do not change with the reader";
  EXPECT_EQ(other["tone"], plain["tone"]);
}

TEST(WhatIfQuestion, SaysTheResultFirst) {
  const auto sentence = [](const Json& sliders) { return asked(sliders)["what_if"]["sentence"].get<std::string>(); };
  EXPECT_TRUE(sentence(Json::object()).starts_with("All as planned."));
  EXPECT_TRUE(sentence({{"room_warmer_c", 15}}).starts_with("The chiller most likely does not hold the water")) << sentence({{"room_warmer_c", 15}});
  EXPECT_TRUE(sentence({{"room_warmer_c", -2}}).starts_with("The chiller holds the water")) << sentence({{"room_warmer_c", -2}});
  EXPECT_NE(sentence({{"set_point_warmer_c", 3}}).find("earlier"), std::string::npos);
}

TEST(WhatIfQuestion, WarnsOfPermitAndOfLargeChanges) {
  const auto cautions = [](const Json& sliders) { return asked(sliders)["what_if"]["cautions"].dump(); };
  EXPECT_NE(cautions({{"animals_factor", 2}}).find("permit"), std::string::npos);
  EXPECT_EQ(cautions(Json::object()).find("permit"), std::string::npos);
}

TEST(WhatIfQuestion, OldTestsAreNeverCalledGood) {
  auto known = report::what_if_asked_from_json(base()["asked"]);
  ASSERT_TRUE(known.has_value());
  known.value().doubted = true;
  EXPECT_NE(what_if_answered(*known, Json::object())["what_if"]["tone"], "good");
}

TEST(WhatIfQuestion, RefusesWhatItCannotReckon) {
  EXPECT_EQ(code(asked({{"room_warmer_c", 40}})), "out_of_range");
  EXPECT_EQ(code(asked({{"moon", 1}})), "unknown_field");
  EXPECT_EQ(code(asked({{"food_factor", "much"}})), "not_a_number");
  EXPECT_EQ(code(asked(Json::array())), "not_an_object");
  EXPECT_EQ(code(what_if_asked({{"what_if", 7}})), "not_an_object");
  EXPECT_EQ(code(what_if_base_asked({{"what_if_base", 7}})), "not_a_day");
}

TEST(WhatIfQuestion, ABaseThatWasTamperedWithIsRefused) {
  const auto with = [](auto change) {
    Json spoilt = base()["asked"];
    change(spoilt);
    return code(what_if_asked({{"what_if", {{"base", spoilt}, {"sliders", Json::object()}}}}));
  };
  EXPECT_EQ(with([](Json& b) { b = 7; }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b.erase("heat"); }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b["volume_l"] = 0; }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b["heat"]["worlds"].erase(0); }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b["heat"]["plan_c"].push_back(8); }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b["tanks"]["q0"].erase(0); }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b["tanks"]["q3"][0] = -1; }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b["shown"].erase(0); }), "not_a_base");
  EXPECT_EQ(with([](Json& b) { b["today"] = "tomorrow"; }), "not_a_base");
}

}  // namespace
}  // namespace redd::desk
