// The page without a server: what it asks, what it is handed to keep, and that it goes on where the store left off.
#include "engine/page_engine.h"

#include <gtest/gtest.h>

namespace redd::engine {
namespace {

using wire::Json;

constexpr const char* now = "2031-01-20T20:00:00Z";
const Json denver{{"name", "America/Denver"}, {"changes", {{{"from", "2030-01-01T00:00:00Z"}, {"offset_seconds", -25200}}}}};
const Json setup{{"kind", "season_setup"},
                 {"author", "Team Otter"},
                 {"body",
                  {{"name", "Test season"}, {"time_zone", "America/Denver"}, {"first_day", "2031-01-06"}, {"volume_l", 210}, {"species", "brook_trout"}, {"target_c", 8}}}};
const Json kit{{"kind", "kit"},
               {"author", "Team Otter"},
               {"body",
                {{"key", "card"},
                 {"name", "Own card"},
                 {"tests", {{{"key", "nitrite"}, {"quantity", "nitrite"}, {"method", "colour_steps"}, {"unit", "mg_no2_per_l"}, {"steps", {0.1, 0.25, 0.5}}}}}}}};

class PageEngineTest : public ::testing::Test {
 protected:
  Json ask(const Json& question) {
    auto reply = wire::parsed(engine.answer(wire::printed(question)));
    EXPECT_TRUE(reply.has_value());
    return reply ? std::move(reply).value() : Json();
  }
  Json open(Json records = Json::array(), Json zones = Json::array()) {
    return ask({{"open", {{"kits", {kit["body"]}}, {"opening_day", nullptr}, {"records", std::move(records)}, {"zones", std::move(zones)}}}});
  }
  Json api(const char* method, const std::string& target, const std::string& body = "", Json zones = Json::array()) {
    return ask({{"api", {{"method", method}, {"target", target}, {"body", body}, {"now", now}, {"zones", std::move(zones)}}}});
  }
  Json post(const Json& record, Json zones = Json::array()) { return api("POST", "/api/records", wire::printed(record), std::move(zones)); }
  static Json body(const Json& reply) { return wire::parsed(reply["api"]["body"].get<std::string>()).value(); }

  PageEngine engine;
};

TEST_F(PageEngineTest, AnswersNothingBeforeItIsOpened) {
  EXPECT_EQ(api("GET", "/api/season")["problems"][0]["code"], "not_open");
  EXPECT_EQ(ask({{"take", Json::object()}})["problems"][0]["code"], "not_open");
  EXPECT_EQ(ask({{"work", true}})["problems"][0]["code"], "not_open");
}

TEST_F(PageEngineTest, TakesNothingElseForAnEmptyList) {
  EXPECT_EQ(open(Json::object())["problems"][0]["code"], "not_a_list");
  EXPECT_EQ(api("GET", "/api/season")["problems"][0]["code"], "not_open") << "no season is opened without its records";
}

TEST_F(PageEngineTest, StillAnswersWhatNeedsNoSeason) { EXPECT_EQ(ask({{"ping", 1}}), (Json{{"pong", 1}})); }

TEST_F(PageEngineTest, AnswersInTheLanguageAndUnitsAskedFor) {
  open();
  post(setup, {denver});
  const Json reader{{"language", "es"}, {"units", "us"}};
  const auto ask_there = [&](const char* target) { return ask({{"api", {{"method", "GET"}, {"target", target}, {"now", now}}}, {"reader", reader}}); };
  const Json day = body(ask_there("/api/day?language=es&units=us"));
  EXPECT_EQ(day["season"]["target_text"], "46,4 °F");
  EXPECT_EQ(day["stage"]["sentence"], "No se han recibido huevos.");
  EXPECT_EQ(body(ask_there("/api/redd"))["problems"][0]["sentence"], "Para esto hace falta el servidor de Redd: la edición en un solo archivo no puede hacerlo.");
  EXPECT_EQ(body(api("GET", "/api/day"))["season"]["target_text"], "8.0 °C") << "the next question has its own reader";
  EXPECT_EQ(ask({{"calc", 1}, {"reader", reader}})["problems"][0]["sentence"], "\"calc\" debe ser el nombre de una fórmula; {\"formulas\": true} las enumera.");
}

TEST_F(PageEngineTest, BeginsASeasonAndHandsItsRecordsOver) {
  open();
  EXPECT_EQ(body(api("GET", "/api/season"))["state"], "empty");
  EXPECT_EQ(body(api("GET", "/api/kits"))["templates"][0]["key"], "card");
  const Json begun = post(setup, {denver});
  EXPECT_EQ(begun["api"]["status"], 201) << begun;
  ASSERT_EQ(begun["added"].size(), 1u);
  EXPECT_EQ(begun["added"][0]["id"], 1);
  EXPECT_EQ(begun["added"][0]["logged_at"], now);
  EXPECT_EQ(post(kit)["added"][0]["id"], 2);
  const Json day = api("GET", "/api/day");
  EXPECT_EQ(day["api"]["status"], 200);
  EXPECT_TRUE(day["added"].empty());
  EXPECT_EQ(body(day)["today"], "2031-01-20");
}

TEST_F(PageEngineTest, RefusesWhatTheServerRefuses) {
  open();
  EXPECT_EQ(post(setup)["api"]["status"], 422) << "nobody told the zone";
  EXPECT_EQ(post(kit)["api"]["status"], 409) << "no season";
  EXPECT_EQ(api("GET", "/api/day?as-of=x")["api"]["status"], 400);
  EXPECT_EQ(api("DELETE", "/api/day")["api"]["allow"], "GET, HEAD");
  EXPECT_EQ(api("GET", "/api/nothing")["api"]["status"], 404);
  EXPECT_EQ(api("GET", "no slash")["api"]["status"], 400);
  EXPECT_EQ(body(api("POST", "/api/calendar/preview", "{}"))["problems"][0]["code"], "not_in_this_edition");
}

TEST_F(PageEngineTest, GoesOnFromWhatWasKept) {
  open();
  Json kept = post(setup, {denver})["added"];
  const Json next = post(kit)["added"];
  PageEngine first = std::move(engine);
  engine = PageEngine();
  EXPECT_EQ(open(kept, {denver})["opened"]["records"], 1);
  EXPECT_EQ(ask({{"take", {{"records", next}}}})["taken"]["records"], 2);
  EXPECT_EQ(body(api("GET", "/api/history"))["records"].size(), 2u);
  // A row with a hole in it is not taken for the season.
  EXPECT_EQ(open(next, {denver})["problems"][0]["code"], "ids_not_in_order");
  EXPECT_EQ(body(api("GET", "/api/history"))["records"].size(), 2u) << "what was open stays";
}

TEST_F(PageEngineTest, SavesTheSeasonAndTakesItIn) {
  open();
  post(setup, {denver});
  post(kit);
  const Json saved = api("GET", "/api/export");
  EXPECT_EQ(saved["api"]["file_name"], "redd-season.json");
  const std::string text = saved["api"]["body"];
  PageEngine other = std::move(engine);
  engine = PageEngine();
  open();
  const Json taken = api("POST", "/api/import", text, {denver});
  EXPECT_EQ(taken["api"]["status"], 201) << taken;
  EXPECT_EQ(taken["added"].size(), 2u);
  EXPECT_EQ(api("GET", "/api/export")["api"]["body"], text);
  EXPECT_EQ(api("POST", "/api/import", text, {denver})["api"]["status"], 200) << "known already";
}

TEST_F(PageEngineTest, WorksTheFilterOutBitByBit) {
  open();
  post(setup, {denver});
  post(kit);
  Json reading{{"kind", "reading"}, {"author", "Team Otter"}, {"body", {{"kit", "card"}, {"test", "nitrite"}, {"form", "step"}, {"value", 0.25}}}};
  for (const char* at : {"2031-01-10T16:00:00Z", "2031-01-16T16:00:00Z", "2031-01-20T16:00:00Z"}) {
    reading["at"] = at;
    ASSERT_EQ(post(reading)["api"]["status"], 201);
  }
  EXPECT_EQ(ask({{"work", true}})["work"]["more"], false) << "nobody has asked yet";
  EXPECT_EQ(body(api("GET", "/api/filter"))["filter"]["state"], "working");
  int bits = 0;
  while (ask({{"work", true}})["work"]["more"] == true) {
    if (++bits == 1) {
      EXPECT_EQ(body(api("GET", "/api/filter"))["filter"]["state"], "working") << "answers come between the bits";
    }
    ASSERT_LT(bits, 50);
  }
  EXPECT_GT(bits, 1);
  EXPECT_EQ(body(api("GET", "/api/filter"))["filter"]["state"], "ready");
}

}  // namespace
}  // namespace redd::engine
