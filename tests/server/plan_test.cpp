// The temperature plan over HTTP.

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

TEST_F(PlanTest, WrongChangesAreNamed) {
  EXPECT_EQ(field(post("/api/plan/try", R"({"changes":[{"day":"2031-01-22","c":70}]})")), "/changes/0/c");
  EXPECT_EQ(field(post("/api/plan/try", R"({"changes":[{"day":"soon","c":7}]})")), "/changes/0/day");
  EXPECT_EQ(field(post("/api/plan/try", R"({"changes":[{"day":"2035-01-22","c":7}]})")), "/changes/0/day");
  EXPECT_EQ(field(post("/api/plan/try", "[]")), "/changes");
  EXPECT_EQ(post("/api/plan/try", "{").status, 400);
}

TEST_F(PlanTest, WithNothingToPlanItSaysWhy) {
  ASSERT_EQ(post_record("release", R"({"count":100,"place":"Invented Brook"})").status, 201);
  EXPECT_EQ(code(get("/api/plan")), "released");
}

}  // namespace
}  // namespace redd::server
