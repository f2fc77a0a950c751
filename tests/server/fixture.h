// A season in a folder of its own, a clock that stands still, and requests as a page would send them.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "server/app.h"
#include "server/season_desk.h"
#include "support/folder.h"
#include "wire/json.h"

namespace redd::server {

inline const char* const setup_body =
    R"({"name":"Test season","time_zone":"America/Denver","first_day":"2031-01-06","volume_l":210,"elevation_m":640,)"
    R"("species":"brook_trout","egg_day":"2031-02-10","egg_count":100,"target_c":8})";

inline const char* const kit_body =
    R"({"key":"card","name":"Own card","tests":[)"
    R"({"key":"ammonia","quantity":"total_ammonia","method":"colour_steps","unit":"mg_nh4_per_l","steps":[0.1,0.25,0.5,1,2]},)"
    R"({"key":"nitrite","quantity":"nitrite","method":"colour_steps","unit":"mg_no2_per_l","steps":[0.1,0.25,0.5,1]},)"
    R"({"key":"kh","quantity":"alkalinity","method":"drop_count","unit":"german_degrees","per_drop":1},)"
    R"({"key":"ph_meter","quantity":"ph","method":"meter","unit":"ph","accuracy":0.1}]})";

using support::Folder;

inline Instant instant(const char* text) {
  return *instant_from_rfc3339(text);
}

class AppTest : public ::testing::Test {
 protected:
  AppTest() { open(); }

  void open() {
    desk.reset();
    auto opened = SeasonDesk::open(folder / "season.redd", [this] { return now; });
    ASSERT_TRUE(opened.has_value()) << opened.problems().front().sentence;
    desk = std::move(opened).value();
  }

  Response send(Request request) {
    if (!request.header("host")) request.headers.emplace_back("host", "127.0.0.1:7333");
    return App(*desk).handle(request);
  }
  Response get(const std::string& target) {
    auto request = request_from_target("GET", target);
    EXPECT_TRUE(request.has_value());
    return send(std::move(request).value());
  }
  Response post(const std::string& target, const std::string& body) {
    auto request = request_from_target("POST", target);
    EXPECT_TRUE(request.has_value());
    request.value().headers.emplace_back("content-type", "application/json");
    request.value().body = body;
    return send(std::move(request).value());
  }
  Response post_record(const std::string& kind, const std::string& body, const std::string& more = "",
                       const std::string& query = "") {
    return post("/api/records" + query,
                R"({"kind":")" + kind + R"(","author":"Team Otter",)" + more + R"("body":)" + body + "}");
  }
  void set_up() {
    ASSERT_EQ(post_record("season_setup", setup_body).status, 201);
    ASSERT_EQ(post_record("kit", kit_body).status, 201);
  }

  static wire::Json json(const Response& response) {
    auto tree = wire::parsed(response.bytes());
    EXPECT_TRUE(tree.has_value()) << response.bytes();
    return tree ? std::move(tree).value() : wire::Json();
  }
  static std::string field(const Response& response) { return json(response)["problems"][0]["field"]; }
  static std::string code(const Response& response) { return json(response)["problems"][0]["code"]; }

  Folder folder;
  Instant now = instant("2031-01-20T20:00:00Z");
  std::unique_ptr<SeasonDesk> desk;
};

}  // namespace redd::server
