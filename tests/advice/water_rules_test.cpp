#include <gtest/gtest.h>

#include <algorithm>

#include "advice/advise.h"
#include "planning/water_programme.h"
#include "support/water_season.h"

namespace redd::advice {
namespace {

using namespace redd::testing;

/// Advice of a moment with a programme of the test's choosing.
Advice advised(const AskedWater& made, const planning::WaterProgramme& programme) {
  Looks looks;
  looks.water = &programme;
  return advise(made.season, made.records, made.belief, nullptr, made.zone, made.at, looks);
}

/// By part of its key: it may have been joined with others.
const Action* find(const Advice& advice, std::string_view rule) {
  const auto found = std::ranges::find_if(advice.actions, [&](const Action& a) { return a.key.find(rule) != std::string::npos; });
  return found == advice.actions.end() ? nullptr : &*found;
}

planning::WaterProgramme programme_of(const AskedWater& made) {
  auto p = planning::water_programme(made.asked());
  require(p.has_value(), "water_rules_test", "no programme");
  p->from_posterior = true;  // as with the filter's outlook
  return *p;
}

SmallSeason nitrate_high() {
  auto season = ripe_season();
  season.step(56, "nitrate", 40);
  season.step(56, "ammonia", 0);
  season.step(56, "nitrite", 0);
  season.step(56, "ph", 7.2);
  season.drops(56, "kh", 6);
  season.drops(56, "gh", 8);
  season.temperature(56, 8);
  return season;
}

TEST(WaterProgrammeRule, AsksForTheNextChangeWithItsNumbersAndReasons) {
  const auto made = asked_water(nitrate_high(), 56);
  auto p = programme_of(*made);
  ASSERT_FALSE(p.programme.changes.empty());
  const auto advice = advised(*made, p);
  const Action* a = find(advice, "water_programme");
  if (!a) a = find(advice, "nitrate");  // merged into the larger one
  ASSERT_NE(a, nullptr);
  ASSERT_TRUE(a->water_change);
  EXPECT_GE(a->water_change->fraction, p.programme.changes.front().fraction - 1e-9);
  EXPECT_FALSE(a->because.empty());
  EXPECT_EQ(std::ranges::count_if(advice.actions, [](const Action& x) { return x.water_change.has_value(); }), 1);  // one change, not two
}

TEST(WaterProgrammeRule, IsSilentWithoutAChangeOrWhenItIsFarOff) {
  const auto made = asked_water(ripe_season(), 56);
  auto p = programme_of(*made);
  p.programme.changes.clear();
  EXPECT_EQ(find(advised(*made, p), "water_programme"), nullptr);
  p.reached = true;
  planning::PlannedChange later;
  later.fraction = 0.2;
  later.day = p.today + std::chrono::days(12);
  p.programme.changes = {later};
  EXPECT_EQ(find(advised(*made, p), "water_programme"), nullptr);
  p.programme.changes.front().day = p.today + std::chrono::days(2);
  const auto advice = advised(*made, p);
  const Action* a = find(advice, "water_programme");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->tone, Tone::watch);
  EXPECT_TRUE(a->benefit.has_value());
}

TEST(WaterProgrammeRule, IsSilentOnStaleReadingsAndOnWeakGround) {
  const auto made = asked_water(ripe_season(), 56);
  auto p = programme_of(*made);
  planning::PlannedChange soon;
  soon.fraction = 0.2;
  soon.day = p.today + std::chrono::days(2);
  p.programme.changes = {soon};
  p.stale = true;
  EXPECT_EQ(find(advised(*made, p), "water_programme"), nullptr);
  p.stale = false;
  p.from_posterior = false;
  p.none.forecast.broken_probability = 0.2;
  EXPECT_EQ(find(advised(*made, p), "water_programme"), nullptr);
  p.none.forecast.broken_probability = 0.8;
  EXPECT_NE(find(advised(*made, p), "water_programme"), nullptr);
}

TEST(HardnessRule, CreepingGhAsksForSofterWaterToTopUpWith) {
  auto season = ripe_season();
  for (const int day : {50, 52, 54}) season.add(day, records::TopUp{Volume::from_l(2)});
  season.drops(56, "gh", 11);  // from 4 to 5.5 German degrees, the limit lies at 6
  const auto made = asked_water(season, 56);
  const auto advice = advised(*made, programme_of(*made));
  const Action* a = find(advice, "hardness");
  ASSERT_NE(a, nullptr);
  EXPECT_FALSE(a->water_change);
  EXPECT_NE(a->what.pattern.find("Top up with distilled"), std::string::npos);
  EXPECT_FALSE(a->because.front().records.empty());
}

TEST(HardnessRule, GhFarOffAsksForAChangeOnlyWhereTheSourceIsSofter) {
  auto season = ripe_season();
  season.drops(56, "gh", 16);
  const auto made = asked_water(season, 56);
  const auto advice = advised(*made, programme_of(*made));
  const Action* a = find(advice, "hardness");
  ASSERT_NE(a, nullptr);
  ASSERT_TRUE(a->water_change);
  EXPECT_GT(a->water_change->fraction, 0.0);
  tap_of(season).hardness = Hardness::from_german_degrees(12);
  const auto hard = asked_water(season, 56);
  const auto other = advised(*hard, programme_of(*hard));
  const Action* b = find(other, "hardness");
  ASSERT_NE(b, nullptr);
  EXPECT_FALSE(b->water_change);
}

TEST(HardnessRule, SteadyGhIsLeftAlone) {
  const auto made = asked_water(ripe_season(), 56);
  EXPECT_EQ(find(advised(*made, programme_of(*made)), "hardness"), nullptr);
}

}  // namespace
}  // namespace redd::advice
