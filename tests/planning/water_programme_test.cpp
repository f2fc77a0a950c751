#include "planning/water_programme.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "planning/detail/water_search.h"
#include "planning/water_change.h"
#include "support/water_season.h"
#include "tank/conditions.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

WaterProgramme of(const SmallSeason& season, int day) {
  const auto made = asked_water(season, day);
  const auto found = water_programme(made->asked());
  require(found.has_value(), "water_programme_test", "no programme");
  return *found;
}

SmallSeason with_nitrate(double mg_no3_per_l) {
  auto season = ripe_season();
  season.step(56, "nitrate", mg_no3_per_l);
  season.step(56, "ammonia", 0);
  season.step(56, "nitrite", 0);
  season.step(56, "ph", 7.2);
  return season;
}

double total(const WaterAlternative& a) { return a.total.l(); }

TEST(WaterProgramme, CalmWaterNeedsNoChange) {
  auto season = ripe_season();
  for (auto& record : season.log())  // a brood this filter carries without a doubt
    if (auto* eggs = std::get_if<records::EggReceipt>(&record.entry.body)) eggs->count = 20;
  const auto p = of(season, 56);
  EXPECT_TRUE(p.programme.changes.empty());
  EXPECT_TRUE(p.reached);
  EXPECT_FALSE(p.helps);
  EXPECT_LE(p.none.forecast.broken_probability, 0.05);
}

TEST(WaterProgramme, NitrateBeyondItsMarkIsBroughtDownByChanges) {
  const auto p = of(with_nitrate(40), 56);
  EXPECT_GT(p.none.forecast.broken_probability, 0.8);
  EXPECT_EQ(p.none.forecast.first, WaterLimitKind::nitrate);
  ASSERT_FALSE(p.programme.changes.empty());
  EXPECT_LT(p.programme.forecast.exposure, p.none.forecast.exposure - 0.2);
}

TEST(WaterProgramme, WhatCannotBeKeptFromTheStartIsKeptAgainSoon) {
  // Far above its mark: whatever is changed, the first day is beyond it. Changes must be planned all the same.
  auto season = with_nitrate(40);
  season.between(57, "nitrate", 40, 80);
  for (auto& record : season.log())
    if (auto* eggs = std::get_if<records::EggReceipt>(&record.entry.body)) eggs->count = 20;
  const auto p = of(season, 57);
  EXPECT_FALSE(p.reached);
  ASSERT_FALSE(p.programme.changes.empty());
  EXPECT_FALSE(p.none.forecast.kept_from_day);
  ASSERT_TRUE(p.programme.forecast.kept_from_day);
  EXPECT_LT(*p.programme.forecast.kept_from_day, p.now_day + 12.0);
  EXPECT_NE(p.headline.pattern.find("from the start"), std::string::npos);
}

TEST(WaterProgramme, IsSmallerThanWhateverElseHoldsOfItsRhythms) {
  auto season = with_nitrate(20);
  const auto asked = asked_water(season, 56);
  const auto made = water_case(asked->asked());
  const auto p = *water_programme(made);
  ASSERT_TRUE(p.reached);
  if (p.programme.changes.empty()) return;
  for (std::size_t i = 0; i < p.programme.changes.size(); ++i) {  // no change can be left out
    std::vector<WaterDeed> fewer;
    for (std::size_t j = 0; j < p.programme.changes.size(); ++j)
      if (j != i) fewer.push_back(deed_of(p.programme.changes[j]));
    EXPECT_GT(forecast_water(made.tanks, made.course(), fewer).broken_probability, 1.0 - searched_safe_probability);
  }
}

TEST(WaterProgramme, ChangesOnOpenDaysOnlyAndNeverTwoADay) {
  auto season = with_nitrate(40);
  const Date first = std::get<records::SeasonSetup>(season.log().front().entry.body).first_day;
  season.add(50, records::Closure{.name = "Mid-term break", .from = first + std::chrono::days(59), .to = first + std::chrono::days(66)});
  const auto p = of(season, 56);
  ASSERT_FALSE(p.programme.changes.empty());
  std::optional<Date> last;
  const records::SchoolCalendar school(season.log());
  for (const auto& change : p.programme.changes) {
    EXPECT_TRUE(school.is_open(change.day));
    if (last) {
      EXPECT_GE(change.day - *last, std::chrono::days(2));
    }
    last = change.day;
    EXPECT_GT(change.day, p.today);  // new water stands a day first
  }
  EXPECT_TRUE(std::ranges::any_of(p.cautions, [](const Sentence& s) { return s.pattern.find("closed for") != std::string::npos; }));
}

TEST(WaterProgramme, UsualChangeIsTheSeasonsOwnOrSaidToBeAssumed) {
  auto season = ripe_season();
  const auto assumed = of(season, 56);
  EXPECT_TRUE(assumed.usual_assumed);
  EXPECT_DOUBLE_EQ(assumed.usual_fraction, 0.2);
  std::get<records::SeasonSetup>(season.log().front().entry.body).usual_change_fraction = 0.1;
  const auto own = of(season, 56);
  EXPECT_FALSE(own.usual_assumed);
  ASSERT_FALSE(own.usual.changes.empty());
  for (const auto& change : own.usual.changes) EXPECT_DOUBLE_EQ(change.fraction, 0.1);
  EXPECT_GT(total(assumed.usual), total(own.usual));
}

TEST(WaterProgramme, TapWaterUnlikeTheTanksCapsEachChange) {
  auto season = with_nitrate(40);
  EXPECT_DOUBLE_EQ(of(season, 56).largest_fraction, 0.5);
  tap_of(season).alkalinity = Alkalinity::from_german_degrees(12);
  const auto p = of(season, 56);
  EXPECT_LT(p.largest_fraction, 0.35);
  EXPECT_GT(p.largest_fraction, 0.0);
  EXPECT_TRUE(p.cap.has_value());
  for (const auto& change : p.programme.changes) EXPECT_LE(change.fraction, p.largest_fraction + 1e-9);
}

TEST(WaterProgramme, WaterThatBringsTheTroubleIsNotPlanned) {
  auto season = with_nitrate(40);
  tap_of(season).nitrate = NitrogenConc::from_mg_no3_per_l(60);
  const auto p = of(season, 56);
  EXPECT_TRUE(p.programme.changes.empty());
  EXPECT_FALSE(p.reached);
  EXPECT_TRUE(std::ranges::any_of(p.cautions, [](const Sentence& c) { return c.pattern.find("itself holds") != std::string::npos; }));
}

TEST(PlannedChange, ComesWithDoseStandingAndPouring) {
  auto season = ripe_season();
  tap_of(season).chlorine_mg_per_l = 2.0;
  tap_of(season).chloramine = true;
  tap_of(season).temperature = Temperature::from_c(3);
  const auto asked = asked_water(season, 56);
  const auto made = water_case(asked->asked());
  for (const double fraction : {0.1, 0.3, 0.5}) {
    const auto change = planned_change(made, made.noon_of(made.open_days.front()), fraction, false);
    ASSERT_TRUE(change.thiosulfate);
    EXPECT_NEAR(change.thiosulfate->mg(), 7.0 * 2.0 * change.volume.l(), 0.02 * change.thiosulfate->mg());
    EXPECT_NEAR(change.freed_ammonia_mg_n_per_l, fraction * 0.395, 0.002);
    EXPECT_TRUE(change.must_stand);
    EXPECT_GT(*change.gas_as_it_comes, 1.1);
    EXPECT_EQ(change.temper.as_it_comes, fraction * 5.0 <= untempered_step.c());
    EXPECT_GE(change.refill_minutes, 15);
  }
}

TEST(WaterProgramme, ChloramineThatFeedsNitriteIsWeighedAgainstWhatAChangeMends) {
  auto season = with_nitrate(40);
  tap_of(season).chlorine_mg_per_l = 4.0;
  tap_of(season).chloramine = true;
  const auto p = of(season, 56);
  const auto k = static_cast<std::size_t>(WaterLimitKind::nitrite);
  EXPECT_LE(p.programme.forecast.by_limit[k], p.none.forecast.by_limit[k] + 0.03 + 1e-9);
}

TEST(WaterProgramme, NothingIsPlannedForAReleasedBroodOrAnEmptyTank) {
  SmallSeason empty;
  empty.quiet_tests(5);
  const auto p = of(empty, 6);
  EXPECT_FALSE(p.limits_from);
  EXPECT_TRUE(p.programme.changes.empty());
  auto season = ripe_season();
  season.add(56, records::Release{200, "the brook", std::nullopt, std::nullopt});
  EXPECT_FALSE(water_programme(asked_water(season, 57)->asked()));
}

TEST(WaterProgramme, AmmoniaThatRipensTheFilterIsGoneByEggDay) {
  SmallSeason season;
  auto& setup = std::get<records::SeasonSetup>(season.log().front().entry.body);
  setup.egg_day = setup.first_day + std::chrono::days(20);
  setup.egg_count = 200;
  season.add(8, records::Dose{records::Substance::ammonium_chloride, Mass::from_g(2.0)}, 9);
  season.step(12, "ammonia", 3.2);
  season.step(12, "nitrite", 0);
  season.step(12, "ph", 7.6);
  season.drops(12, "kh", 6);
  const auto p = of(season, 13);
  ASSERT_TRUE(p.limits_from);
  EXPECT_GT(p.none.forecast.broken_probability, 0.5);
  EXPECT_GE(*p.none.forecast.first_early_day, 20.0 - 1e-9);  // before the eggs it is food
  EXPECT_LT(p.programme.forecast.exposure, p.none.forecast.exposure);
}

TEST(WaterProgramme, VacuumsUnderFryOnly) {
  const auto p = of(with_nitrate(40), 56);
  for (const auto& change : p.programme.changes) EXPECT_FALSE(change.vacuum);
}

TEST(WaterProgramme, OldReadingsAreSaidToBeOld) {
  EXPECT_FALSE(of(ripe_season(), 56).stale);
  const auto p = of(ripe_season(), 75);
  EXPECT_TRUE(p.stale);
  EXPECT_TRUE(std::ranges::any_of(p.cautions, [](const Sentence& s) { return s.pattern.find("test first") != std::string::npos; }));
}

/// The programme on top of what a list asks.
WaterProgramme on_list(const SmallSeason& season, int day, const AskedToday& asked_today) {
  const auto asked = asked_water(season, day);
  auto made = water_case(asked->asked());
  made.asked_today = asked_today;
  const auto found = water_programme(made);
  require(found.has_value(), "water_programme_test", "no programme");
  return *found;
}

Date day_of_season(int day) { return local_day({}, on_day(day, 12)); }

TEST(WaterProgramme, BeginsWithWhatTodaysListAsks) {
  const auto season = with_nitrate(40);
  for (const double part : {0.15, 0.35}) {
    AskedToday asked;
    asked.change = {part, day_of_season(57)};
    const auto p = on_list(season, 56, asked);
    ASSERT_FALSE(p.programme.changes.empty());
    const PlannedChange& first = p.programme.changes.front();
    EXPECT_TRUE(first.asked_today);
    EXPECT_GE(first.fraction, part - 1e-9);
    EXPECT_LE(first.day, day_of_season(57));
    for (std::size_t i = 1; i < p.programme.changes.size(); ++i) {
      EXPECT_FALSE(p.programme.changes[i].asked_today);
      EXPECT_GE(p.programme.changes[i].day, first.day + std::chrono::days(fewest_days_between));
    }
    EXPECT_TRUE(p.cautions.front().pattern.starts_with("Today's list asks for this first"));
    EXPECT_LT(p.programme.forecast.exposure, p.none.forecast.exposure);
  }
}

TEST(WaterProgramme, AListsChangeThatIsEnoughStandsAlone) {
  auto season = with_nitrate(10);
  for (auto& record : season.log())
    if (auto* eggs = std::get_if<records::EggReceipt>(&record.entry.body)) eggs->count = 20;
  AskedToday asked;
  asked.change = {0.3, day_of_season(60)};
  const auto p = on_list(season, 56, asked);
  ASSERT_EQ(p.programme.changes.size(), 1u);
  EXPECT_TRUE(p.reached);
  EXPECT_TRUE(p.headline.pattern.starts_with("The change that today's list asks for")) << p.headline.pattern;
  EXPECT_EQ(p.programme.changes.front().day, day_of_season(60));
}

TEST(WaterProgramme, AddsNoMoreThanItWouldWithoutTheList) {
  const auto season = with_nitrate(40);
  const auto alone = of(season, 56);
  ASSERT_FALSE(alone.programme.changes.empty());
  AskedToday asked;
  asked.change = {0.3, alone.programme.changes.front().day};
  const auto p = on_list(season, 56, asked);
  EXPECT_LE(p.programme.forecast.exposure, alone.programme.forecast.exposure + 0.1);
}

TEST(WaterProgramme, KeepsBigChangesApartFromOtherWorkOfTheList) {
  auto season = with_nitrate(40);
  season.between(57, "nitrate", 40, 80);
  const auto free = of(season, 57);
  ASSERT_FALSE(free.programme.changes.empty());
  ASSERT_TRUE(std::ranges::any_of(free.programme.changes, [](const auto& c) { return c.fraction >= 0.4; }));
  AskedToday asked;
  asked.apart.push_back({day_of_season(57), day_of_season(85), 0.4});
  const auto p = on_list(season, 57, asked);
  ASSERT_FALSE(p.programme.changes.empty());
  for (const auto& c : p.programme.changes) EXPECT_LT(c.fraction, 0.4);
}

TEST(WaterProgramme, GoesByTheSetPointThatIsAsked) {
  const auto made = asked_water(ripe_season(), 56);
  const auto moved = with_set_point(made->now, {day_of_season(57), Temperature::from_c(11)}, made->zone);
  const auto at = [](const inference::FilterCase& now, double day) { return tank::temperature_c_at(now.season.forcing, day); };
  EXPECT_DOUBLE_EQ(at(moved, made->now.now_day), at(made->now, made->now.now_day));
  EXPECT_NEAR(at(moved, 70), 11.0, 1e-9);
  for (double day = 57; day < 70; day += 1.0) EXPECT_LE(std::abs(at(moved, day + 1.0) - at(moved, day)), 1.0 + 1e-9);
}

}  // namespace
}  // namespace redd::planning
