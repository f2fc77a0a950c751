// The water programme and a proposed change over HTTP.

#include "server/fixture.h"

namespace redd::server {
namespace {

class WaterTest : public AppTest {
 protected:
  void SetUp() override {
    set_up();
    ASSERT_EQ(post_record("source_water", R"({"key":"tap","name":"Tap","ph":7.4,"alkalinity_german_degrees":4,"hardness_german_degrees":5,"total_ammonia_mg_n_per_l":0,"nitrite_mg_n_per_l":0,"nitrate_mg_n_per_l":0.7,"chlorine_mg_per_l":1,"temperature_c":6})").status, 201);
    ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
    ASSERT_EQ(post_record("reading", R"({"kit":"card","test":"ammonia","form":"step","value":0.25})").status, 201);
    ASSERT_EQ(post_record("reading", R"({"kit":"card","test":"ph_meter","form":"number","value":7.4})").status, 201);
  }
};

TEST_F(WaterTest, ThePlanStandsBesideTheUsualChangeAndNone) {
  const auto answer = get("/api/water-plan");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto plan = json(answer)["water_plan"];
  EXPECT_EQ(plan["state"], "ready");
  EXPECT_FALSE(plan["sentence"].get<std::string>().empty());
  ASSERT_EQ(plan["alternatives"].size(), 3u);
  for (const auto& each : plan["alternatives"]) {
    EXPECT_EQ(each["by_limit"].size(), 8u);
    EXPECT_GE(each["broken_probability"].get<double>(), 0.0);
    EXPECT_FALSE(each["series"].empty());
    EXPECT_FALSE(each["series"][0]["days"].empty());
  }
  EXPECT_EQ(plan["alternatives"][1]["key"], "usual");
  EXPECT_EQ(plan["limits"].size(), 8u);
  EXPECT_EQ(get("/api/water-plan?unheard_of=1").status, 400);
}

TEST_F(WaterTest, AProposedChangeIsToldBeforeAndAfter) {
  const auto answer = post("/api/water/try", R"({"fraction":0.3,"source":"tap","new_water_c":8,"vacuum":false})");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto tried = json(answer)["tried"];
  EXPECT_TRUE(tried["warnings"].empty()) << answer.bytes();
  EXPECT_EQ(tried["change"]["volume_l"], 63.0);
  bool ammonia = false;
  for (const auto& row : tried["rows"]) {
    EXPECT_LE(row["after"]["low"].get<double>(), row["after"]["high"].get<double>());
    if (row["key"] != "total_ammonia") continue;
    ammonia = true;
    EXPECT_LT(row["after"]["mid"].get<double>(), row["before"]["mid"].get<double>());
  }
  EXPECT_TRUE(ammonia);
  EXPECT_EQ(json(post("/api/water/try", R"({"volume_l":63})"))["tried"]["change"]["fraction"], 0.3);
}

TEST_F(WaterTest, WhatIsWrongIsNamed) {
  EXPECT_EQ(field(post("/api/water/try", R"({"fraction":1.5})")), "/fraction");
  EXPECT_EQ(field(post("/api/water/try", R"({})")), "/fraction");
  EXPECT_EQ(field(post("/api/water/try", R"({"fraction":0.2,"volume_l":20})")), "/fraction");
  EXPECT_EQ(field(post("/api/water/try", R"({"fraction":0.2,"new_water_c":"cold"})")), "/new_water_c");
  EXPECT_EQ(field(post("/api/water/try", R"({"fraction":0.2,"stood":"yes"})")), "/stood");
  EXPECT_EQ(field(post("/api/water/try", R"({"fraction":0.2,"source":"pond"})")), "/source");
  EXPECT_EQ(field(post("/api/water/try", R"({"fraction":0.2,"colour":"blue"})")), "/colour");
  EXPECT_EQ(post("/api/water/try", "[]").status, 400);
}

}  // namespace
}  // namespace redd::server
