// The season report over HTTP.

#include "server/fixture.h"

namespace redd::server {
namespace {

class ReportTest : public AppTest {
 protected:
  void SetUp() override { set_up(); }
};

TEST_F(ReportTest, AnswersFromTheFirstDayOn) {
  const auto first = json(get("/api/report"))["report"];
  EXPECT_EQ(first["season"]["name"], "Test season");
  EXPECT_TRUE(first["milestones"]["rows"].empty());
  ASSERT_EQ(post_record("egg_receipt", R"({"count":200,"start":"eyed"})").status, 201);
  ASSERT_EQ(post_record("count", R"({"what":"dead_eggs","count":2})").status, 201);
  const auto answer = get("/api/report");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto report = json(answer)["report"];
  EXPECT_EQ(report["losses"][0]["text"], "2 eggs");
  EXPECT_EQ(report["milestones"]["rows"].size(), 3u);
}

TEST_F(ReportTest, NextYearAnswersFromTheFirstDayOn) {
  const auto answer = get("/api/next-year");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto next = json(answer)["next_year"];
  ASSERT_EQ(next["lessons"].size(), 7u);
  EXPECT_EQ(next["lessons"][0]["verdict"], "not_known");
}

TEST_F(ReportTest, IsHandedOutAsAFile) {
  for (const auto& [address, type, beginning] : {std::tuple{"/api/report.pdf?paper=letter&for=class&language=es", "application/pdf", "%PDF-"}, {"/api/report.html", "text/html; charset=utf-8", "<!doctype html>"},
                                                 {"/api/charts/temperature.svg", "image/svg+xml", "<?xml"}, {"/api/charts/nitrite.png?units=us", "image/png", "\x89PNG"}}) {
    const auto answer = get(address);
    ASSERT_EQ(answer.status, 200) << address << answer.bytes();
    EXPECT_EQ(answer.content_type, type);
    EXPECT_EQ(answer.bytes().substr(0, std::string_view(beginning).size()), beginning) << address;
    EXPECT_EQ(answer.header("Content-Disposition")->substr(0, 21), "attachment; filename=") << address;
  }
}

TEST_F(ReportTest, AnAgencysQuestionsAreAskedInTheBody) {
  const auto answer = post("/api/report.html", R"({"questions":[{"question":"Stock <tag>?","answer":"7"}]})");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  EXPECT_NE(answer.bytes().find("<h3>Stock &lt;tag&gt;?</h3>"), std::string_view::npos);
  for (const char* body : {R"({"questions":1})", R"([])", R"({"answers":[]})", R"({"questions":[{"question":"a"}]})", R"({"questions":[{"question":1,"answer":"b"}]})", R"({"questions":[null]})"})
    EXPECT_EQ(post("/api/report.html", body).status / 100, 4) << body;
}

TEST_F(ReportTest, RefusesOtherChartsPapersAndReaders) {
  for (const char* address : {"/api/charts/weather.svg", "/api/charts/nitrite.gif", "/api/charts/nitrite", "/api/charts/..%2Fsecret.svg"}) EXPECT_EQ(get(address).status, 404) << address;
  for (const char* address : {"/api/report.pdf?paper=a3", "/api/report.pdf?for=press", "/api/report.html?paper=a4"}) EXPECT_EQ(get(address).status / 100, 4) << address;
}

TEST_F(ReportTest, RefusesWhatItDoesNotKnow) {
  EXPECT_EQ(get("/api/report?unheard_of=1").status, 400);
  EXPECT_EQ(get("/api/report?as_of=soon").status / 100, 4);
}

}  // namespace
}  // namespace redd::server
