// The invented demo season through the whole path, day by day: every view can be made, says no more than is known,
// and on the days the story is about says what a careful keeper would.

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <string>
#include <vector>

#include "report/counts_view.h"
#include "report/day_json.h"
#include "report/day_text.h"
#include "season/counts_look.h"
#include "season/season.h"
#include "support/same_set_points.h"
#include "wire/codec.h"
#include "wire/json.h"

namespace redd {
namespace {

std::vector<records::Record> demo_records() {
  std::ifstream file(REDD_SOURCE_DIR "/data/demo/season.jsonl");
  std::vector<records::Record> log;
  for (std::string line; std::getline(file, line);) {
    auto record = wire::record_from_json(line);
    EXPECT_TRUE(record.has_value()) << line;
    if (record) log.push_back(std::move(record).value());
  }
  return log;
}

/// Eastern winter time all year: whole days are what matters here.
season::Setup setup() { return {{"test", {{Instant{}, std::chrono::hours(-5)}}}}; }

season::DayView day_at(const std::vector<records::Record>& log, const char* day, int hour_utc = 22) {
  const auto at = Instant{date_from_iso(day)->time_since_epoch()} + std::chrono::hours(hour_utc);
  auto view = season::look_at_day(setup(), log, at);
  require(view.has_value(), "day_at", "no season on that day");
  return std::move(view).value();
}

TEST(DemoSeason, EveryRecordWouldBeTakenByTheLog) {
  const auto log = demo_records();
  ASSERT_GT(log.size(), 900U);
  std::vector<records::Record> before;
  for (const auto& record : log) {
    const auto problems = records::problems_of(record.entry, before, setup().zone, record.logged_at);
    EXPECT_TRUE(problems.empty()) << record.id << ": " << (problems.empty() ? "" : problems.front().sentence);
    before.push_back(record);
  }
}

TEST(DemoSeason, IsMarkedInvented) {
  const auto view = day_at(demo_records(), "2031-01-30");
  EXPECT_TRUE(view.season.invented);
  EXPECT_NE(report::day_text(view).find("INVENTED"), std::string::npos);
}

TEST(DemoSeason, EveryDayCanBeShownAndNoneIsCalledWellUntested) {
  const auto log = demo_records();
  for (Instant at = log.front().logged_at + std::chrono::hours(8); at < log.back().logged_at + std::chrono::hours(72); at += std::chrono::hours(24 * 5 + 7)) {
    const auto view = season::look_at_day(setup(), log, at);
    ASSERT_TRUE(view.has_value());
    const std::string text = report::day_text(*view);
    EXPECT_EQ(text.find('{'), std::string::npos) << text;
    EXPECT_TRUE(wire::parsed(report::day_json(*view)).has_value());
    ASSERT_FALSE(view->advice.actions.empty());
    for (const auto quantity : {records::Quantity::total_ammonia, records::Quantity::nitrite, records::Quantity::ph}) {
      const auto* known = view->belief.find(quantity);
      if (inference::has_animals(view->belief.brood.animals) && (!known || inference::is_stale(*known))) EXPECT_NE(view->advice.headline.tone, advice::Tone::good);
    }
  }
}

TEST(DemoSeason, ARipeningTankIsNotCalledReady) {
  const auto view = day_at(demo_records(), "2030-09-03");
  EXPECT_EQ(view.belief.brood.animals, inference::Animals::none);
  EXPECT_EQ(view.advice.actions.front().rule, "ripening");
}

TEST(DemoSeason, NitriteBeforeHatchAsksForAWaterChange) {
  const auto view = day_at(demo_records(), "2031-01-30");
  EXPECT_EQ(view.advice.actions.front().rule, "nitrite");
  ASSERT_TRUE(view.advice.actions.front().water_change.has_value());
  EXPECT_LE(view.advice.actions.front().water_change->fraction, 0.5);
}

TEST(DemoSeason, AClumpOfDeadIsNotForgottenThreeDaysLater) {
  const auto log = demo_records();
  const auto at = Instant{date_from_iso("2031-01-30")->time_since_epoch()} + std::chrono::hours(22);
  const auto counts = season::look_at_counts(setup(), log, at);
  ASSERT_TRUE(counts.has_value());
  const auto losses = report::counts_json(*counts)["losses"];
  EXPECT_EQ(losses["tone"], "watch");
  EXPECT_NE(losses["sentence"].get<std::string>().find("27 January 2031 were more than expected"), std::string::npos) << losses["sentence"];
  const auto view = day_at(log, "2031-01-30");
  EXPECT_EQ(std::ranges::count(view.advice.actions, "losses/pick_the_dead", &advice::Action::key), 1);
}

TEST(DemoSeason, TheChillerWeekendIsSeenOnMondayMorning) {
  const auto view = day_at(demo_records(), "2031-03-10", 13);
  EXPECT_EQ(view.advice.headline.tone, advice::Tone::alarm);
}

TEST(DemoSeason, HatchFallsInsideTheWindowGivenWhenTheEggsCame) {
  const auto log = demo_records();
  const auto view = day_at(log, "2031-01-08");
  Date hatched{};
  for (const auto& r : log)
    if (const auto* m = std::get_if<records::Milestone>(&r.entry.body); m && m->seen && m->which == records::Milestone::Which::half_hatched)
      hatched = local_day(setup().zone, r.entry.at);
  const auto& lot = view.belief.brood.forecast->stage(biology::Stage::hatch).lot;
  EXPECT_GE(hatched, biology::day_of(lot.low_90));
  EXPECT_LE(hatched, biology::day_of(lot.high_90));
}

TEST(DemoSeason, FirstFeedingAndTheSeasonsPlanSpeakOfTheSameSetPoints) {
  const auto log = demo_records();
  int asked = 0;
  for (const char* day : {"2031-01-20", "2031-02-05", "2031-02-20", "2031-03-05"}) {
    SCOPED_TRACE(day);
    const auto at = Instant{date_from_iso(day)->time_since_epoch()} + std::chrono::hours(22);
    // An invented break around the day on which they are expected to swim up.
    const auto view = day_at(log, day);
    const Date middle = biology::day_of(view.belief.brood.forecast->stage(biology::Stage::swim_up).lot.median);
    auto with_break = log;
    std::erase_if(with_break, [&](const records::Record& r) { return r.logged_at > at; });
    records::Record closure{with_break.back().id + 1, at - std::chrono::hours(1), {}};
    closure.entry.at = at - std::chrono::hours(1);
    closure.entry.author = "invented";
    closure.entry.body = records::Closure{"Invented break", middle - std::chrono::days(6), middle + std::chrono::days(6), {}};
    with_break.push_back(closure);
    asked += testing::same_set_points(setup(), with_break, at) != testing::BreakFound::no_risk;
  }
  EXPECT_GE(asked, 2);
}

}  // namespace
}  // namespace redd
