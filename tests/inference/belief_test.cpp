#include "inference/belief.h"

#include <gtest/gtest.h>

#include "chemistry/ammonia.h"
#include "support/small_season.h"

namespace redd::inference {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;

TEST(Belief, AWaterChangeDilutesWhatWasReadBeforeIt) {
  SmallSeason season;
  season.quiet_tests(7);
  season.step(7, "nitrate", 40);
  records::WaterChange change;
  change.volume = Volume::from_l(50);
  season.add(8, change);
  const auto& no3 = *season.look(8).belief.find(Quantity::nitrate);
  const double source = NitrogenConc::from_mg_no3_per_l(2).mg_n_per_l();
  EXPECT_NEAR(no3.value.mid, 0.75 * no3.as_read.mid + 0.25 * source, 1e-12);
  EXPECT_EQ(no3.value.support, Support::inferred);
  EXPECT_EQ(no3.adjustments.size(), 1U);
}

TEST(Belief, WaterForToppingUpIsNotTakenForTheWaterToChangeWith) {
  SmallSeason season;
  records::SourceWater distilled;
  distilled.key = distilled.name = "distilled";
  distilled.hardness = Hardness::from_meq_per_l(0);
  season.add(2, distilled);
  EXPECT_EQ(season.look(3).belief.source->key, "distilled");  // nobody has said what it is for
  season.add(3, records::TopUp{Volume::from_l(2), "distilled"});
  EXPECT_EQ(season.look(4).belief.source->key, "tap");
  season.add(5, records::WaterChange{.volume = Volume::from_l(10), .source_water = "distilled"});
  EXPECT_EQ(season.look(6).belief.source->key, "distilled");  // the keeper has
}

TEST(Belief, ATopUpDilutesNothingAndLeavesItsSaltsBehind) {
  SmallSeason season;
  season.drops(3, "gh", 8);
  season.step(3, "nitrate", 20);
  const auto before = season.look(3).belief;
  season.add(4, records::TopUp{Volume::from_l(10)});
  const auto after = season.look(4).belief;
  const double added = 0.05 * Hardness::from_german_degrees(4).meq_per_l();
  EXPECT_NEAR(after.find(Quantity::hardness)->value.high, before.find(Quantity::hardness)->value.high + added, 1e-9);
  EXPECT_GT(after.find(Quantity::hardness)->value.mid, before.find(Quantity::hardness)->value.mid);
  EXPECT_GE(after.find(Quantity::nitrate)->value.high, before.find(Quantity::nitrate)->value.high);  // a water change would have lowered it
}

TEST(Belief, AWaterChangeBeforeTheReadingChangesNothing) {
  SmallSeason season;
  records::WaterChange change;
  change.volume = Volume::from_l(50);
  season.add(6, change);
  season.quiet_tests(7);
  const auto& no3 = *season.look(8).belief.find(Quantity::nitrate);
  EXPECT_DOUBLE_EQ(no3.value.mid, no3.as_read.mid);
  EXPECT_TRUE(no3.adjustments.empty());
}

TEST(Belief, BeforeAndAfterAChangeAreTwoSittingsOfOneDay) {
  SmallSeason season;
  season.step(3, "nitrite", 0.8, 8);
  auto same_water = season;
  same_water.step(3, "nitrite", 0, 11);
  EXPECT_TRUE(same_water.look(3).belief.find(Quantity::nitrite)->disagree);
  records::WaterChange change;
  change.volume = Volume::from_l(150);
  season.add(3, change, 9);
  season.step(3, "nitrite", 0, 11);
  const auto view = season.look(3);
  const auto* nitrite = view.belief.find(Quantity::nitrite);
  EXPECT_FALSE(nitrite->disagree);
  EXPECT_LT(nitrite->value.high, 0.1);
  EXPECT_EQ(nitrite->sittings.size(), 2u);
}

TEST(Belief, UnknownNewWaterWidensAndNeverReassures) {
  SmallSeason season;
  season.log().erase(season.log().begin() + 2);  // the tap is not described
  season.quiet_tests(7);
  season.step(7, "nitrate", 40);
  records::WaterChange change;
  change.volume = Volume::from_l(100);
  season.add(8, change);
  const auto& no3 = *season.look(8).belief.find(Quantity::nitrate);
  EXPECT_DOUBLE_EQ(no3.value.high, no3.as_read.high);
  EXPECT_LT(no3.value.low, no3.as_read.low);
}

TEST(Belief, NeutralisedChloramineLeavesItsAmmonia) {
  SmallSeason season;
  auto& tap = std::get<records::SourceWater>(season.log()[2].entry.body);
  tap.chloramine = true;
  tap.chlorine_mg_per_l = 4.0;
  season.quiet_tests(7);
  records::WaterChange change;
  change.volume = Volume::from_l(100);
  season.add(8, change);
  const auto& tan = *season.look(8).belief.find(Quantity::total_ammonia);
  // 4 mg/L as Cl2 releases 0.79 mg N/L (stoichiometry of NH2Cl: 14.007 / 70.9), half the tank gets it.
  EXPECT_NEAR(tan.value.mid, 0.5 * tan.as_read.mid + 0.5 * 0.7902, 1e-3);
}

TEST(Belief, UnIonizedAmmoniaTakesTheWorstEndsTogether) {
  SmallSeason season;
  season.quiet_tests(7);
  season.step(7, "ammonia", 0.8);
  season.step(7, "ph", 8.0);
  const auto belief = season.look(7).belief;
  const auto un = un_ionized_ammonia(belief);
  ASSERT_TRUE(un.has_value());
  const auto& tan = belief.find(Quantity::total_ammonia)->value;
  const auto& ph = belief.find(Quantity::ph)->value;
  EXPECT_NEAR(un->mg_n_per_l.high, chemistry::un_ionized(NitrogenConc::from_mg_n_per_l(tan.high), Temperature::from_c(8.5), Ph::from_ph(ph.high)).mg_n_per_l(), 1e-12);
  EXPECT_LT(un->mg_n_per_l.low, un->mg_n_per_l.mid);
}

TEST(Belief, WithoutPhTheUsualRangeStillWarns) {
  SmallSeason season;
  season.step(7, "ammonia", 3.2);
  season.temperature(7, 8);
  const auto un = un_ionized_ammonia(season.look(7).belief);
  ASSERT_TRUE(un.has_value());
  EXPECT_FALSE(un->ph_known);
  EXPECT_GT(un->mg_n_per_l.high, 0.05);
}

TEST(Belief, WhatWasLoggedLaterWasNotKnown) {
  SmallSeason season;
  season.quiet_tests(7);
  season.step(10, "nitrite", 0.8);
  EXPECT_LT(season.look(9).belief.find(Quantity::nitrite)->value.mid, 0.1);
  EXPECT_GT(season.look(10).belief.find(Quantity::nitrite)->value.mid, 0.5);
}

TEST(Belief, ACorrectionReplacesAndAnUndoRestores) {
  SmallSeason season;
  season.quiet_tests(7);
  const auto wrong = season.step(7, "nitrite", 0.8);
  auto corrected = SmallSeason::reading("nitrite", records::Reading::Form::step, 0.05);
  const auto correction = season.add(8, corrected);
  season.log().back().entry.supersedes = wrong;
  season.log().back().entry.at = on_day(7);
  EXPECT_LT(season.look(8).belief.find(Quantity::nitrite)->value.high, 0.2);
  season.add(9, records::Undo{correction});
  EXPECT_GT(season.look(9).belief.find(Quantity::nitrite)->value.high, 0.3);
}

TEST(Belief, MissingDaysOfTemperatureAreFilledWithMoreDoubt) {
  SmallSeason season;
  season.temperature(1, 8);
  season.temperature(11, 10);
  const auto view = season.look(12);
  const auto& days = view.belief.temperature.days;
  ASSERT_GT(days.size(), 12U);
  EXPECT_FALSE(days[6].measured);
  EXPECT_NEAR(days[6].mean.c(), 9.0, 1e-9);
  EXPECT_GT(days[6].sd.c(), days[1].sd.c());
}

TEST(Belief, TheSetPointLeadsTheTankNoFasterThanOneDegreeADay) {
  SmallSeason season;
  season.temperature(7, 20);
  season.add(7, records::SetPoint{Temperature::from_c(8)});
  const auto view = season.look(7);
  const auto& days = view.belief.temperature.days;
  for (std::size_t i = 8; i < 30; ++i) EXPECT_LE(std::abs((days[i].mean - days[i - 1].mean).c()), 1.0 + 1e-9);
  EXPECT_NEAR(days[25].mean.c(), 8.0, 1e-9);
}

TEST(Belief, EggsGiveAStageAndWindows) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8, 300);
  season.temperature(9, 8);
  const auto view = season.look(9);
  ASSERT_TRUE(view.belief.brood.forecast.has_value());
  EXPECT_EQ(view.belief.brood.animals, Animals::eyed_egg);
  const auto& hatch = view.belief.brood.forecast->stage(biology::Stage::hatch);
  EXPECT_LT(hatch.lot.low_90, hatch.lot.median);
  EXPECT_LT(hatch.lot.median, hatch.lot.high_90);
}

TEST(Belief, ALoneMondaySightingIsOpenToTheDaysNobodyLooked) {
  SmallSeason watched, unwatched;
  for (SmallSeason* season : {&watched, &unwatched}) {
    season->temperature(7, 8);
    season->eggs(8, 400);
  }
  records::Milestone none{records::Milestone::Which::first_hatch, false}, first{records::Milestone::Which::first_hatch, true};
  watched.add(24, none);
  for (SmallSeason* season : {&watched, &unwatched}) season->add(25, first);
  const auto width = [](const SmallSeason& s) {
    const auto& lot = s.look(25).belief.brood.forecast->stage(biology::Stage::hatch).lot;
    return (lot.high_90 - lot.low_90).count();
  };
  EXPECT_LT(width(watched), width(unwatched));
}

TEST(Belief, AfterTheReleaseNothingLives) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8);
  records::Release release;
  release.count = 196;
  release.place = "Brook";
  season.add(120, release);
  EXPECT_EQ(season.look(121).belief.brood.animals, Animals::released);
}

}  // namespace
}  // namespace redd::inference
