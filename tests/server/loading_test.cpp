// The loading over HTTP.

#include "server/fixture.h"

namespace redd::server {
namespace {

class LoadingTest : public AppTest {
 protected:
  void SetUp() override { set_up(); }
};

TEST_F(LoadingTest, AnswersWithRowsAndSentences) {
  const auto answer = get("/api/loading");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto loading = json(answer)["loading"];
  EXPECT_FALSE(loading["sentence"].get<std::string>().empty());
  EXPECT_EQ(loading["sizes"].size(), 7u);
  EXPECT_FALSE(loading["assumed"].empty());
  EXPECT_TRUE(loading["filter"]["working"].is_boolean());
}

TEST_F(LoadingTest, WrongQuestionsAreNamed) {
  EXPECT_EQ(field(get("/api/loading?as_of=yesterday")), "as_of");
  EXPECT_EQ(get("/api/loading?unheard_of=1").status, 400);
}

}  // namespace
}  // namespace redd::server
