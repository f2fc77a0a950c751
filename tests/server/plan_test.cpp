// The temperature plan over HTTP.

#include <libical/ical.h>

#include <memory>

#include "server/fixture.h"

namespace redd::server {
namespace {

class PlanTest : public AppTest {
 protected:
  void SetUp() override {
    set_up();
    ASSERT_EQ(post_record("egg_receipt", R"({"count":100,"start":"thermal_sum","thermal_sum_c_days":250,"incubation_c":8})").status, 201);
    ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
  }
};

TEST_F(PlanTest, IsGivenAndOtherSetPointsCanBeTried) {
  const auto plan = get("/api/plan");
  ASSERT_EQ(plan.status, 200) << plan.bytes();
  const auto rows = json(plan)["plan"]["plans"];
  ASSERT_EQ(rows.size(), 3u);
  const auto colder = post("/api/plan/try", R"({"changes":[{"day":"2031-01-22","c":6}]})");
  ASSERT_EQ(colder.status, 200) << colder.bytes();
  const auto row = json(colder)["plan"];
  ASSERT_TRUE(row["possible"].get<bool>()) << colder.bytes();
  EXPECT_GT(row["milestones"][0]["mid"].get<std::string>(), json(plan)["plan"]["plans"][2]["milestones"][0]["mid"].get<std::string>());  // cold is slow
}

TEST_F(PlanTest, SetPointsThatHarmAreRefusedWithAReason) {
  const auto hot = post("/api/plan/try", R"({"changes":[{"day":"2031-01-22","c":25}]})");
  ASSERT_EQ(hot.status, 200);
  EXPECT_FALSE(json(hot)["plan"]["possible"].get<bool>());
  EXPECT_FALSE(json(hot)["plan"]["obstacles"][0]["sentence"].get<std::string>().empty());
}

TEST_F(PlanTest, AWishedDayIsPlannedFor) {
  const auto before = json(get("/api/plan"))["plan"];
  const std::string wished = iso_from_date(*date_from_iso(before["plans"][2]["milestones"][0]["mid"].get<std::string>()) + std::chrono::days(6));
  const auto tried = post("/api/plan/try", "{\"hatch\":\"" + wished + "\"}");
  ASSERT_EQ(tried.status, 200) << tried.bytes();
  const auto row = json(tried)["plan"];
  EXPECT_GT(row["milestones"][0]["mid"].get<std::string>(), before["plans"][2]["milestones"][0]["mid"].get<std::string>());
  EXPECT_EQ(row["wishes"].back()["key"], "hatch_wished");
  const auto held = json(post("/api/plan/try", "{\"changes\":[],\"hatch\":\"" + wished + "\"}"))["plan"];
  EXPECT_GE(row["wishes"].back()["probability"].get<double>(), held["wishes"].back()["probability"].get<double>());
}

TEST_F(PlanTest, MovedDaysAreReadAndRefused) {
  EXPECT_EQ(code(post("/api/plan/try", R"({"egg_day":"2031-02-01"})")), "eggs_have_come");
  EXPECT_EQ(field(post("/api/plan/try", R"({"hatch":"soon"})")), "/hatch");
  EXPECT_EQ(code(post("/api/plan/try", R"({"swim_up":"2035-01-01"})")), "out_of_range");
  EXPECT_EQ(code(post("/api/plan/try", R"({"release_from":"2031-05-01","release_until":"2031-04-01"})")), "days_crossed");
  const auto released = post("/api/plan/try", R"({"release_until":"2031-04-10"})");
  ASSERT_EQ(released.status, 200) << released.bytes();
  EXPECT_EQ(json(released)["plan"]["wishes"].size(), json(get("/api/plan"))["plan"]["plans"][0]["wishes"].size() + 1);
}

TEST_F(PlanTest, WeekendsAndClosuresAreClosedDays) {
  ASSERT_EQ(post_record("closure", R"({"name":"thaw break","from":"2031-02-10","to":"2031-02-14"})").status, 201);
  const auto closed = json(get("/api/plan"))["plan"]["closed"];
  bool found = false;
  for (const auto& run : closed) {
    if (run["name"] != "thaw break") continue;
    found = true;
    EXPECT_EQ(run["from"], "2031-02-08");  // with the weekends on both sides
    EXPECT_EQ(run["to"], "2031-02-16");
    EXPECT_FALSE(run["weekend"].get<bool>());
  }
  EXPECT_TRUE(found) << closed.dump();
}

class PlanBeforeEggsTest : public AppTest {};

TEST_F(PlanBeforeEggsTest, AnotherEggDayMovesEverythingWithIt) {
  set_up();
  const auto view = json(get("/api/plan"));
  ASSERT_TRUE(view.contains("plan")) << view.dump();
  const auto plan = view["plan"];
  ASSERT_FALSE(plan["eggs_in_tank"].get<bool>());
  const std::string later = iso_from_date(*date_from_iso(plan["egg_day"].get<std::string>()) + std::chrono::days(14));
  const auto held = plan["plans"][0]["c"][0].dump();
  const auto tried = post("/api/plan/try", "{\"egg_day\":\"" + later + "\",\"changes\":[{\"day\":\"" + later + "\",\"c\":" + held + "}]}");
  ASSERT_EQ(tried.status, 200) << tried.bytes();
  EXPECT_EQ(json(tried)["plan"]["days"][0], later);
  EXPECT_EQ(json(post("/api/plan/try", R"({"egg_day":"2030-01-01"})"))["problems"][0]["code"], "egg_day_past");
}

TEST_F(PlanTest, WrongChangesAreNamed) {
  EXPECT_EQ(field(post("/api/plan/try", R"({"changes":[{"day":"2031-01-22","c":70}]})")), "/changes/0/c");
  EXPECT_EQ(field(post("/api/plan/try", R"({"changes":[{"day":"soon","c":7}]})")), "/changes/0/day");
  EXPECT_EQ(field(post("/api/plan/try", R"({"changes":[{"day":"2035-01-22","c":7}]})")), "/changes/0/day");
  EXPECT_EQ(field(post("/api/plan/try", "[]")), "/changes");
  EXPECT_EQ(post("/api/plan/try", "{").status, 400);
}

// Held against libical's own check of RFC 5545 (icalrestriction_check), which knows what each property and component must hold.
TEST_F(PlanTest, IsACalendarThatAnIndependentReaderFindsValid) {
  const auto answer = get("/api/plan.ics");
  ASSERT_EQ(answer.status, 200);
  EXPECT_EQ(answer.content_type, "text/calendar; charset=utf-8");
  const std::string text(answer.bytes());
  for (std::size_t at = 0, end; (end = text.find("\r\n", at)) != std::string::npos; at = end + 2) EXPECT_LE(end - at, 75u);
  const std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> calendar(icalparser_parse_string(text.c_str()), &icalcomponent_free);
  ASSERT_TRUE(calendar);
  EXPECT_EQ(icalcomponent_isa(calendar.get()), ICAL_VCALENDAR_COMPONENT);
  EXPECT_TRUE(icalrestriction_check(calendar.get()));
  EXPECT_EQ(icalcomponent_count_errors(calendar.get()), 0);
  int hatch = 0, tests = 0;
  for (auto* event = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); event; event = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
    const std::string summary = icalcomponent_get_summary(event);
    hatch += summary == "Hatch: half of the eggs";
    tests += summary == "Weekly water test";
    EXPECT_TRUE(icalcomponent_get_uid(event));
  }
  EXPECT_EQ(hatch, 1);
  EXPECT_GE(tests, 8);
  EXPECT_EQ(std::string(get("/api/plan.ics").bytes()), text);  // the same plan, the same uids
}

TEST_F(PlanTest, IsGivenAsACalendarFile) {
  const auto file = get("/api/plan.ics");
  ASSERT_EQ(file.status, 200) << file.bytes();
  EXPECT_EQ(file.content_type, "text/calendar; charset=utf-8");
  EXPECT_EQ(file.header("content-disposition"), "attachment; filename=\"redd-plan.ics\"");
  EXPECT_TRUE(file.bytes().starts_with("BEGIN:VCALENDAR\r\n"));
  EXPECT_NE(file.bytes().find("DTSTAMP:20310120T200000Z"), std::string_view::npos) << "the desk's clock, not the machine's";
  ASSERT_EQ(post_record("closure", R"({"name":"Invented break","from":"2031-03-03","to":"2031-03-07"})").status, 201);
  EXPECT_EQ(get("/api/plan.ics").bytes().find("Invented break"), std::string_view::npos);
  EXPECT_NE(get("/api/plan.ics?closures=1").bytes().find("Invented break"), std::string_view::npos);
  EXPECT_EQ(field(get("/api/plan.ics?closures=yes")), "closures");
}

TEST_F(PlanTest, IsGivenDayByDayForTheWall) {
  ASSERT_EQ(post_record("closure", R"({"name":"Invented break","from":"2031-02-03","to":"2031-02-07"})").status, 201);
  const auto answer = get("/api/wall?from=2031-01-15&to=2031-02-28");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto wall = json(answer)["wall"];
  ASSERT_EQ(wall["days"].size(), 45u);
  EXPECT_EQ(wall["days"][0]["day"], "2031-01-15");
  EXPECT_TRUE(wall["days"][0]["set_point_c"].is_null()) << "the past is not planned";
  EXPECT_TRUE(wall["days"][10]["set_point_c"].is_number());
  EXPECT_EQ(wall["days"][20]["closed_name"], "Invented break");
  const auto usual = json(get("/api/wall"))["wall"];
  EXPECT_EQ(usual["from"], "2031-01-01");
  EXPECT_EQ(usual["to"], json(get("/api/plan"))["plan"]["to"]);
}

TEST_F(PlanTest, WrongDaysOfAWallAreNamed) {
  EXPECT_EQ(field(get("/api/wall?from=soon")), "from");
  EXPECT_EQ(field(get("/api/wall?to=2031-02-30")), "to");
  EXPECT_EQ(code(get("/api/wall?from=2031-03-01&to=2031-02-01")), "days_crossed");
  EXPECT_EQ(code(get("/api/wall?from=2031-03-01&to=2032-12-01")), "too_many");
}

TEST_F(PlanTest, AWallWithoutAPlanHoldsTheRestAndSaysWhy) {
  ASSERT_EQ(post_record("release", R"({"count":100,"place":"Invented Brook"})").status, 201);
  const auto answer = get("/api/wall?from=2031-01-20&to=2031-01-26");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  EXPECT_EQ(json(answer)["wall"]["days"].size(), 7u);
  EXPECT_NE(json(answer)["wall"]["without_plan"][0].get<std::string>().find("released"), std::string::npos);
  EXPECT_EQ(code(get("/api/plan.ics")), "released");
}

TEST_F(AppTest, WithoutASeasonThereIsNoWall) {
  EXPECT_EQ(code(get("/api/wall")), "no_season");
  EXPECT_EQ(get("/api/plan.ics").status, 409);
}

TEST_F(PlanTest, WithNothingToPlanItSaysWhy) {
  ASSERT_EQ(post_record("release", R"({"count":100,"place":"Invented Brook"})").status, 201);
  EXPECT_EQ(code(get("/api/plan")), "released");
}

}  // namespace
}  // namespace redd::server
