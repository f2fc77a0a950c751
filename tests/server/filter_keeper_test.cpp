#include "server/filter_keeper.h"

#include <thread>

#include "server/fixture.h"

namespace redd::server {
namespace {

using State = FilterKeeper::State;

class FilterKeeperTest : public AppTest {
 protected:
  void SetUp() override {
    now = instant("2031-01-06T18:00:00Z");
    set_up();
    for (const char* at : {"2031-01-10T16:00:00Z", "2031-01-16T16:00:00Z"}) {
      now = instant(at);
      for (const char* reading : {R"({"kit":"card","test":"ammonia","form":"step","value":0.5})", R"({"kit":"card","test":"nitrite","form":"step","value":0.25})"})
        ASSERT_EQ(post_record("reading", reading).status, 201);
    }
    now = instant("2031-01-20T20:00:00Z");
  }
  std::shared_ptr<const Look> look() { return *desk->look(); }
  FilterKeeper::Answer waited(FilterKeeper& keeper, Instant at) {
    for (int i = 0; i < 3000; ++i) {
      const auto answer = keeper.ask(look(), at);
      if (answer.state != State::working) return answer;
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    ADD_FAILURE() << "the work does not end";
    return {};
  }
  wire::Json ask(FilterKeeper& keeper, const char* method, const std::string& target) {
    auto request = request_from_target(method, target);
    request.value().headers.emplace_back("host", "127.0.0.1:7333");
    request.value().headers.emplace_back("content-type", "application/json");
    request.value().body = method == std::string("POST") ? "{}" : "";
    const Response response = App(*desk, &keeper).handle(*request);
    EXPECT_EQ(response.status, 200) << response.bytes();
    return json(response);
  }
};

TEST_F(FilterKeeperTest, AnswersAtOnceAndIsReadyLater) {
  FilterKeeper keeper;
  const auto first = keeper.ask(look(), now);
  EXPECT_EQ(first.state, State::working);
  const auto last = waited(keeper, now);
  ASSERT_EQ(last.state, State::ready);
  ASSERT_NE(last.outlook, nullptr);
  EXPECT_EQ(last.outlook->sittings, 2u);
  EXPECT_EQ(keeper.ask(look(), now).outlook, last.outlook);  // and is not worked out twice
}

TEST_F(FilterKeeperTest, AWhatIfSaysWhileABetterOneMayBeComing) {
  FilterKeeper keeper;
  const auto early = ask(keeper, "GET", "/api/what-if")["what_if_base"];
  EXPECT_TRUE(early["filter_working"].get<bool>());
  EXPECT_NE(early["cautions"].dump().find("still being worked out"), std::string::npos);
  ASSERT_EQ(waited(keeper, now).state, State::ready);
  const auto late = ask(keeper, "GET", "/api/what-if")["what_if_base"];
  EXPECT_FALSE(late["filter_working"].get<bool>());
  EXPECT_EQ(late["cautions"].dump().find("still being worked out"), std::string::npos);
}

TEST_F(FilterKeeperTest, GivesWhatTheCommandLineGives) {
  FilterKeeper keeper;
  FilterWorker worker;
  const auto alone = worker.outlook(*look(), now);
  ASSERT_EQ(alone.end, FilterWorker::Result::End::done);
  const auto kept = waited(keeper, now);
  ASSERT_NE(kept.outlook, nullptr);
  EXPECT_EQ(kept.outlook->by_probability, alone.outlook->by_probability);
  EXPECT_EQ(kept.outlook->outlook.nitrite_peak.mid, alone.outlook->outlook.nitrite_peak.mid);
}

TEST_F(FilterKeeperTest, AReadingMoreIsAnotherQuestionAndLooksBackStay) {
  FilterKeeper keeper;
  const auto before = waited(keeper, now);
  ASSERT_EQ(post_record("reading", R"({"kit":"card","test":"nitrite","form":"step","value":1})").status, 201);
  const auto after = waited(keeper, now);
  ASSERT_NE(after.outlook, nullptr);
  EXPECT_EQ(after.outlook->sittings, before.outlook->sittings + 1);
  const auto back = waited(keeper, instant("2031-01-12T20:00:00Z"));
  ASSERT_NE(back.outlook, nullptr);
  EXPECT_EQ(back.outlook->sittings, 1u);
}

TEST_F(FilterKeeperTest, CancelledWorkStaysCancelledUntilStarted) {
  FilterKeeper keeper;
  EXPECT_EQ(ask(keeper, "GET", "/api/filter")["filter"]["state"], "working");
  EXPECT_EQ(ask(keeper, "POST", "/api/filter/cancel")["filter"]["state"], "cancelled");
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_EQ(ask(keeper, "GET", "/api/filter")["filter"]["state"], "cancelled");
  EXPECT_EQ(ask(keeper, "GET", "/api/day")["filter"]["state"], "cancelled");
  EXPECT_EQ(ask(keeper, "POST", "/api/filter/start")["filter"]["state"], "working");
  EXPECT_EQ(waited(keeper, now).state, State::ready);
  const auto day = ask(keeper, "GET", "/api/day");
  EXPECT_EQ(day["filter"]["state"], "ready");
  EXPECT_EQ(day["filter"]["ready"]["by_day"], "2031-02-10");
}

TEST_F(FilterKeeperTest, StoppingTheProgramStopsTheWork) {
  const auto begun = std::chrono::steady_clock::now();
  {
    FilterKeeper keeper;
    keeper.ask(look(), now);
  }
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(20));
}

TEST_F(FilterKeeperTest, WithoutAKeeperNothingIsForetold) { EXPECT_EQ(json(get("/api/day"))["filter"]["state"], "absent"); }

TEST(FilterWorker, StopsWhenTold) {
  Look look;
  records::SeasonSetup setup;
  setup.first_day = *date_from_iso("2031-01-06");
  setup.species = "brook_trout";
  records::Record record;
  record.id = 1;
  record.logged_at = record.entry.at = instant("2031-01-06T08:00:00Z");
  record.entry.body = setup;
  look.records = {record};
  look.season = setup;
  FilterWorker worker;
  const auto none = worker.outlook(look, instant("2031-01-20T08:00:00Z"));
  EXPECT_EQ(none.end, FilterWorker::Result::End::done);  // without a reading: what is usual
  EXPECT_EQ(none.outlook->sittings, 0u);
}

}  // namespace
}  // namespace redd::server
