// Tables over HTTP: shown, then kept.
#include "server/fixture.h"

namespace redd::server {
namespace {

class TableTest : public AppTest {
 protected:
  void SetUp() override { set_up(); }
  static std::string body(const std::string& text, const wire::Json& more = wire::Json::object()) {
    wire::Json out{{"text", text}};
    for (const auto& [key, value] : more.items()) out[key] = value;
    return wire::printed(out);
  }
  std::size_t in_log() { return desk->look().value()->records.size(); }
  const std::string log = "date,temp (C),ammonia,nitrate,dead eggs\n2031-01-07,8.1,0.25,20,0\n2031-01-14,8.0,0.5,30,2\n";
};

TEST_F(TableTest, IsShownBeforeItIsKeptAndAddedOnce) {
  const auto before = in_log();
  const auto shown = post("/api/table/preview", body(log));
  ASSERT_EQ(shown.status, 200) << shown.bytes();
  const auto preview = json(shown)["preview"];
  EXPECT_EQ(preview["columns"][0]["role"], "date");
  EXPECT_EQ(preview["columns"][3]["samples"][0], "20");
  EXPECT_EQ(in_log(), before);
  EXPECT_EQ(code(post("/api/table", body(log, {{"confirmed", true}}))), "open_question") << "nitrate as N or as NO3?";
  const wire::Json settled{{"settings", {{"columns/nitrate", "nitrate_as_no3"}}}, {"author", "Team Otter"}};
  auto confirmed = settled;
  EXPECT_EQ(code(post("/api/table", body(log, settled))), "not_confirmed");
  EXPECT_EQ(in_log(), before);
  confirmed["confirmed"] = true;
  const auto kept = post("/api/table", body(log, confirmed));
  ASSERT_EQ(kept.status, 201) << kept.bytes();
  EXPECT_EQ(json(kept)["added"], 9) << "eight cells, and the kit that the nitrate stands on";
  EXPECT_EQ(in_log(), before + 9);
  EXPECT_EQ(desk->look().value()->records.back().entry.author, "Team Otter");
  const auto again = post("/api/table", body(log, confirmed));
  EXPECT_EQ(again.status, 200);
  EXPECT_EQ(json(again)["added"], 0);
  EXPECT_EQ(in_log(), before + 9);
}

TEST_F(TableTest, BadRowsAreLeftOutOnlyOnRequest) {
  const std::string text = "date,ammonia\n2031-01-07,0.25\n2031-01-14,0.3\n2031-01-15,0.5\n2031-01-16,0.5\n2031-01-17,0.5\n2031-01-18,0.5\n";
  const auto before = in_log();
  EXPECT_EQ(json(post("/api/table/preview", body(text)))["preview"]["bad"][0]["code"], "not_on_the_card");
  EXPECT_EQ(post("/api/table", body(text, {{"confirmed", true}})).status, 422);
  EXPECT_EQ(in_log(), before);
  EXPECT_EQ(post("/api/table", body(text, {{"confirmed", true}, {"keep_good_rows", true}})).status, 201);
  EXPECT_EQ(in_log(), before + 5);
}

TEST_F(TableTest, WrongMessagesAreNamed) {
  EXPECT_EQ(field(post("/api/table/preview", "{}")), "/text");
  EXPECT_EQ(field(post("/api/table/preview", R"({"text":7})")), "/text");
  EXPECT_EQ(field(post("/api/table/preview", R"({"text":"a","settings":[]})")), "/settings");
  EXPECT_EQ(field(post("/api/table/preview", R"({"text":"a","settings":{"unit":3}})")), "/settings/unit");
  EXPECT_EQ(field(post("/api/table/preview", R"({"text":"a","confirmed":true})")), "/confirmed");
  EXPECT_EQ(code(post("/api/table/preview", R"({"text":"a,b\n2031-01-07,1","settings":{"unit":"k"}})")), "unknown_word");
  EXPECT_EQ(field(post("/api/table", R"({"text":"a","author":""})")), "author");
}

TEST_F(TableTest, SpeaksTheReadersLanguage) {
  const auto shown = post("/api/table/preview?language=es", body(log));
  EXPECT_NE(json(shown)["preview"]["meanings"][0]["label"].get<std::string>().find("fecha"), std::string::npos) << shown.bytes();
}

}  // namespace
}  // namespace redd::server
