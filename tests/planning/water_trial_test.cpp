#include "planning/water_trial.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/water_season.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

Result<TriedWater> tried(const SmallSeason& season, const ChangeWished& wished, int day = 56) {
  const auto made = asked_water(season, day);
  return try_change(water_case(made->asked()), wished);
}

const TriedRow& row(const TriedWater& t, TriedQuantity quantity) {
  const auto found = std::ranges::find(t.rows, quantity, &TriedRow::quantity);
  require(found != t.rows.end(), "water_trial_test", "no such row");
  return *found;
}

bool warns(const TriedWater& t, std::string_view part) {
  return std::ranges::any_of(t.warnings, [&](const Sentence& s) { return s.pattern.find(part) != std::string::npos; });
}

SmallSeason ready() {
  auto season = ripe_season();
  tap_of(season).chlorine_mg_per_l = 1.0;
  tap_of(season).temperature = Temperature::from_c(8);
  return season;
}

TEST(TryChange, AnOrdinaryChangeHasNothingAgainstItAndItsRanges) {
  const auto t = tried(ready(), {.fraction = 0.2});
  ASSERT_TRUE(t.has_value());
  EXPECT_TRUE(t->warnings.empty()) << t->warnings.front().pattern;
  for (const TriedRow& r : t->rows) {
    EXPECT_LE(r.after.low, r.after.mid) << tried_key(r.quantity);
    EXPECT_LE(r.after.mid, r.after.high) << tried_key(r.quantity);
  }
  const double source = NitrogenConc::from_mg_no3_per_l(2).mg_n_per_l();
  EXPECT_NEAR(row(*t, TriedQuantity::nitrate).after.mid, 0.8 * row(*t, TriedQuantity::nitrate).before.mid + 0.2 * source, 0.1);
  EXPECT_TRUE(row(*t, TriedQuantity::un_ionized_ammonia).next_day.has_value());
}

TEST(TryChange, WarmOrColdWaterIsWarnedOfWithWhatWouldDo) {
  const auto warm = tried(ready(), {.fraction = 0.3, .new_water = Temperature::from_c(16)});
  ASSERT_TRUE(warm.has_value());
  EXPECT_TRUE(warns(*warm, "moves the tank by"));
  EXPECT_NEAR(row(*warm, TriedQuantity::temperature).after.mid - row(*warm, TriedQuantity::temperature).before.mid, 0.3 * 8.0, 0.2);
  EXPECT_FALSE(warns(*tried(ready(), {.fraction = 0.1, .new_water = Temperature::from_c(16)}), "moves the tank by"));
}

TEST(TryChange, ChlorineComesFirstAmongTheWarnings) {
  const auto t = tried(ready(), {.fraction = 0.3, .new_water = Temperature::from_c(20), .dechlorinated = false});
  ASSERT_TRUE(t.has_value());
  EXPECT_NE(t->warnings.front().pattern.find("Not dechlorinated"), std::string::npos);
  EXPECT_NEAR(row(*t, TriedQuantity::chlorine).after.high, 0.3, 1e-9);
}

TEST(TryChange, UndescribedChlorineIsNoPardon) {
  const auto t = tried(ripe_season(), {.fraction = 0.3, .dechlorinated = false});
  ASSERT_TRUE(t.has_value());
  EXPECT_NEAR(row(*t, TriedQuantity::chlorine).after.high, 0.3 * 4.0, 1e-9);
  EXPECT_DOUBLE_EQ(row(*t, TriedQuantity::chlorine).after.low, 0.0);
}

TEST(TryChange, ColdWaterStraightFromTheTapBringsGas) {
  auto season = ready();
  tap_of(season).temperature = Temperature::from_c(2);
  const auto straight = tried(season, {.fraction = 0.4, .stood = false}), stood = tried(season, {.fraction = 0.4});
  EXPECT_TRUE(warns(*straight, "too much gas"));
  EXPECT_GT(row(*straight, TriedQuantity::gas).after.high, 1.03);
  EXPECT_FALSE(warns(*stood, "too much gas"));
}

TEST(TryChange, MoreThanHalfAndVacuumingUnderEggsAreWarnedOf) {
  EXPECT_TRUE(warns(*tried(ready(), {.fraction = 0.7}), "at once"));
  const auto t = tried(ready(), {.fraction = 0.2, .vacuum = true});
  EXPECT_TRUE(warns(*t, "Do not vacuum"));
  EXPECT_LE(t->vacuumed_mg_n.low, t->vacuumed_mg_n.high);
}

TEST(TryChange, AnotherSourceIsTakenByItsKey) {
  auto season = ready();
  records::SourceWater rain;
  rain.key = rain.name = "rain";
  rain.nitrate = NitrogenConc::from_mg_n_per_l(0);
  rain.alkalinity = Alkalinity::from_meq_per_l(0.1);
  rain.hardness = Hardness::from_meq_per_l(0.1);
  season.add(50, rain);
  season.add(50, records::WaterChange{.volume = Volume::from_l(10), .source_water = "tap", .dechlorinated = true}, 9);
  const auto tap = tried(season, {.fraction = 0.3}), other = tried(season, {.fraction = 0.3, .source = "rain"});
  EXPECT_EQ(tap->source.key, "tap");  // what was last changed with, not what was described last
  EXPECT_EQ(other->source.key, "rain");
  EXPECT_LT(row(*other, TriedQuantity::hardness).after.mid, row(*tap, TriedQuantity::hardness).after.mid);
}

TEST(TryChange, WrongWishesAreRefused) {
  EXPECT_EQ(tried(ready(), {.fraction = 0.0}).problems().front().field, "/fraction");
  EXPECT_EQ(tried(ready(), {.fraction = 1.2}).problems().front().field, "/fraction");
  EXPECT_EQ(tried(ready(), {.fraction = 0.2, .source = "pond"}).problems().front().code, "unknown_source");
}

}  // namespace
}  // namespace redd::planning
