// The filter's outlook on days of the invented demo season, with all its particles, as page and command line get it.

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "report/filter_view.h"
#include "season/season.h"
#include "server/filter_keeper.h"
#include "wire/codec.h"

namespace redd {
namespace {

server::Look demo_look() {
  server::Look look;
  std::ifstream file(REDD_SOURCE_DIR "/data/demo/season.jsonl");
  for (std::string line; std::getline(file, line);) look.records.push_back(wire::record_from_json(line).value());
  look.zone = {"test", {{Instant{}, std::chrono::hours(-5)}}};
  look.season = std::get<records::SeasonSetup>(look.records.front().entry.body);
  return look;
}

std::shared_ptr<const planning::FilterOutlook> outlook_on(const char* moment) {
  static const server::Look look = demo_look();
  static server::FilterWorker worker;  // each day from where the one before had come to, as in the page
  return worker.outlook(look, *instant_from_rfc3339(moment)).outlook;
}

TEST(DemoFilter, ForeseesTheNitritePeakInTheFourthWeek) {
  const auto told = outlook_on("2030-08-20T23:00:00Z");
  ASSERT_NE(told, nullptr);
  ASSERT_TRUE(told->outlook.nitrite_peak.low_90 && told->outlook.nitrite_peak.high_90);
  EXPECT_GT(*told->outlook.nitrite_peak.low_90, 15.0);  // ammonia was still high
  EXPECT_LT(*told->outlook.nitrite_peak.high_90, 60.0);
  EXPECT_LT(told->outlook.capacity_now_mg_n_per_l_per_day.mid, 0.1);
  EXPECT_FALSE(told->lost_track);
}

TEST(DemoFilter, SeesARipeFilterInOctoberAndThatColdMakesItWeaker) {
  const auto told = outlook_on("2030-10-15T22:00:00Z");
  ASSERT_NE(told, nullptr);
  EXPECT_GT(told->outlook.capacity_now_mg_n_per_l_per_day.low, 0.5);
  EXPECT_LT(told->outlook.capacity_at_target_mg_n_per_l_per_day.high, told->outlook.capacity_now_mg_n_per_l_per_day.high);
  EXPECT_GT(told->outlook.carries_coming_load_probability, 0.9);
  ASSERT_TRUE(told->measures);
  EXPECT_FALSE(told->measures->effects.empty());
}

TEST(DemoFilter, BelievesThreeTeamsAgainstItselfAfterTheRinseUnderTheTap) {
  const auto told = outlook_on("2031-01-30T22:00:00Z");
  ASSERT_NE(told, nullptr);
  ASSERT_TRUE(told->lost_track);
  EXPECT_EQ(told->lost_track->quantity, records::Quantity::nitrite);
  EXPECT_TRUE(told->lost_track->higher);
  EXPECT_GE(told->lost_track->records.size(), 3u);
}

}  // namespace
}  // namespace redd
