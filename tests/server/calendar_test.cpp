// The school's calendar over HTTP: shown, then kept.
#include "server/fixture.h"

namespace redd::server {
namespace {

class CalendarTest : public AppTest {
 protected:
  void SetUp() override { set_up(); }
  static std::string body(const std::string& text, const wire::Json& more = wire::Json::object()) {
    wire::Json out{{"text", text}};
    for (const auto& [key, value] : more.items()) out[key] = value;
    return wire::printed(out);
  }
  std::size_t closures_in_log() {
    std::size_t count = 0;
    for (const auto& record : desk->look().value()->records) count += std::holds_alternative<records::Closure>(record.entry.body);
    return count;
  }
  const std::string file =
      "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Invented school//EN\r\nBEGIN:VEVENT\r\nUID:1@invented.example\r\nDTSTART;VALUE=DATE:20310217\r\nDTEND;VALUE=DATE:20310222\r\nSUMMARY:Winter break\r\n"
      "END:VEVENT\r\nBEGIN:VEVENT\r\nUID:2@invented.example\r\nDTSTART;VALUE=DATE:20310301\r\nSUMMARY:Picture day\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n";
};

TEST_F(CalendarTest, IsShownBeforeItIsKept) {
  const auto shown = post("/api/calendar/preview", body(file));
  ASSERT_EQ(shown.status, 200) << shown.bytes();
  EXPECT_EQ(json(shown)["preview"]["closures"][0]["to"], "2031-02-21");
  EXPECT_EQ(json(shown)["preview"]["left_out"][0]["summary"], "Picture day");
  EXPECT_EQ(closures_in_log(), 0u);
  EXPECT_EQ(code(post("/api/calendar", body(file))), "not_confirmed");
  EXPECT_EQ(closures_in_log(), 0u);
  const auto kept = post("/api/calendar", body(file, {{"confirmed", true}, {"author", "Team Otter"}}));
  ASSERT_EQ(kept.status, 201) << kept.bytes();
  EXPECT_EQ(json(kept)["added"], 1);
  EXPECT_EQ(closures_in_log(), 1u);
  EXPECT_EQ(desk->look().value()->records.back().entry.author, "Team Otter");
  const auto again = post("/api/calendar", body(file, {{"confirmed", true}}));
  EXPECT_EQ(again.status, 200);
  EXPECT_EQ(json(again)["added"], 0);
  EXPECT_EQ(json(again)["preview"]["closures"][0]["standing"], "known");
  EXPECT_EQ(closures_in_log(), 1u);
}

TEST_F(CalendarTest, UnreadableEventsAreKeptOutOnlyOnRequest) {
  const std::string list = "2031-02-17 to 2031-02-21, Winter break\nsometime 3, Staff day\n";
  EXPECT_EQ(json(post("/api/calendar/preview", body(list)))["preview"]["bad_count"], 1);
  EXPECT_EQ(post("/api/calendar", body(list, {{"confirmed", true}})).status, 422);
  EXPECT_EQ(closures_in_log(), 0u);
  EXPECT_EQ(post("/api/calendar", body(list, {{"confirmed", true}, {"keep_good_rows", true}})).status, 201);
  EXPECT_EQ(closures_in_log(), 1u);
}

TEST_F(CalendarTest, WrongMessagesAreNamed) {
  EXPECT_EQ(field(post("/api/calendar/preview", "{}")), "/text");
  EXPECT_EQ(field(post("/api/calendar/preview", R"({"text":7})")), "/text");
  EXPECT_EQ(field(post("/api/calendar/preview", R"({"text":"2031-02-17","confirmed":true})")), "/confirmed");
  EXPECT_EQ(field(post("/api/calendar", R"({"text":"2031-02-17","confirmed":"yes"})")), "/confirmed");
  EXPECT_EQ(field(post("/api/calendar", R"({"text":"2031-02-17","author":""})")), "/author");
  EXPECT_EQ(code(post("/api/calendar", R"({"text":"<html>"})")), "not_a_calendar");
  EXPECT_EQ(code(post("/api/calendar", R"({"text":""})")), "empty_file");
  EXPECT_EQ(post("/api/calendar", "[]").status, 400);
}

TEST_F(AppTest, WithoutASeasonNoCalendarIsTakenIn) {
  EXPECT_EQ(code(post("/api/calendar/preview", R"({"text":"2031-02-17"})")), "no_season");
}

}  // namespace
}  // namespace redd::server
