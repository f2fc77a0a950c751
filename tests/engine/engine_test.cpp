// The door in JSON: what it takes, what it gives, and that nothing a stranger sends ends the program.
#include "engine/engine.h"

#include <gtest/gtest.h>

#include "wire/json.h"

namespace redd::engine {
namespace {

wire::Json reply(std::string_view request) {
  const auto parsed = wire::parsed(answer(request));
  EXPECT_TRUE(parsed.has_value()) << "the answer to " << request << " is not JSON";
  return parsed ? *parsed : wire::Json();
}

std::string first_code(const wire::Json& reply) {
  return reply.contains("problems") ? reply["problems"][0]["code"].get<std::string>() : "no problem: " + reply.dump();
}

TEST(Answer, ReturnsWhatItWasSent) {
  EXPECT_EQ(answer(R"({"ping": [0.1, "é", null, {"a": true}]})"), R"({"pong":[0.1,"é",null,{"a":true}]})");
}

TEST(Answer, IsOneLine) { EXPECT_EQ(answer("{\"ping\": \"two\\nlines\"}").find('\n'), std::string::npos); }

TEST(Answer, ToWhatIsNoQuestionIsAProblem) {
  for (const char* request : {"", "not json", "[1]", "{}", "null", "{\"unknown\": 1}", "{\"ping\": 1, \"ping\": 2}",
                              "{\"ping\": 1, \"formulas\": true}", "{\"calc\": 7}", "{\"calc\": \"no_such_formula\"}"}) {
    const auto problems = reply(request);
    ASSERT_TRUE(problems.contains("problems")) << request;
    EXPECT_FALSE(problems["problems"][0]["sentence"].get<std::string>().empty()) << request;
  }
}

TEST(Answer, SurvivesNestingAndBrokenText) {
  EXPECT_TRUE(reply(std::string(100000, '[')).contains("problems"));
  EXPECT_TRUE(reply("{\"ping\": \"\xff\xfe\"}").contains("problems"));
}

TEST(Formulas, AreListedWithInputsAndSources) {
  const auto formulas = reply(R"({"formulas": true})")["formulas"];
  ASSERT_FALSE(formulas.empty());
  for (const auto& formula : formulas) {
    EXPECT_FALSE(formula["name"].get<std::string>().empty());
    EXPECT_FALSE(formula["source"].get<std::string>().empty()) << formula["name"];
    EXPECT_FALSE(formula["outputs"].empty()) << formula["name"];
  }
}

TEST(Calc, AnswersWithInputsOutputsRangeAndSource) {
  const auto calc = reply(R"({"calc": "un_ionized_ammonia", "inputs": {"temperature_c": 10, "ph": 7.5}})")["calc"];
  EXPECT_EQ(calc["name"], "un_ionized_ammonia");
  EXPECT_EQ(calc["inputs"]["temperature_c"], 10.0);
  EXPECT_GT(calc["outputs"]["un_ionized_fraction"].get<double>(), 0.0);
  EXPECT_TRUE(calc["in_range"].get<bool>());
  EXPECT_FALSE(calc["source"].get<std::string>().empty());
}

TEST(Calc, TakesNumbersAsTextToo) {
  EXPECT_EQ(answer(R"({"calc": "un_ionized_ammonia", "inputs": {"temperature_c": 10, "ph": 7.5}})"),
            answer(R"({"calc": "un_ionized_ammonia", "inputs": {"temperature_c": "10", "ph": "7.5"}})"));
}

TEST(Calc, NamesTheInputAtFault) {
  const auto problem = reply(R"({"calc": "un_ionized_ammonia", "inputs": {"temperature_c": 10, "ph": 15}})")["problems"][0];
  EXPECT_EQ(problem["field"], "ph");
  EXPECT_EQ(first_code(reply(R"({"calc": "un_ionized_ammonia", "inputs": {"temperature_c": 10, "ph": null}})")), "not_an_input");
  EXPECT_EQ(first_code(reply(R"({"calc": "un_ionized_ammonia", "inputs": [1]})")), "not_an_object");
}

TEST(Lessons, AreAskedWithALogAndAMoment) {
  const std::string setup = R"({"id":1,"logged_at":"2031-01-06T08:00:00Z","at":"2031-01-06T08:00:00Z","kind":"season_setup","author":"Team Otter","body":{"name":"Invented","time_zone":"UTC","first_day":"2031-01-06","volume_l":200,"species":"brook_trout","target_c":8}})";
  const auto lessons = reply(R"({"lessons": {"now": "2031-01-20T12:00:00Z", "sheet": 3, "records": [)" + setup + "]}}")["lessons"];
  EXPECT_EQ(lessons["sheets"]["number"], 3);
  EXPECT_EQ(lessons["graphs"].size(), 4u);
  EXPECT_EQ(first_code(reply(R"({"lessons": {"now": "2031-01-20T12:00:00Z", "records": []}})")), "no_season");
  EXPECT_EQ(first_code(reply(R"({"lessons": {"now": "2031-01-20T12:00:00Z", "records": [], "sheet": 0}})")), "out_of_range");
  EXPECT_EQ(first_code(reply(R"({"lessons": 7})")), "not_a_day");
}

}  // namespace
}  // namespace redd::engine
