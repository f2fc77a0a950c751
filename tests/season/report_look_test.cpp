#include "season/report_look.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::season {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using records::Count;

ReportLook look_at(const SmallSeason& season, int day) {
  auto look = look_at_report({}, season.log(), on_day(day, 12));
  EXPECT_TRUE(look.has_value());
  return std::move(look).value();
}
records::Milestone seen(records::Milestone::Which which) { return {which, true}; }
Date day_of(int day) { return local_day({}, on_day(day)); }
const Foretold& hatch_of(const ReportLook& look) { return look.foretold.at(1); }

TEST(ReportLook, NeedsASeason) {
  const auto look = look_at_report({}, {}, on_day(5));
  ASSERT_FALSE(look.has_value());
  EXPECT_EQ(look.problems().front().code, "no_season");
}

TEST(ReportLook, BeforeEggsNothingIsForetold) {
  const auto look = look_at(SmallSeason(), 5);
  EXPECT_TRUE(look.foretold.empty());
  EXPECT_TRUE(look.losses.empty());
  EXPECT_FALSE(look.counts.received_on);
}

TEST(ReportLook, AddsUpTheDeadOfADayAndKindAndLeavesOutNone) {
  SmallSeason season;
  season.eggs(8);
  season.add(9, Count{Count::What::dead_eggs, 2});
  season.add(9, Count{Count::What::dead_eggs, 3, Count::How::estimated}, 10);
  season.add(10, Count{Count::What::dead_eggs, 0});
  season.add(11, Count{Count::What::dead_eggs, 1});
  const auto look = look_at(season, 12);
  ASSERT_EQ(look.losses.size(), 2u);
  EXPECT_EQ(look.losses[0].count, 5);
  EXPECT_FALSE(look.losses[0].all_counted);
  EXPECT_EQ(look.losses[1].day, day_of(11));
  EXPECT_TRUE(look.losses[1].all_counted);
}

TEST(ReportLook, WhatWasLearntLaterDoesNotChangeWhatWasForetold) {
  SmallSeason plain, informed;
  for (SmallSeason* season : {&plain, &informed}) {
    season->temperature(7, 8);
    season->eggs(8);
  }
  for (int day = 9; day < 40; ++day) informed.temperature(day, 12);
  const auto before = look_at(plain, 8), after = look_at(informed, 40);
  ASSERT_TRUE(hatch_of(before).window && hatch_of(after).window);
  EXPECT_EQ(hatch_of(before).window->median, hatch_of(after).window->median);
  EXPECT_EQ(hatch_of(after).foretold_on, day_of(8));
}

TEST(ReportLook, SaysWhetherASightingLiesInsideWhatWasForetold) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8);
  const auto window = *hatch_of(look_at(season, 8)).window;
  EXPECT_EQ(hatch_of(look_at(season, 8)).fit, Foretold::Fit::not_seen);
  const int median = static_cast<int>((biology::day_of(window.median) - day_of(0)).count()), late = static_cast<int>((biology::day_of(window.high_90) - day_of(0)).count()) + 2;
  SmallSeason inside = season, later = season;
  inside.add(median, seen(records::Milestone::Which::half_hatched));
  later.add(late, seen(records::Milestone::Which::half_hatched));
  EXPECT_EQ(hatch_of(look_at(inside, median)).fit, Foretold::Fit::inside);
  EXPECT_EQ(hatch_of(look_at(inside, median)).seen, day_of(median));
  EXPECT_EQ(hatch_of(look_at(later, late)).fit, Foretold::Fit::later);
}

TEST(ReportLook, KeepsTheRipeningFilterApartFromTheWaterOfAnimals) {
  SmallSeason season;
  season.step(3, "nitrite", 0.8);
  season.eggs(8);
  season.step(9, "nitrite", 0.05);
  season.step(16, "nitrite", 0.1);
  const auto look = look_at(season, 17);
  ASSERT_EQ(look.water.size(), 2u);
  EXPECT_FALSE(look.water[0].with_animals);
  EXPECT_TRUE(look.water[1].with_animals);
  EXPECT_EQ(look.water[1].sittings, 2);
  EXPECT_LT(look.water[1].highest.value.high, look.water[0].lowest.value.mid);
  EXPECT_EQ(look.water[1].last, day_of(16));
}

TEST(ReportLook, MonthsCountOnlyDaysSomebodyMeasured) {
  SmallSeason season;
  season.temperature(1, 8);
  season.temperature(2, 9);
  season.temperature(30, 10);
  const auto look = look_at(season, 31);
  ASSERT_EQ(look.months.size(), 2u);
  EXPECT_EQ(look.months[0].measured, 2);
  EXPECT_EQ(look.months[0].days, 26);
  EXPECT_NEAR(look.months[0].mean->mid.c(), 8.5, 0.2);
  EXPECT_EQ(look.months[1].measured, 1);
}

TEST(ReportLook, CountsWorkLabelsDutyAndMendedEntries) {
  SmallSeason season;
  season.eggs(8);
  season.add(8, records::Duty{"Weekend rota", day_of(9), day_of(10)});
  const auto slip = season.add(9, records::WaterChange{.volume = Volume::from_l(400)});
  season.add(9, records::Undo{slip}, 9);
  season.add(10, records::WaterChange{.volume = Volume::from_l(40)});
  season.add(11, records::EquipmentEvent{records::EquipmentEvent::Equipment::chiller, records::EquipmentEvent::Event::failed});
  season.add(12, records::Release{50, "Brook"});
  const auto look = look_at(season, 12);
  EXPECT_EQ(look.work.changes, 1);
  EXPECT_EQ(look.work.changed.l(), 40);
  EXPECT_EQ(look.mended, 1);
  EXPECT_EQ(look.incidents.size(), 1u);
  EXPECT_EQ(look.releases.size(), 1u);
  ASSERT_EQ(look.keepers.size(), 2u);
  EXPECT_EQ(look.keepers[0].label, "Team Otter");
  EXPECT_EQ(look.keepers[1].duty_days, 2);
}

}  // namespace
}  // namespace redd::season
