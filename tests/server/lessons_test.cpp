// The lessons over HTTP: what can be guessed, a guess, and what is refused.

#include "server/fixture.h"

namespace redd::server {
namespace {

class LessonsTest : public AppTest {
 protected:
  void SetUp() override { set_up(); }
};

TEST_F(LessonsTest, AnswersBeforeAnythingIsLogged) {
  const auto answer = get("/api/lessons");
  ASSERT_EQ(answer.status, 200) << answer.bytes();
  const auto lessons = json(answer)["lessons"];
  EXPECT_TRUE(lessons["game"]["open"].empty());
  EXPECT_EQ(lessons["graphs"].size(), 4u);
  EXPECT_EQ(lessons["sheets"]["number"], 1);
}

TEST_F(LessonsTest, TakesAGuessWhileTheQuestionIsOpenAndHidesIt) {
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
  const auto open = json(get("/api/lessons"))["lessons"]["game"]["open"];
  ASSERT_EQ(open.size(), 1u);
  const std::string key = open[0]["key"];
  const std::string guess = R"({"question":")" + key + R"(","team":"Team Otter","low":7.25,"high":8.75,"entry_key":"g1"})";
  EXPECT_EQ(post("/api/lessons/guess", guess).status, 201);
  EXPECT_EQ(post("/api/lessons/guess", guess).status, 200);  // sent twice, kept once
  const auto after = get("/api/lessons");
  EXPECT_EQ(json(after)["lessons"]["game"]["open"][0]["teams_in"], wire::Json::array({"Team Otter"}));
  EXPECT_EQ(after.bytes().find("7.25"), std::string::npos);
  EXPECT_EQ(get("/api/history").bytes().find("7.25"), std::string::npos);
}

TEST_F(LessonsTest, AGuessAmongTheRecordsIsRefusedWhenItWouldNotCount) {
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
  const auto none = post_record("guess", R"({"question":"temperature/2031-01-01","team":"Team Otter","low":7,"high":8})");
  EXPECT_EQ(none.status, 422) << none.bytes();
  EXPECT_EQ(code(none), "no_such_question");
  EXPECT_EQ(field(none), "/body/question");
  const std::string key = json(get("/api/lessons"))["lessons"]["game"]["open"][0]["key"];
  const auto chips = post_record("guess", R"({"question":")" + key + R"(","team":"Team Otter","chips":[4,6]})");
  EXPECT_EQ(chips.status, 422) << chips.bytes();
  EXPECT_EQ(field(chips), "/body/low");
  EXPECT_TRUE(json(get("/api/lessons"))["lessons"]["game"]["open"][0]["teams_in"].empty());
  EXPECT_EQ(desk->look().value()->records.size(), 3u);

  const std::string range = R"({"question":")" + key + R"(","team":"Team Otter","low":7,"high":8})", again = R"("entry_key":"g1",)";
  EXPECT_EQ(post_record("guess", range, again).status, 201);
  EXPECT_EQ(json(get("/api/lessons"))["lessons"]["game"]["open"][0]["teams_in"], wire::Json::array({"Team Otter"}));
  now += std::chrono::days(7);
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":7.5})").status, 201);
  EXPECT_EQ(post_record("guess", range, again).status, 200);  // sent again although the question is settled by now: it was kept in time
  EXPECT_EQ(code(post_record("guess", range)), "question_closed");
}

TEST_F(LessonsTest, AGuessSentAgainIsAnsweredAsKeptAlsoAfterItsQuestionClosed) {
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
  const std::string key = json(get("/api/lessons"))["lessons"]["game"]["open"][0]["key"];
  const auto guess = [&](const char* low) { return R"({"question":")" + key + R"(","team":"Team Otter","low":)" + low + R"(,"high":9,"entry_key":"g1"})"; };
  const auto first = post("/api/lessons/guess", guess("7"));
  ASSERT_EQ(first.status, 201);
  now += std::chrono::days(7);
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":7.5})").status, 201);
  const auto again = post("/api/lessons/guess", guess("7"));
  EXPECT_EQ(again.status, 200) << again.bytes();
  EXPECT_EQ(json(again)["id"], json(first)["id"]);
  EXPECT_EQ(code(post("/api/lessons/guess", guess("8"))), "entry_key_reused");
}

TEST_F(LessonsTest, NoGuessIsWrittenBackIntoThePast) {
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":8})").status, 201);
  const std::string key = json(get("/api/lessons"))["lessons"]["game"]["open"][0]["key"], then = "?as_of=" + rfc3339_from_instant(now + std::chrono::hours(1));
  now += std::chrono::days(7);
  ASSERT_EQ(post_record("temperature", R"({"temperature_c":7.5})").status, 201);
  const std::string guess = R"("question":")" + key + R"(","team":"Team Otter","low":7.4,"high":7.6})";
  EXPECT_EQ(code(post("/api/lessons/guess" + then, "{" + guess)), "no_such_question");
  EXPECT_EQ(code(post_record("guess", "{" + guess, "", then)), "no_such_question");
  EXPECT_TRUE(json(get("/api/lessons"))["lessons"]["game"]["settled"].empty());
}

TEST_F(LessonsTest, ALookBackDoesNotChangeWhenAnEntryWasWrittenDown) {
  const std::string then = "?as_of=" + rfc3339_from_instant(now);
  now += std::chrono::days(3);
  ASSERT_EQ(post_record("note", R"({"text":"late"})", "", then).status, 201);
  EXPECT_EQ(desk->look().value()->records.back().logged_at, now);
}

TEST_F(LessonsTest, RefusesWhatFitsNoOpenQuestion) {
  EXPECT_EQ(post("/api/lessons/guess", R"({"question":"temperature/2031-01-01","team":"Team Otter","low":7,"high":8})").status, 422);
  EXPECT_EQ(post("/api/lessons/guess", R"({"team":"Team Otter","low":7,"high":8})").status, 422);
  EXPECT_EQ(post("/api/lessons/guess", "[]").status, 400);
  EXPECT_EQ(post("/api/lessons/guess", "no").status, 400);
  EXPECT_EQ(get("/api/lessons?sheet=0").status / 100, 4);
  EXPECT_EQ(get("/api/lessons?unheard_of=1").status, 400);
}

}  // namespace
}  // namespace redd::server
