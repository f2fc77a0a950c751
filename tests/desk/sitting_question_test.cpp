// The timetable asked through the door: what it takes, and that each slip is named.
#include "desk/sitting_question.h"

#include <gtest/gtest.h>

namespace redd::desk {
namespace {

using wire::Json;

Json question() {
  return *wire::parsed(R"({"kit": {"key": "k", "name": "Made up", "tests": [
    {"key": "slow", "quantity": "nitrite", "method": "colour_steps", "unit": "mg_no2_per_l", "steps": [0, 1], "timed_steps": [
      {"do": "fill", "seconds": 30}, {"do": "wait", "seconds": 300}, {"do": "read", "seconds": 15, "read_by_seconds": 120}]},
    {"key": "kh", "quantity": "alkalinity", "method": "drop_count", "unit": "german_degrees", "per_drop": 1, "timed_steps": [
      {"do": "fill"}, {"do": "drops"}, {"do": "read"}]}]}})");
}

Json reply(const Json& asked) { return sitting_asked(Json{{"bench_schedule", asked}}); }

std::string first_field(const Json& reply) {
  return reply.contains("problems") ? reply["problems"][0]["field"].get<std::string>() : "no problem: " + reply.dump();
}

TEST(BenchScheduleAsked, AnswersWithTurns) {
  const Json sitting = reply(question())["bench_schedule"];
  EXPECT_EQ(sitting["lasts_s"], 345);
  EXPECT_EQ(sitting["turns"].size(), 3U);
}

TEST(BenchScheduleAsked, TakesHandsTestsAndOwnTimes) {
  Json asked = question();
  asked["hands"] = 2;
  asked["tests"] = {"kh"};
  asked["hand_times"] = {{"fill_seconds", 1}, {"titration_seconds", 2}, {"read_seconds", 3}};
  EXPECT_EQ(reply(asked)["bench_schedule"]["lasts_s"], 6);
}

TEST(BenchScheduleAsked, TakesUpAStateUnderWay) {
  Json asked = question();
  asked["tests"] = {"slow"};
  asked["state"] = {{"begun", {{{"test", "slow"}, {"steps_done", 1}, {"ended_ago_s", 250}}}}, {"hands_free_in_s", {{{"seconds", 55}}}}};
  const Json sitting = reply(asked)["bench_schedule"];
  EXPECT_EQ(sitting["lasts_s"], 70);
  EXPECT_EQ(sitting["turns"][0]["read_by_s"], 170);
}

TEST(BenchScheduleAsked, ChoosesTheCardByTheLastReading) {
  Json asked = question();
  for (const auto& [key, from] : {std::pair("low", 6.0), std::pair("high", 7.0)})
    asked["kit"]["tests"].push_back({{"key", key}, {"quantity", "ph"}, {"method", "colour_steps"}, {"unit", "ph"}, {"steps", {from, from + 1.5}}});
  EXPECT_EQ(reply(asked)["bench_schedule"]["later"][0]["then"], "high");
  asked["last_read"] = {{{"quantity", "ph"}, {"value", 8.0}}};
  EXPECT_EQ(reply(asked)["bench_schedule"]["later"][0]["then"], "low");
}

TEST(BenchScheduleAsked, OfNamedTestsTheOtherCardIsForLaterAndDueByTheReading) {
  Json asked = question();
  for (const auto& [key, from] : {std::pair("low", 6.0), std::pair("high", 7.0)})
    asked["kit"]["tests"].push_back({{"key", key}, {"quantity", "ph"}, {"method", "colour_steps"}, {"unit", "ph"}, {"steps", {from, from + 1.5}}});
  asked["tests"] = {"low", "high"};
  EXPECT_EQ(reply(asked)["bench_schedule"]["turns"].size(), 2U);
  asked["hand_over"] = true;
  EXPECT_EQ(reply(asked)["bench_schedule"]["turns"].size(), 1U);
  EXPECT_EQ(reply(asked)["bench_schedule"]["later"][0]["then"], "high");
  EXPECT_FALSE(reply(asked)["bench_schedule"].contains("due"));
  asked["read"] = {{{"test", "low"}, {"form", "step"}, {"value", 6.0}}};
  EXPECT_EQ(reply(asked)["bench_schedule"]["due"], Json::array());
  asked["read"] = {{{"test", "low"}, {"form", "step"}, {"value", 7.5}}};
  EXPECT_EQ(reply(asked)["bench_schedule"]["due"], Json::array({"high"}));
}

TEST(BenchScheduleAsked, NamesTheFieldAtFault) {
  const auto field_with = [](auto change) {
    Json asked = question();
    change(asked);
    return first_field(reply(asked));
  };
  EXPECT_EQ(first_field(reply(7)), "/bench_schedule");
  EXPECT_EQ(first_field(reply(Json::object())), "/bench_schedule/kit");
  EXPECT_EQ(field_with([](Json& q) { q["hands"] = 3; }), "/bench_schedule/hands");
  EXPECT_EQ(field_with([](Json& q) { q["hands"] = "one"; }), "/bench_schedule/hands");
  EXPECT_EQ(field_with([](Json& q) { q["tests"] = {"nope"}; }), "/bench_schedule/tests");
  EXPECT_EQ(field_with([](Json& q) { q["state"] = 1; }), "/bench_schedule/state");
  EXPECT_EQ(field_with([](Json& q) { q["state"]["begun"] = {{{"test", "slow"}, {"steps_done", 1}}}; }), "/bench_schedule/state/begun/0/ended_ago_s");
  EXPECT_EQ(field_with([](Json& q) { q["hand_times"]["fill_seconds"] = -1; }), "/bench_schedule/hand_times/fill_seconds");
  EXPECT_EQ(field_with([](Json& q) { q["hurry"] = true; }), "/bench_schedule/hurry");
  EXPECT_EQ(field_with([](Json& q) { q["kit"]["tests"] = Json::array(); }), "/bench_schedule/kit/tests");
  EXPECT_EQ(field_with([](Json& q) { q["kit"]["tests"][0]["timed_steps"][1].erase("seconds"); }), "/bench_schedule/kit/tests/0/timed_steps/1/seconds");
}

}  // namespace
}  // namespace redd::desk
