#include "season/what_if_look.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/what_if_season.h"

namespace redd::season {
namespace {

using namespace redd::testing;

/// All weekly tests on day 56; pH at 6.8, and KH at odds with it from about 20 drops on.
SmallSeason tested(int kh_drops) {
  auto season = ripe_season();
  season.add(2, chilled_tank());
  season.step(56, "ammonia", 0);
  season.step(56, "nitrite", 0);
  season.step(56, "ph", 6.8);
  season.drops(56, "kh", kh_drops);
  season.temperature(56, 8);
  return season;
}

WhatIfLook look_of(const SmallSeason& season) {
  auto look = look_at_what_if({}, season.log(), on_day(56, 12));
  require(look.has_value(), "what_if_look_test", "no look");
  return std::move(look).value();
}

bool cautions(const WhatIfLook& look, std::string_view words) {
  return std::ranges::any_of(look.cautions, [&](const Sentence& c) { return c.pattern.find(words) != std::string::npos; });
}

TEST(LookAtWhatIf, CalmReadingsAreNotCalledDoubted) {
  const auto look = look_of(tested(6));
  EXPECT_TRUE(look.cautions.empty()) << look.cautions.front().pattern;
  EXPECT_FALSE(look.day.belief.find(records::Quantity::ph)->doubt);
}

TEST(LookAtWhatIf, ReadingsAtOddsAreReckonedWithAndSaid) {
  const auto look = look_of(tested(40));
  EXPECT_TRUE(cautions(look, "Readings are in doubt"));
  const auto& ph = *look.day.belief.find(records::Quantity::ph);
  ASSERT_TRUE(ph.doubt);
  EXPECT_GT(ph.value.high, ph.as_read.high + 1.0);
}

TEST(LookAtWhatIf, SaysOnlyWhileTheFiltersOutlookIsComing) {
  const auto season = tested(6);
  const auto look = look_at_what_if({}, season.log(), on_day(56, 12), nullptr, true);
  ASSERT_TRUE(look.has_value());
  EXPECT_TRUE(look->filter_working);
  EXPECT_TRUE(cautions(*look, "still being worked out"));
  EXPECT_FALSE(look_of(season).filter_working);
}

TEST(LookAtWhatIf, ContraryReplicatesAreSaid) {
  auto season = tested(6);
  season.step(56, "ph", 8.4);
  EXPECT_TRUE(cautions(look_of(season), "Readings are in doubt"));
}

TEST(LookAtWhatIf, AChillerThatIsOffIsSaid) {
  auto season = tested(6);
  season.add(56, EquipmentEvent{EquipmentEvent::Equipment::chiller, EquipmentEvent::Event::failed});
  const auto look = look_of(season);
  EXPECT_TRUE(look.base.heat.chiller_down);
  EXPECT_TRUE(cautions(look, "The chiller is logged as failed"));
}

}  // namespace
}  // namespace redd::season
