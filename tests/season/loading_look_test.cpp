#include "season/loading_look.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/fry_season.h"

namespace redd::season {
namespace {

using namespace redd::testing;

TEST(LookAtLoading, WithoutASeasonSaysSo) { EXPECT_EQ(look_at_loading({}, {}, on_day(1)).problems().front().code, "no_season"); }

TEST(LookAtLoading, TellsHoursOfReserveOnceAnimalsAreIn) {
  SmallSeason season;
  season.quiet_tests(7);
  EXPECT_TRUE(look_at_loading({}, season.log(), on_day(7, 12))->view.reserve.empty());
  season.eggs(8);
  const auto look = look_at_loading({}, season.log(), on_day(9, 12));
  ASSERT_TRUE(look);
  EXPECT_FALSE(look->view.reserve.empty());
  EXPECT_FALSE(look->view.days.empty());
}

TEST(LookAtLoading, AnOverfullTankHasNoReserveLeft) {
  auto season = fry_season(76);
  std::get<EggReceipt>(std::ranges::find_if(season.log(), [](const Record& r) { return std::holds_alternative<EggReceipt>(r.entry.body); })->entry.body).count = 9000;
  std::get<SeasonSetup>(season.log().front().entry.body).egg_count = 9000;
  const auto look = look_at_loading({}, season.log(), on_day(76, 12));
  ASSERT_TRUE(look);
  ASSERT_LT(look->view.today()->oxygen.mid, look->view.today()->oxygen_limit);
  bool empty_at_once = false;
  for (const auto& hold : look->view.reserve) empty_at_once = empty_at_once || (hold.span && hold.span->soonest && hold.span->soonest->count() == 0.0);
  EXPECT_TRUE(empty_at_once);
}

TEST(LookAtLoading, ReadingsAtOddsLowerTheAmmoniaThatIsBorne) {
  const auto least = [](int kh_drops) {
    SmallSeason season;
    season.quiet_tests(7);
    season.eggs(8);
    season.step(9, "ph", 6.8);
    season.drops(9, "kh", kh_drops);
    return look_at_loading({}, season.log(), on_day(9, 12))->view.total_ammonia_limit_mg_n_per_l.low;
  };
  EXPECT_LT(least(40), 0.2 * least(6)) << "at 20 German degrees pH may be that of aired water";
}

TEST(LookAtLoading, ShowsThePastAsItWasKnown) {
  SmallSeason season;
  season.quiet_tests(7);
  season.eggs(8);
  const auto then = look_at_loading({}, season.log(), on_day(9, 12))->view.animals;
  season.add(20, Count{.what = Count::What::dead_eggs, .count = 50});
  EXPECT_EQ(look_at_loading({}, season.log(), on_day(9, 12))->view.animals, then);
  EXPECT_EQ(look_at_loading({}, season.log(), on_day(21, 12))->view.animals, then - 50);
}

}  // namespace
}  // namespace redd::season
