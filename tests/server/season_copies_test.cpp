// The season as a file: out of the server, into the page's own engine and back, with nothing lost; and both answer alike.
#include <gtest/gtest.h>

#include <thread>

#include "assets/assets.h"
#include "engine/page_engine.h"
#include "server/fixture.h"
#include "server/single_file.h"
#include "wire/codec.h"
#include "zones/zones.h"

namespace redd::server {
namespace {

using wire::Json;

/// As web/src/local/zones.ts makes it.
Json zone_json(const char* name, const char* first_day) {
  const Date first = *date_from_iso(first_day);
  Json changes = Json::array();
  const auto zone = zones::zone_offsets(name, first - std::chrono::days(366), first + std::chrono::days(3 * 366));
  for (const OffsetChange& change : zone->changes)
    changes.push_back({{"from", rfc3339_from_instant(change.from)}, {"offset_seconds", change.offset.count()}});
  return {{"name", name}, {"changes", std::move(changes)}};
}

class SeasonCopies : public AppTest {
 protected:
  Json page(const Json& question) { return wire::parsed(engine.answer(wire::printed(question))).value(); }
  Json page_api(const char* method, const std::string& target, const std::string& body = "") {
    return page({{"api", {{"method", method}, {"target", target}, {"body", body}, {"now", rfc3339_from_instant(now)}, {"zones", {zone_json("America/Denver", "2031-01-06")}}}}})["api"];
  }
  static Json shelf() {
    Json kits = Json::array();
    for (const records::Kit& kit : kit_templates()) kits.push_back(wire::parsed(wire::json_from_body(kit)).value());
    return {{"kits", std::move(kits)}, {"opening_day", iso_from_date(*packed_opening_day())}};
  }
  engine::PageEngine engine;
};

TEST_F(SeasonCopies, GoToThePageAndBackWithNothingLost) {
  set_up();
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":8.25,"place":"tank"})", R"("entry_key":"k-1",)").status, 201);
  ASSERT_EQ(post("/api/records/3/undo", R"({"author":"Team Otter"})").status, 201);
  const std::string first = std::string(get("/api/export").bytes());

  const Json opened = page({{"open", shelf()}});
  ASSERT_TRUE(opened.contains("opened")) << opened.dump();
  ASSERT_EQ(page_api("POST", "/api/import", first)["status"], 201);
  EXPECT_EQ(page_api("GET", "/api/export")["body"], first);
  // The class goes on in the page, and comes back.
  now += std::chrono::hours(20);
  ASSERT_EQ(page_api("POST", "/api/records", R"({"kind":"temperature","author":"Team Heron","body":{"temperature_c":7.5,"place":"tank"}})")["status"], 201);
  const std::string second = page_api("GET", "/api/export")["body"];
  EXPECT_NE(second, first);
  const Response back = post("/api/import", second);
  EXPECT_EQ(back.status, 201) << back.bytes();
  EXPECT_EQ(json(back), (Json{{"added", 1}, {"known", 4}}));
  EXPECT_EQ(get("/api/export").bytes(), second);
  EXPECT_EQ(post("/api/import", second).status, 200);
  EXPECT_EQ(post("/api/import", first).status, 200) << "an older file adds nothing";
}

TEST_F(SeasonCopies, MakeASeasonWhereThereIsNone) {
  set_up();
  const std::string text = std::string(get("/api/export").bytes());
  desk.reset();
  std::filesystem::remove_all(folder / "season.redd");
  for (const char* side : {"season.redd-wal", "season.redd-shm"}) std::filesystem::remove(folder / side);
  open();
  EXPECT_EQ(json(get("/api/season"))["state"], "empty");
  EXPECT_EQ(post("/api/import", text).status, 201);
  EXPECT_EQ(get("/api/export").bytes(), text);
}

TEST_F(SeasonCopies, OfAnotherSeasonAreRefusedAndChangeNothing) {
  set_up();
  std::string text = std::string(get("/api/export").bytes());
  text.replace(text.rfind("Test season"), 4, "Best");
  const std::string before = std::string(get("/api/export").bytes());
  const Response refused = post("/api/import", text);
  EXPECT_EQ(refused.status, 409);
  EXPECT_EQ(code(refused), "another_season");
  EXPECT_EQ(post("/api/import", "{}").status, 422);
  EXPECT_EQ(post("/api/import", "{").status, 400);
  EXPECT_EQ(get("/api/export").bytes(), before);
}

/// The demo, asked of the server and of the page's engine.
TEST_F(SeasonCopies, ThePageAnswersAsTheServerDoes) {
  auto demo = SeasonDesk::open_demo(folder / "demo.redd", [this] { return now; });
  ASSERT_TRUE(demo.has_value());
  FilterKeeper keeper;
  const App app(*demo.value(), &keeper);
  const auto asked = [&](const char* target) {
    auto request = request_from_target("GET", target);
    EXPECT_TRUE(request.has_value());
    request.value().headers.emplace_back("host", "127.0.0.1:7333");
    return app.handle(*request);
  };
  Json question = shelf();
  question["records"] = Json::array();
  for (const records::Record& record : demo.value()->look().value()->records) question["records"].push_back(wire::parsed(wire::json_from_record(record)).value());
  question["zones"] = Json::array({zone_json("America/New_York", "2030-08-05")});
  const Json opened = page({{"open", question}});
  ASSERT_TRUE(opened.contains("opened")) << opened.dump();
  for (const char* target : {"/api/season", "/api/kits", "/api/kinds", "/api/species", "/api/history?limit=50", "/api/history?before_id=90", "/api/export", "/api/heat?as_of=2031-01-30",
                             "/api/counts?as_of=2031-02-04", "/api/emergency?as_of=2031-03-10", "/api/emergency/card?as_of=2031-03-10", "/api/emergency/power_cut", "/api/emergency/none",
                             "/api/plan?as_of=2030-12-10", "/api/plan.ics?as_of=2030-12-10", "/api/wall?as_of=2030-12-10", "/api/day?as_of=2040-01-01", "/api/calc/nitrogen"}) {
    const Response server = asked(target);
    const Json local = page_api("GET", target);
    EXPECT_EQ(local["status"], server.status) << target;
    EXPECT_EQ(local["type"], server.content_type) << target;
    EXPECT_EQ(local["body"].get<std::string>(), server.bytes()) << target;
  }
  // What rests on the filter, once both have worked it out: many threads at once here, bit by bit there.
  for (int i = 0; i < 3000 && json(asked("/api/filter?as_of=2030-08-25"))["filter"]["state"] == "working"; ++i) std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_EQ(wire::parsed(page_api("GET", "/api/filter?as_of=2030-08-25")["body"].get<std::string>()).value()["filter"]["state"], "working");
  while (page({{"work", true}})["work"]["more"] == true) {
  }
  for (const char* target : {"/api/filter?as_of=2030-08-25", "/api/day?as_of=2030-08-25", "/api/feed?as_of=2030-08-25", "/api/loading?as_of=2030-08-25", "/api/water-plan?as_of=2030-08-25"})
    EXPECT_EQ(page_api("GET", target)["body"].get<std::string>(), asked(target).bytes()) << target;
}

TEST(SingleFile, CarriesEveryPartAndLetsNothingElseRun) {
  const auto file = single_file();
  ASSERT_TRUE(file.has_value()) << file.problems().front().sentence;
  for (const char* part : {"id=\"redd-core\">H4sI", "id=\"redd-worker\">H4sI", "id=\"redd-demo\">H4sI", "id=\"redd-shelf\">{\"kits\":[{", "<div id=\"page\">"})
    EXPECT_NE(file->find(part), std::string::npos) << part;
  EXPECT_NE(file->find("connect-src 'none'"), std::string::npos);
  EXPECT_EQ(file->find("unsafe-inline"), std::string::npos);
  EXPECT_EQ(file->find("src=\"./"), std::string::npos) << "nothing is fetched";
  // Its size as a school's network sees it: less than four photographs.
  EXPECT_LT(file->size(), 4u << 20);
}

TEST(SingleFile, IsServedAsADownload) {
  const Response response = single_file_response();
  EXPECT_EQ(response.status, 200);
  EXPECT_EQ(response.header("content-disposition"), "attachment; filename=\"redd.html\"");
  EXPECT_EQ(response.bytes(), *single_file());
}

TEST(Base64, IsThatOfTheStandard) {
  // RFC 4648, section 10.
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foo"), "Zm9v");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

}  // namespace
}  // namespace redd::server
