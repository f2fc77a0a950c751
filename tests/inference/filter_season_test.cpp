#include "inference/filter_season.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_season.h"

namespace redd::inference {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using records::SeasonSetup;

SeasonSetup& setup_of(SmallSeason& season) { return std::get<SeasonSetup>(season.log().front().entry.body); }

FilterCase case_on(const SmallSeason& season, int day, int hour = 12) {
  const Instant now = on_day(day, hour);
  const auto known = records::effective(season.log(), now);
  const SeasonSetup& setup = *records::find_season(known);
  const ZoneOffsets zone;
  return filter_case(setup, known, estimate(setup, known, zone, now), zone, now);
}

template <class What>
std::vector<double> days_of(const FilterCase& c) {
  std::vector<double> days;
  for (const FilterEvent& event : c.season.events)
    if (std::holds_alternative<What>(event.what)) days.push_back(event.at_day);
  return days;
}

double mg_n_per_l_fed_after(const FilterCase& c, double day) {
  double sum = 0;
  for (const FilterEvent& event : c.season.events)
    if (const auto* dose = std::get_if<tank::Dose>(&event.what); dose && event.at_day > day) sum += dose->ammonium_chloride_mg_n / c.season.volume_l;
  return sum;
}

TEST(FilterSeason, TestsOfADayAreOneSitting) {
  SmallSeason season;
  season.quiet_tests(7);
  season.step(14, "nitrite", 0.1, 9);
  season.step(14, "ammonia", 0.2, 15);
  const FilterCase c = case_on(season, 20);
  ASSERT_EQ(c.season.sittings.size(), 2u);
  EXPECT_NEAR(c.season.sittings[0].at_day, 7 + 8 / 24.0, 1e-9);
  EXPECT_EQ(c.season.sittings[0].tests.size(), 6u);
  EXPECT_EQ(c.season.sittings[1].tests.size(), 2u);
}

TEST(FilterSeason, AWaterChangeBetweenTestsMakesTwoSittings) {
  SmallSeason season;
  season.step(7, "nitrite", 0.4, 9);
  season.add(7, records::WaterChange{Volume::from_l(50)}, 10);
  season.step(7, "nitrite", 0.2, 11);
  const FilterCase c = case_on(season, 8);
  ASSERT_EQ(c.season.sittings.size(), 2u);
  ASSERT_EQ(days_of<WaterChanged>(c).size(), 1u);
  EXPECT_GT(days_of<WaterChanged>(c).front(), c.season.sittings[0].at_day);
  EXPECT_LT(days_of<WaterChanged>(c).front(), c.season.sittings[1].at_day);
}

TEST(FilterSeason, TeamsShareATest) {
  SmallSeason season;
  for (const char* team : {"Team Otter", "Team Newt"}) {
    auto reading = SmallSeason::reading("nitrite", records::Reading::Form::step, 0.1);
    reading.team = team;
    season.add(7, reading);
  }
  const FilterCase c = case_on(season, 8);
  ASSERT_EQ(c.season.sittings.size(), 1u);
  ASSERT_EQ(c.season.sittings[0].tests.size(), 1u);
  EXPECT_EQ(c.season.sittings[0].tests[0].readings.size(), 2u);
  EXPECT_EQ(c.season.sittings[0].tests[0].records.size(), 2u);
}

TEST(FilterSeason, DosesAreTakenByTheirMolarMasses) {
  SmallSeason season;
  season.add(3, records::Dose{records::Substance::ammonium_chloride, Mass::from_g(1.0)});
  season.add(4, records::Dose{records::Substance::sodium_bicarbonate, Mass::from_g(8.4007)});
  season.add(5, records::Dose{records::Substance::other, Mass::from_g(1.0), "something"});
  const FilterCase c = case_on(season, 6);
  ASSERT_EQ(c.season.events.size(), 2u);
  EXPECT_NEAR(std::get<tank::Dose>(c.season.events[0].what).ammonium_chloride_mg_n, 1000.0 * 14.007 / 53.49, 0.1);
  EXPECT_NEAR(std::get<tank::Dose>(c.season.events[1].what).bicarbonate_meq, 100.0, 0.01);
  EXPECT_TRUE(std::ranges::any_of(c.assumed, [](const Sentence& s) { return s.pattern.find("does not know") != std::string::npos; }));
}

TEST(FilterSeason, FilterWorkCostsOrBringsBacteria) {
  SmallSeason season;
  using records::FilterWork;
  season.add(3, FilterWork{FilterWork::Work::rinsed, 0.5});
  season.add(4, FilterWork{FilterWork::Work::media_replaced, 0.25});
  season.add(5, FilterWork{FilterWork::Work::seeded, {}});
  const FilterCase c = case_on(season, 6);
  ASSERT_EQ(c.season.events.size(), 3u);
  EXPECT_DOUBLE_EQ(std::get<FilterLost>(c.season.events[0].what).lost_fraction, 0.5 * rinse_loss_fraction);
  EXPECT_DOUBLE_EQ(std::get<FilterLost>(c.season.events[1].what).lost_fraction, 0.25);
  EXPECT_GT(std::get<FilterSeeded>(c.season.events[2].what).share_fraction, 0.0);
}

TEST(FilterSeason, TheTankIsColdTwoDaysBeforeTheEggs) {
  SmallSeason season;
  setup_of(season).egg_day = setup_of(season).first_day + std::chrono::days(60);
  season.add(1, records::SetPoint{Temperature::from_c(23)});
  season.temperature(10, 23);
  const FilterCase c = case_on(season, 10);
  EXPECT_NEAR(c.season.forcing.days[30].temperature_c, 23.0, 0.6);
  EXPECT_NEAR(c.season.forcing.days[59].temperature_c, 8.0, 1e-9);
  for (std::size_t d = 11; d < 70; ++d)  // and never chilled faster than a degree a day
    EXPECT_GE(c.season.forcing.days[d].temperature_c, c.season.forcing.days[d - 1].temperature_c - 1.0 - 1e-9) << d;
}

TEST(FilterSeason, TheRoutineGoesOnUntilTheEggs) {
  SmallSeason season;
  setup_of(season).egg_day = setup_of(season).first_day + std::chrono::days(60);
  const records::Dose dose{records::Substance::ammonium_chloride, Mass::from_g(1.0)};
  for (const int day : {2, 9, 16, 23}) season.add(day, dose);
  const FilterCase c = case_on(season, 24);
  const double week = 4.0 * 1000.0 * 14.007 / 53.49 / 200.0 / 4.0;
  EXPECT_NEAR(mg_n_per_l_fed_after(c, c.now_day), 4 * week, 4 * week * 0.01);  // days 31, 38, 45, 52: the last more than three days before the eggs
  EXPECT_LT(days_of<tank::Dose>(c).back(), 57.0);
}

TEST(FilterSeason, ASingleDoseIsNoRoutine) {
  SmallSeason season;
  season.add(9, records::Dose{records::Substance::ammonium_chloride, Mass::from_g(1.0)});
  const FilterCase c = case_on(season, 24);
  EXPECT_EQ(mg_n_per_l_fed_after(c, c.now_day), 0.0);
}

TEST(FilterSeason, NoAmmoniaIsPlannedWithAnimalsInTheTank) {
  SmallSeason season;
  const records::Dose dose{records::Substance::ammonium_chloride, Mass::from_g(1.0)};
  for (const int day : {12, 16, 20}) season.add(day, dose);
  season.eggs(22);
  EXPECT_EQ(mg_n_per_l_fed_after(case_on(season, 24), 24.0), 0.0);
}

TEST(FilterSeason, EggsBringLoadFromTheDayTheyComeAndTheDeadBringNone) {
  SmallSeason season;
  season.temperature(10, 8);
  season.eggs(20);
  const FilterCase all = case_on(season, 40);
  EXPECT_EQ(all.season.forcing.days[19].excretion_mg_n_per_day, 0.0);
  EXPECT_GT(all.season.forcing.days[21].excretion_mg_n_per_day, 0.0);
  ASSERT_TRUE(all.hatch && all.swim_up);
  EXPECT_LT(*all.hatch, *all.swim_up);
  EXPECT_GT(all.season.forcing.days[static_cast<std::size_t>(all.until_day) - 1].organic_mg_n_per_day, 0.0);  // fed fry
  season.add(30, records::Count{records::Count::What::dead_eggs, 100});
  const FilterCase half = case_on(season, 40);
  EXPECT_NEAR(half.season.forcing.days[35].excretion_mg_n_per_day, 0.5 * all.season.forcing.days[35].excretion_mg_n_per_day, 1e-9);
  EXPECT_EQ(half.season.forcing.days[25].excretion_mg_n_per_day, all.season.forcing.days[25].excretion_mg_n_per_day);
}

TEST(FilterSeason, TheBroodToComeLoadsTheWaterAsItsCourseSays) {
  // Whoever carries the brood on from its course must come to the same load as the season itself.
  SmallSeason season;
  season.temperature(1, 8);
  season.eggs(3);
  const FilterCase c = case_on(season, 20);
  ASSERT_TRUE(c.brood && c.swim_up);
  EXPECT_EQ(c.alive, 200.0);
  const Date first = std::get<SeasonSetup>(season.log().front().entry.body).first_day;
  double fry_g = c.fry_mass_now_g;
  for (std::size_t i = 21; i < c.season.forcing.days.size(); ++i) {
    tank::DayForcing alone;
    alone.temperature_c = c.season.forcing.days[i].temperature_c;
    const tank::Brood brood = c.brood->on(first + std::chrono::days(i), c.alive, fry_g, std::nullopt);
    if (brood.stage == tank::Stage::fry) fry_g += grown_by_food_g(brood);
    tank::add_brood(alone, brood);
    ASSERT_NEAR(alone.excretion_mg_n_per_day, c.season.forcing.days[i].excretion_mg_n_per_day, 1e-9) << i;
    ASSERT_NEAR(alone.organic_mg_n_per_day, c.season.forcing.days[i].organic_mg_n_per_day, 1e-9) << i;
  }
}

TEST(FilterSeason, LoggedFoodStandsForTheUsualRation) {
  SmallSeason season;
  season.temperature(1, 8);
  season.eggs(2, 430);
  season.add(40, records::Milestone{records::Milestone::Which::half_swim_up});
  for (int day = 41; day < 60; ++day) season.add(day, records::Feeding{Mass::from_g(5)});
  const FilterCase c = case_on(season, 60);
  ASSERT_TRUE(c.swim_up);
  const auto& fed = c.season.forcing.days[55];
  EXPECT_NEAR(fed.organic_mg_n_per_day, 5000.0 * 0.5 * 0.16 * (0.1 + 0.09), 1.0);  // tank::organic_mg_n_per_day() of 5 g
}

TEST(FilterSeason, LoggedFoodGoesOnAsItsShareOfTheFish) {
  // The same fish, fed half and fed twice as much in the last week: the days to come follow; food of long ago says nothing.
  const auto to_come = [](double g, int last_fed) {
    SmallSeason season;
    season.temperature(1, 8);
    season.eggs(2, 430);
    season.add(40, records::Milestone{records::Milestone::Which::half_swim_up});
    for (int day = 41; day < 53; ++day) season.add(day, records::Feeding{Mass::from_g(0.5)});
    for (int day = 53; day <= last_fed; ++day) season.add(day, records::Feeding{Mass::from_g(g)});
    const FilterCase c = case_on(season, 60);
    return c.season.forcing.days[61].organic_mg_n_per_day;
  };
  EXPECT_GT(to_come(0.8, 59), 1.6 * to_come(0.4, 59));
  EXPECT_LT(to_come(0.8, 59), 2.4 * to_come(0.4, 59));
  EXPECT_GT(to_come(40, 59), to_come(0.8, 59));
  EXPECT_LT(to_come(40, 59), 40000.0 * 0.5 * 0.16 * (0.1 + 0.09)) << "uneaten food is not taken to go on";
  SmallSeason unfed;
  unfed.temperature(1, 8);
  unfed.eggs(2, 430);
  unfed.add(40, records::Milestone{records::Milestone::Which::half_swim_up});
  const FilterCase usual = case_on(unfed, 60);
  EXPECT_GT(usual.season.forcing.days[61].organic_mg_n_per_day, 0.0);
  EXPECT_TRUE(std::ranges::none_of(usual.assumed, [](const Sentence& s) { return s.pattern.find("as logged") != std::string::npos; }));
}

TEST(FilterSeason, FoodThatIsHardlyEatenIsNotSaidToGoOn) {
  const auto says = [](double g, std::string_view words) {
    SmallSeason season;
    season.temperature(1, 8);
    season.eggs(2, 430);
    season.add(40, records::Milestone{records::Milestone::Which::half_swim_up});
    for (int day = 53; day < 60; ++day) season.add(day, records::Feeding{Mass::from_g(g)});
    const FilterCase c = case_on(season, 60);
    return std::ranges::any_of(c.assumed, [&](const Sentence& s) { return s.pattern.find(words) != std::string::npos; });
  };
  EXPECT_TRUE(says(0.5, "Food goes on as logged"));
  EXPECT_FALSE(says(0.5, "More food was logged"));
  EXPECT_TRUE(says(40, "More food was logged")) << "more than 6 % of the fish's mass a day";
  EXPECT_FALSE(says(40, "Food goes on as logged"));
}

TEST(FilterSeason, TestsOfOneMinuteStandAroundTheChangeAsWritten) {
  SmallSeason season;
  season.step(7, "nitrite", 0.4, 10);
  season.step(7, "ammonia", 0.4, 10);
  season.add(7, records::WaterChange{Volume::from_l(100)}, 10);
  season.step(7, "nitrite", 0.2, 10);
  season.step(7, "ammonia", 0.2, 10);
  season.add(7, records::WaterChange{Volume::from_l(50)}, 10);
  const FilterCase c = case_on(season, 8);
  ASSERT_EQ(c.season.sittings.size(), 2u);
  const auto changes = days_of<WaterChanged>(c);
  ASSERT_GE(changes.size(), 2u);  // and those of the weeks to come, as a routine
  EXPECT_LE(c.season.sittings[0].at_day, changes[0]);
  EXPECT_LT(changes[0], c.season.sittings[1].at_day);
  EXPECT_LE(c.season.sittings[1].at_day, changes[1]);
  for (const FilterSitting& sitting : c.season.sittings) EXPECT_EQ(sitting.tests.size(), 2u);
  // And the model comes to the second sitting through the change.
  const SeasonModel model(c.season);
  const numerics::ParticleTable middle(model.dimension(), 1);
  auto path = model.start(middle);
  model.go_to(path, middle, c.season.sittings[0].at_day, false);
  EXPECT_EQ(path.next_event, 0u);
  model.go_to(path, middle, c.season.sittings[1].at_day, false);
  EXPECT_EQ(path.next_event, 1u);
}

TEST(FilterSeason, ItIsToldForTheFullHourAndNotBeforeTheLastTest) {
  SmallSeason season;
  season.step(7, "nitrite", 0.1, 9);
  EXPECT_NEAR(case_on(season, 7, 9).now_day, 7 + 9 / 24.0, 1e-9);
  const Instant later = on_day(7, 9) + std::chrono::minutes(50);
  const auto known = records::effective(season.log(), later);
  const SeasonSetup& setup = *records::find_season(known);
  EXPECT_NEAR(filter_case(setup, known, estimate(setup, known, {}, later), {}, later).now_day, 7 + 9 / 24.0, 1e-9);
}

TEST(FilterSeason, ATopUpReplacesWhatEvaporatedSinceTheLastOne) {
  SmallSeason season;
  season.add(10, records::TopUp{Volume::from_l(4)});
  season.add(14, records::TopUp{Volume::from_l(2)});
  const auto found = case_on(season, 16);
  double lost_l = 0.0, added_l = 0.0;
  for (std::size_t d = 0; d < 15; ++d) lost_l += found.season.forcing.days[d].evaporation_l_per_day;
  for (const auto& event : found.season.events)
    if (const auto* added = std::get_if<WaterAdded>(&event.what)) added_l += added->volume_l;
  EXPECT_NEAR(lost_l, 6.0, 1e-9);
  EXPECT_NEAR(added_l, 6.0, 1e-9);
  EXPECT_NEAR(found.season.forcing.days[12].evaporation_l_per_day, 0.5, 1e-9);
  EXPECT_EQ(found.season.forcing.days[15].evaporation_l_per_day, 0.0);
}

TEST(FilterSeason, WhatIsPastStaysWhenAReadingIsAdded) {
  SmallSeason season;
  for (const int day : {7, 14, 21}) season.quiet_tests(day);
  const FilterCase before = case_on(season, 22);
  season.quiet_tests(28);
  const FilterCase after = case_on(season, 29);
  ASSERT_EQ(after.season.sittings.size(), 4u);
  EXPECT_EQ(fingerprint(before.season, 1), fingerprint(after.season, 1));
}

}  // namespace
}  // namespace redd::inference
