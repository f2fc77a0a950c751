// The brood in numbers over HTTP.

#include "server/fixture.h"

namespace redd::server {
namespace {

class CountsTest : public AppTest {
 protected:
  void SetUp() override { set_up(); }
};

TEST_F(CountsTest, AnswersBeforeAndAfterEggsCome) {
  EXPECT_EQ(json(get("/api/counts"))["counts"]["losses"]["state"], "no_animals");
  ASSERT_EQ(post_record("egg_receipt", R"({"count":200,"start":"eyed"})").status, 201);
  ASSERT_EQ(post_record("count", R"({"what":"dead_eggs","count":2})").status, 201);
  ASSERT_EQ(post_record("count", R"({"what":"alive","count":48,"method":"sampled","looked_at_fraction":0.25})").status, 201);
  const auto answer = get("/api/counts");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto counts = json(answer)["counts"];
  EXPECT_EQ(counts["received"], 200);
  EXPECT_EQ(counts["dead"]["all"], 2);
  EXPECT_NEAR(counts["counts"][0]["mid"].get<double>(), 192.0, 1e-9);
  EXPECT_LT(counts["alive"]["low"].get<double>(), counts["alive"]["high"].get<double>());
}

TEST_F(CountsTest, RefusesWhatItDoesNotKnow) {
  EXPECT_EQ(get("/api/counts?unheard_of=1").status, 400);
  EXPECT_EQ(get("/api/counts?as_of=soon").status / 100, 4);
}

}  // namespace
}  // namespace redd::server
