#include "planning/loading.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/told_filter.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

struct Asked {
  season::DayView day;
  LoadingView view;
};

struct Tank {
  int eggs = 200;
  double litres = 200, elevation_m = 0;
  std::optional<double> air_l_per_min{};
  std::optional<Date> release_from{}, release_until{};
  bool received = true;
  double thermal_sum_c_days = 300;
};

Date day_of(int day) { return local_day({}, on_day(day)); }

SmallSeason season_of(const Tank& tank) {
  SmallSeason season;
  auto& setup = std::get<SeasonSetup>(season.log().front().entry.body);
  setup.volume = Volume::from_l(tank.litres);
  setup.elevation_m = tank.elevation_m;
  setup.release_from = tank.release_from, setup.release_until = tank.release_until;
  if (!tank.received) setup.egg_day = day_of(20), setup.egg_count = tank.eggs;
  if (tank.air_l_per_min) season.add(1, TankBuild{.water_height_cm = 40, .air_l_per_min = tank.air_l_per_min});
  season.quiet_tests(7);
  if (tank.received) {
    EggReceipt eggs;
    eggs.count = tank.eggs, eggs.start = EggReceipt::Start::thermal_sum, eggs.thermal_sum = ThermalSum::from_c_days(tank.thermal_sum_c_days);
    season.add(8, eggs);
  }
  return season;
}

Asked ask(const SmallSeason& season, int on = 12, const FilterOutlook* filter = nullptr) {
  auto day = season.look(on);
  auto view = loading_view({day.season, day.records, day.belief, filter, day.zone, day.now});
  return {std::move(day), std::move(view)};
}
Asked ask(const Tank& tank, int on = 12, const FilterOutlook* filter = nullptr) { return ask(season_of(tank), on, filter); }

FilterOutlook filter_of(double mg_n_per_l_per_day) {
  auto told = told_filter(0.9, 0.9);
  told.outlook.capacity_at_target_mg_n_per_l_per_day = {0.7 * mg_n_per_l_per_day, mg_n_per_l_per_day, 1.4 * mg_n_per_l_per_day};
  return told;
}

bool offers(const LoadingView& view, LoadOptionKind kind) {
  return view.reached && std::ranges::find(view.reached->options, kind, &LoadOption::kind) != view.reached->options.end();
}
const Sentence& option(const LoadingView& view, LoadOptionKind kind) { return std::ranges::find(view.reached->options, kind, &LoadOption::kind)->what; }

TEST(Loading, TellsEveryDayFromTodayAndTheStagesInOrder) {
  const auto [day, view] = ask(Tank{});
  EXPECT_EQ(view.state, LoadingView::State::in_tank);
  ASSERT_FALSE(view.days.empty());
  EXPECT_EQ(view.days.front().day, day_of(12));
  for (std::size_t i = 1; i < view.days.size(); ++i) {
    EXPECT_EQ(*view.days[i].day - *view.days[i - 1].day, std::chrono::days(1));
    EXPECT_GE(view.days[i].stage, view.days[i - 1].stage);
    EXPECT_GE(view.days[i].each_g.mid, view.days[i - 1].each_g.mid);
  }
  EXPECT_EQ(view.days.back().stage, biology::LifeStage::fry);
  EXPECT_EQ(view.sizes.size(), 7u);
}

TEST(Loading, AnimalsAreToldInTwoDigits) {
  for (const auto& [animals, told] : {std::pair{-3.0, 0}, {7.9, 7}, {20.5, 20}, {24.0, 20}, {99.9, 95}, {117.2, 110}, {1290.0, 1200}}) EXPECT_EQ(round_animals(animals), told) << animals;
}

TEST(Loading, ANumberThatNobodySaidIsSaidToBeTaken) {
  auto season = season_of(Tank{.litres = 60, .received = false});
  std::get<SeasonSetup>(season.log().front().entry.body).egg_count.reset();
  const auto told = filter_of(5.0);
  const auto view = ask(season, 12, &told).view;
  EXPECT_TRUE(view.animals_assumed);
  ASSERT_TRUE(view.reached && !view.reached->options.empty());
  EXPECT_EQ(view.reached->options.front().kind, LoadOptionKind::fewer_eggs);
  EXPECT_TRUE(option(view, LoadOptionKind::fewer_eggs).pattern.starts_with("Nobody has said how many"));
}

TEST(Loading, WithoutTheFilterAmmoniaIsReckonedByWaterChangesAndDoesNotBind) {
  const auto view = ask(Tank{}).view;
  EXPECT_FALSE(view.filter_known);
  ASSERT_TRUE(view.by_changes_alone);
  EXPECT_EQ(view.by_changes_alone->limit, LoadLimit::ammonia);
  for (const auto& row : view.days) EXPECT_NE(row.binding, LoadLimit::ammonia);
}

TEST(Loading, AFilterThatLostTrackIsNoFilterThatIsKnown) {
  auto told = filter_of(1.0);
  told.lost_track = LostTrack{};
  EXPECT_FALSE(ask(Tank{}, 12, &told).view.filter_known);
}

TEST(Loading, AWeakFilterBindsFirstAndAStrongOneDoesNot) {
  const auto weak = filter_of(0.02), strong = filter_of(5.0);
  const auto bound = ask(Tank{.air_l_per_min = 10.0}, 12, &weak).view, free = ask(Tank{.air_l_per_min = 10.0}, 12, &strong).view;
  ASSERT_TRUE(bound.reached);
  EXPECT_EQ(bound.reached->limit, LoadLimit::ammonia);
  EXPECT_TRUE(offers(bound, LoadOptionKind::larger_filter));
  EXPECT_TRUE(!free.reached || free.reached->limit != LoadLimit::ammonia);
  EXPECT_FALSE(bound.by_changes_alone);
}

TEST(Loading, AHigherPhLeavesLessRoomForAmmonia) {
  auto low = season_of(Tank{}), high = season_of(Tank{});
  low.step(9, "ph", 6.8), high.step(9, "ph", 8.0);
  EXPECT_GT(ask(low).view.total_ammonia_limit_mg_n_per_l.mid, 5.0 * ask(high).view.total_ammonia_limit_mg_n_per_l.mid);
}

TEST(Loading, TooManyForTheRoomAreSaidAheadWithANumber) {
  const auto told = filter_of(5.0);
  const auto view = ask(Tank{.eggs = 400, .air_l_per_min = 10.0}, 12, &told).view;
  ASSERT_TRUE(view.reached);
  EXPECT_EQ(view.reached->limit, LoadLimit::space);
  EXPECT_GT(view.reached->day, day_of(12));
  EXPECT_LT(view.reached->carried, view.reached->expected);
  EXPECT_LE(view.reached->carried_then, view.reached->carried);
  EXPECT_TRUE(view.first_possible && *view.first_possible <= view.reached->day);
}

TEST(Loading, FewInMuchWaterStayWithinEveryLimit) {
  const auto told = filter_of(5.0);
  const auto view = ask(Tank{.eggs = 20, .air_l_per_min = 5.0}, 12, &told).view;
  EXPECT_FALSE(view.reached);
}

TEST(Loading, UnknownAirIsSaidAndAskedFor) {
  const auto view = ask(Tank{.eggs = 2000}).view;
  EXPECT_EQ(view.air_basis, AirBasis::assumed);
  EXPECT_TRUE(std::ranges::any_of(view.assumed, [](const Sentence& s) { return s.pattern.find("poorest small stone") != std::string::npos; }));
  if (view.reached && view.reached->limit == LoadLimit::oxygen) EXPECT_TRUE(offers(view, LoadOptionKind::measure_oxygen));
}

TEST(Loading, AnOxygenReadingTeachesTheAir) {
  auto season = season_of(Tank{.eggs = 500, .thermal_sum_c_days = 1000});  // fry
  const auto before = ask(season).view;
  season.drops(11, "oxygen", 23);  // 11.5 mg/L, nearly full at 8 C
  const auto after = ask(season).view;
  EXPECT_EQ(after.air_basis, AirBasis::read);
  EXPECT_GT(after.transfer_l_per_h.low, before.transfer_l_per_h.low);
  EXPECT_FALSE(after.oxygen_records.empty());
  EXPECT_GE(after.days.front().by(LoadLimit::oxygen)->animals.mid, before.days.front().by(LoadLimit::oxygen)->animals.mid);
}

TEST(Loading, HeightLeavesLessOxygenAndCarriesFewer) {
  const auto sea = ask(Tank{.air_l_per_min = 2.0}).view, high = ask(Tank{.elevation_m = 2500, .air_l_per_min = 2.0}).view;
  EXPECT_LT(high.days.front().saturation, sea.days.front().saturation);
  EXPECT_LT(high.days.front().by(LoadLimit::oxygen)->animals.mid, sea.days.front().by(LoadLimit::oxygen)->animals.mid);
  EXPECT_LT(high.days.front().oxygen_limit, sea.days.front().oxygen_limit);  // eggs' 8 mg/L can't be asked of water that holds 8.8
}

TEST(Loading, EarlyReleaseIsNamedOnlyInsideThePermitsDays) {
  const auto told = filter_of(5.0);
  const auto at = [&](std::optional<Date> from, std::optional<Date> until) {
    return ask(Tank{.eggs = 400, .air_l_per_min = 10.0, .release_from = from, .release_until = until}, 12, &told).view;
  };
  const auto open = at(day_of(40), day_of(200)), late = at(day_of(180), day_of(200)), none = at(std::nullopt, std::nullopt);
  ASSERT_TRUE(open.reached && late.reached && none.reached);
  for (const auto* view : {&open, &late, &none}) {
    ASSERT_TRUE(offers(*view, LoadOptionKind::early_release));
    EXPECT_NE(option(*view, LoadOptionKind::early_release).pattern.find("permit"), std::string::npos);
  }
  for (const Shown& shown : option(open, LoadOptionKind::early_release).values)
    if (const auto* date = std::get_if<Date>(&shown)) EXPECT_TRUE(*date >= day_of(40) && *date <= day_of(200));
  EXPECT_NE(option(late, LoadOptionKind::early_release).pattern.find("first of the permit's days"), std::string::npos);
  EXPECT_NE(option(none, LoadOptionKind::early_release).pattern.find("not on record"), std::string::npos);
}

TEST(Loading, OnlyFryAreAskedToGoEarly) {
  // High up the water may hold too little for many eggs at once: then it is more air or fewer of them, never a release.
  bool before_fry = false;
  for (const double elevation_m : {0.0, 1500.0, 3000.0})
    for (const int eggs : {500, 5000, 20000}) {
      const auto view = ask(Tank{.eggs = eggs, .elevation_m = elevation_m}).view;
      for (const auto& reached : view.reached_by) {
        if (!reached) continue;
        const auto row = std::ranges::find(view.days, std::optional(reached->day), &LoadRow::day);
        const bool released = std::ranges::any_of(reached->options, [](const LoadOption& o) { return o.kind == LoadOptionKind::early_release; });
        if (row->stage == biology::LifeStage::fry) continue;
        before_fry = true;
        EXPECT_FALSE(released) << elevation_m << " m, " << eggs << " eggs";
        EXPECT_FALSE(reached->options.empty());
      }
    }
  EXPECT_TRUE(before_fry) << "the limit must be met before swim-up somewhere for this to show anything";
}

TEST(Loading, BeforeTheEggsComeFewerCanBeOrdered) {
  const auto told = filter_of(5.0);
  const auto view = ask(Tank{.eggs = 600, .air_l_per_min = 10.0, .received = false}, 12, &told).view;
  EXPECT_EQ(view.state, LoadingView::State::to_come);
  EXPECT_EQ(view.days.front().day, day_of(20));
  ASSERT_TRUE(view.reached);
  ASSERT_TRUE(offers(view, LoadOptionKind::fewer_eggs));
  const auto& words = option(view, LoadOptionKind::fewer_eggs);
  const auto fits = static_cast<int>(std::get<Number>(words.values[0]).count);
  const auto again = ask(Tank{.eggs = fits, .air_l_per_min = 10.0, .received = false}, 12, &told).view;
  EXPECT_FALSE(again.reached);  // the number named is one that fits
}

TEST(Loading, AReleasedBroodAsksNothing) {
  auto season = season_of(Tank{});
  season.add(11, Release{.count = 200});
  const auto view = ask(season).view;
  EXPECT_EQ(view.state, LoadingView::State::released);
  EXPECT_TRUE(view.days.empty());
}

TEST(Loading, APartialReleaseLightensTheRest) {
  auto season = season_of(Tank{});
  season.add(11, Release{.count = 120});
  EXPECT_EQ(ask(season).view.animals, 80);
}

TEST(Loading, WithoutEggsPlannedSizesAreStillTold) {
  SmallSeason season;
  const auto view = ask(season, 2).view;
  EXPECT_EQ(view.state, LoadingView::State::nothing_planned);
  EXPECT_TRUE(view.days.empty());
  for (std::size_t i = 1; i < view.sizes.size(); ++i) EXPECT_LE(view.sizes[i].by(LoadLimit::oxygen)->animals.mid, view.sizes[i - 1].by(LoadLimit::oxygen)->animals.mid);
}

TEST(PlannedOxygen, IsWhatTheStageNeedsButNeverMoreThanTheWaterCanHold) {
  const auto mg = [](double v) { return OxygenConc::from_mg_o2_per_l(v); };
  EXPECT_EQ(planned_oxygen(biology::LifeStage::eyed_egg, mg(11)), mg(8));
  EXPECT_EQ(planned_oxygen(biology::LifeStage::fry, mg(11)), mg(7));
  EXPECT_EQ(planned_oxygen(biology::LifeStage::alevin, mg(8)), mg(7.2));
}

}  // namespace
}  // namespace redd::planning
