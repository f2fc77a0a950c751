#include "server/day_keeper.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <random>
#include <stdexcept>
#include <thread>
#include <vector>

#include "server/fixture.h"

namespace redd::server {
namespace {

desk::DayQuestion question(const std::shared_ptr<const Look>& look, int minute = 0) { return {look, Instant{} + std::chrono::minutes(minute), {}, {}}; }

TEST(DayKeeper, MakesTheSameAnswerOnceHoweverManyAskAtOnce) {
  DayKeeper keeper;
  const auto look = std::make_shared<const Look>();
  std::atomic<int> made{0};
  std::vector<std::thread> threads;
  for (int i = 0; i < 8; ++i)
    threads.emplace_back([&] {
      const auto day = keeper.day(question(look), [&]() -> Result<std::string> {
        ++made;
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
        return std::string("the day");
      });
      EXPECT_EQ(*day, "the day");
    });
  for (auto& thread : threads) thread.join();
  EXPECT_EQ(made, 1);
}

TEST(DayKeeper, AnythingThatTheAnswerFollowsFromMakesItAnew) {
  DayKeeper keeper;
  int made = 0;
  const auto ask = [&](const desk::DayQuestion& asked) { return *keeper.day(asked, [&]() -> Result<std::string> { return std::to_string(++made); }); };
  const auto look = std::make_shared<const Look>();
  const auto first = question(look);
  EXPECT_EQ(ask(first), "1");
  EXPECT_EQ(ask(first), "1");
  auto later = first;
  later.now += std::chrono::minutes(1);
  auto spanish = first;
  spanish.reader.language = report::Language::es;
  auto fahrenheit = first;
  fahrenheit.reader.fahrenheit = true;
  auto gallons = first;
  gallons.reader.us_gallons = true;
  auto working = first;
  working.filter.state = desk::FilterState::working;
  auto half = working;
  half.filter.done_fraction = 0.5;
  int next = 1;
  for (const auto& asked : {later, spanish, fahrenheit, gallons, working, half, question(std::make_shared<const Look>())}) EXPECT_EQ(ask(asked), std::to_string(++next));
  EXPECT_EQ(ask(first), "1");
}

TEST(DayKeeper, KeepsNoProblemsAndNoMoreThanAFew) {
  DayKeeper keeper;
  const auto look = std::make_shared<const Look>();
  EXPECT_FALSE(keeper.day(question(look), [] { return Result<std::string>(Problem{"x", "", "No."}); }));
  int made = 0;
  const auto make = [&]() -> Result<std::string> { return std::to_string(++made); };
  for (int minute = 0; minute < 100; ++minute) EXPECT_EQ(*keeper.day(question(look, minute), make), std::to_string(minute + 1));
  EXPECT_EQ(*keeper.day(question(look, 99), make), "100");
  EXPECT_EQ(*keeper.day(question(look, 0), make), "101");
}

TEST(DayKeeper, AnAnswerThatBreaksOffLeavesNobodyWaiting) {
  DayKeeper keeper;
  const auto look = std::make_shared<const Look>();
  EXPECT_THROW((void)keeper.day(question(look), []() -> Result<std::string> { throw std::runtime_error("stopped"); }), std::runtime_error);
  EXPECT_EQ(*keeper.day(question(look), [] { return Result<std::string>(std::string("made")); }), "made");
}

class KeptDay : public AppTest {
 protected:
  static Response ask(const App& app, const std::string& target) {
    auto request = request_from_target("GET", target);
    request.value().headers.emplace_back("host", "127.0.0.1:7333");
    return app.handle(*request);
  }
};

TEST_F(KeptDay, IsTheVeryAnswerThatIsMadeAfreshThroughEntriesAndTime) {
  set_up();
  const App kept(*desk);
  std::mt19937 random(20310120);
  std::vector<std::string> before;
  int again = 0;
  for (int step = 0; step < 40; ++step) {
    switch (random() % 4) {
      case 0: now += std::chrono::seconds(random() % 50); break;
      case 1: now += std::chrono::minutes(random() % 200); break;
      case 2:
        ASSERT_EQ(post_record("reading", R"({"kit":"card","test":"kh","form":"drops","value":)" + std::to_string(2 + random() % 6) + "}").status, 201);
        break;
      default: ASSERT_EQ(post_record("temperature", R"({"place":"tank","temperature_c":)" + std::to_string(7 + random() % 4) + "}").status, 201);
    }
    for (const char* target : {"/api/day", "/api/day?language=es&units=us"}) {
      const Response answer = ask(kept, target), fresh = ask(App(*desk), target);
      ASSERT_EQ(answer.status, 200);
      ASSERT_EQ(answer.bytes(), fresh.bytes()) << "step " << step << " " << target;
      again += std::ranges::count(before, std::string(answer.bytes())) > 0 ? 1 : 0;
      before.push_back(std::string(answer.bytes()));
    }
  }
  EXPECT_GT(again, 0) << "no two questions fell into one minute: nothing was tried";
}

TEST_F(KeptDay, AnEntryOfThisVeryMinuteIsInTheNextAnswer) {
  set_up();
  const App kept(*desk);
  now = instant("2031-01-20T20:05:10Z");
  const std::string before(ask(kept, "/api/day").bytes());
  EXPECT_EQ(json(ask(kept, "/api/day"))["now"], "2031-01-20T20:05:00Z");
  now = instant("2031-01-20T20:05:40Z");
  EXPECT_EQ(ask(kept, "/api/day").bytes(), before);
  ASSERT_EQ(post_record("temperature", R"({"place":"tank","temperature_c":19})").status, 201);
  const auto after = ask(kept, "/api/day");
  EXPECT_NE(after.bytes(), before);
  EXPECT_EQ(json(after)["now"], "2031-01-20T20:05:40Z");
  EXPECT_NE(after.bytes().find("19.0"), std::string_view::npos);
}

}  // namespace
}  // namespace redd::server
