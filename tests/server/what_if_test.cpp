// What-ifs over HTTP: the base for the page, and the server's own answer.

#include "desk/what_if_question.h"
#include "server/fixture.h"

namespace redd::server {
namespace {

class WhatIfTest : public AppTest {
 protected:
  void SetUp() override {
    set_up();
    ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
    ASSERT_EQ(post_record("reading", R"({"kit":"card","test":"ammonia","form":"step","value":0.25})").status, 201);
  }
};

TEST_F(WhatIfTest, TheServerAnswersAsItsBaseDoes) {
  const auto base = get("/api/what-if");
  ASSERT_EQ(base.status, 200) << base.bytes();
  const auto asked = json(base)["what_if_base"]["asked"];
  const auto answer = post("/api/what-if", R"({"sliders":{"room_warmer_c":5,"weekly_change_fraction":0}})");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  EXPECT_EQ(json(answer), desk::what_if_asked({{"what_if", {{"base", asked}, {"sliders", {{"room_warmer_c", 5}, {"weekly_change_fraction", 0}}}}}}));
  EXPECT_FALSE(json(answer)["what_if"]["sentence"].get<std::string>().empty());
}

TEST_F(WhatIfTest, WhatCannotBeReckonedIsSaidWithItsField) {
  const auto far = post("/api/what-if", R"({"sliders":{"room_warmer_c":40}})");
  EXPECT_EQ(far.status, 422);
  EXPECT_EQ(json(far)["problems"][0]["field"], "/room_warmer_c");
  EXPECT_EQ(post("/api/what-if", R"({"moon":1})").status, 422);
  EXPECT_EQ(post("/api/what-if", "not json").status, 400);
}

}  // namespace
}  // namespace redd::server
