// The tank's heat over HTTP.

#include "server/fixture.h"

namespace redd::server {
namespace {

class HeatTest : public AppTest {
 protected:
  void SetUp() override {
    set_up();
    ASSERT_EQ(post_record("tank_build", R"({"length_cm":100,"width_cm":50,"water_height_cm":40,"wall":"glass","lid":"sheet","chiller_cooling_w":400,"room_day_c":20})").status, 201);
    ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
  }
};

TEST_F(HeatTest, AnswersWithNumbersAndSentences) {
  const auto answer = get("/api/heat?target_c=9&room_c=27&humidity_percent=70");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto heat = json(answer)["heat"];
  EXPECT_EQ(heat["target_c"], 9.0);
  EXPECT_EQ(heat["room"]["warmest_c"], 27.0);
  EXPECT_FALSE(heat["sentence"].get<std::string>().empty());
  EXPECT_LE(heat["hold"]["duty_fraction"]["low"].get<double>(), heat["hold"]["duty_fraction"]["high"].get<double>());
  EXPECT_EQ(heat["damp"]["humidity_assumed"], false);
  EXPECT_TRUE(heat["days"].empty());
  EXPECT_EQ(json(get("/api/heat"))["heat"]["days"].size(), 14u);
}

TEST_F(HeatTest, WrongQuestionsAreNamed) {
  EXPECT_EQ(field(get("/api/heat?target_c=90")), "target_c");
  EXPECT_EQ(field(get("/api/heat?room_c=warm")), "room_c");
  EXPECT_EQ(field(get("/api/heat?humidity_percent=nan")), "humidity_percent");
  EXPECT_EQ(get("/api/heat?unheard_of=1").status, 400);
}

TEST_F(HeatTest, EmergenciesAreListedAndFoundByName) {
  const auto all = get("/api/emergency");
  ASSERT_EQ(all.status, 200) << all.bytes();
  EXPECT_EQ(json(all)["emergencies"]["kinds"].size(), 9u);
  const auto one = get("/api/emergency/chiller_stuck_on");
  ASSERT_EQ(one.status, 200);
  EXPECT_GE(json(one)["emergency"]["steps"].size(), 3u);
  EXPECT_TRUE(json(one)["emergency"]["hold"][0]["known"].get<bool>());
  const auto unknown = get("/api/emergency/fire");
  EXPECT_EQ(unknown.status, 404);
  EXPECT_NE(unknown.bytes().find("socket-tripped"), std::string_view::npos);  // the right words are told
  EXPECT_EQ(get("/api/emergency?unheard_of=1").status, 400);
}

TEST_F(HeatTest, TheCardIsPlainTextForThisTank) {
  const auto card = get("/api/emergency/card");
  ASSERT_EQ(card.status, 200) << card.bytes();
  EXPECT_EQ(card.content_type, "text/plain; charset=utf-8");
  EXPECT_NE(card.bytes().find("Power cut"), std::string_view::npos);
  EXPECT_NE(card.bytes().find("Egg supplier ____"), std::string_view::npos);
}

TEST_F(HeatTest, AFailureInTheLogIsAnEmergencyAndLeadsTodaysAdvice) {
  ASSERT_EQ(post_record("egg_receipt", R"({"count":200,"start":"eyed"})").status, 201);
  ASSERT_EQ(post_record("equipment", R"({"equipment":"power","event":"failed"})").status, 201);
  const auto all = json(get("/api/emergency"))["emergencies"]["kinds"];
  EXPECT_EQ(all[0]["key"], "power_cut");
  EXPECT_EQ(all[0]["now"], true);
  const auto action = json(get("/api/day"))["actions"][0];
  EXPECT_EQ(action["rule"], "equipment");
  EXPECT_EQ(action["what"], all[0]["steps"][0]);
}

}  // namespace
}  // namespace redd::server
