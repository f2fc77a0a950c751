// Food and growth over HTTP.

#include "server/fixture.h"

namespace redd::server {
namespace {

class FeedTest : public AppTest {};

TEST_F(FeedTest, SaysThereIsNothingToFeedYet) {
  set_up();
  const auto answer = get("/api/feed");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto feed = json(answer)["feed"];
  EXPECT_EQ(feed["stage"], "none");
  EXPECT_FALSE(feed["sentence"].get<std::string>().empty());
  EXPECT_EQ(feed["filter_working"], false);
}

TEST_F(FeedTest, WithEggsItNamesTheFirstFood) {
  set_up();
  ASSERT_EQ(post_record("egg_receipt", R"({"count":200,"start":"eyed"})").status, 201);
  const auto feed = json(get("/api/feed"))["feed"];
  EXPECT_EQ(feed["stage"], "waiting");
  EXPECT_FALSE(feed["start"]["texts"].empty());
  EXPECT_EQ(feed["alive"]["mid"], 200.0);
}

TEST_F(FeedTest, CountsOfFishThatSwimUpAreTaken) {
  set_up();
  ASSERT_EQ(post_record("egg_receipt", R"({"count":200,"start":"eyed"})").status, 201);
  EXPECT_EQ(post_record("count", R"({"what":"swum_up","count":120})").status, 201);
  EXPECT_EQ(post_record("count", R"({"what":"swum_up","count":220})").status, 422) << "more than came";
}

TEST_F(FeedTest, RefusesWhatItDoesNotKnow) {
  EXPECT_NE(get("/api/feed").status, 200) << "no season yet";
  set_up();
  EXPECT_EQ(get("/api/feed?unheard_of=1").status, 400);
  EXPECT_EQ(field(get("/api/feed?as_of=soon")), "as_of");
}

}  // namespace
}  // namespace redd::server
