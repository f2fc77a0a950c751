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

TEST_F(ReportTest, RefusesWhatItDoesNotKnow) {
  EXPECT_EQ(get("/api/report?unheard_of=1").status, 400);
  EXPECT_EQ(get("/api/report?as_of=soon").status / 100, 4);
}

}  // namespace
}  // namespace redd::server
