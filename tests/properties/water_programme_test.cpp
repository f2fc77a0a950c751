// A planned change never breaks another limit in prediction, whatever tank and tap it meets.

#include <gtest/gtest.h>

#include <algorithm>

#include "numerics/random.h"
#include "planning/detail/water_search.h"
#include "planning/water_change.h"
#include "planning/water_programme.h"
#include "support/water_season.h"

namespace redd::planning {
namespace {

using namespace redd::testing;

/// A season with a tap and latest readings of chance.
SmallSeason season_of_chance(std::uint32_t item) {
  numerics::RandomStream random(20310301, 1, item);
  auto season = ripe_season();
  const auto one_of = [&](std::initializer_list<double> values) { return *(values.begin() + random.index_below(static_cast<std::uint32_t>(values.size()))); };
  auto& tap = tap_of(season);
  tap.ph = Ph::from_ph(one_of({6.8, 7.2, 7.8, 8.4}));
  tap.alkalinity = Alkalinity::from_german_degrees(one_of({1, 2, 3, 6}));
  tap.hardness = Hardness::from_german_degrees(one_of({2, 4, 5, 14}));
  tap.total_ammonia = NitrogenConc::from_mg_n_per_l(one_of({0, 0, 0, 0.5}));
  tap.nitrate = NitrogenConc::from_mg_no3_per_l(one_of({0, 2, 10, 30}));
  tap.temperature = Temperature::from_c(one_of({2, 6, 9, 16}));
  tap.chloramine = random.chance(0.3);
  if (random.chance(0.7)) tap.chlorine_mg_per_l = one_of({0, 1, 3});
  season.step(56, "nitrate", one_of({10, 20, 40, 80}));
  season.step(56, "ammonia", one_of({0, 0.2, 0.8}));
  season.step(56, "nitrite", one_of({0, 0.1, 0.4}));
  season.step(56, "ph", one_of({6.8, 7.2, 7.6, 8.0}));
  return season;
}

TEST(WaterProgrammeProperty, APlannedChangeBreaksNoOtherLimit) {
  int planned = 0;
  for (std::uint32_t item = 0; item < 14; ++item) {
    SCOPED_TRACE(item);
    const auto asked = asked_water(season_of_chance(item), 56);
    const auto p = water_programme(asked->asked());
    ASSERT_TRUE(p);
    planned += !p->programme.changes.empty();
    const auto& with = p->programme.forecast.by_limit;
    const auto& without = p->none.forecast.by_limit;
    for (std::size_t k = 0; k < water_limit_count; ++k)
      EXPECT_LE(with[k], std::max(without[k] + 0.03, 1.0 - wanted_safe_probability) + 1e-9) << limit_key(static_cast<WaterLimitKind>(k));
    EXPECT_LE(p->programme.forecast.exposure, p->none.forecast.exposure + 1e-9);
    EXPECT_LE(with[static_cast<std::size_t>(WaterLimitKind::jump)], 0.05);
    double a_week = 0.0;
    for (std::size_t i = 0; i < p->programme.changes.size(); ++i) {
      const PlannedChange& c = p->programme.changes[i];
      EXPECT_LE(c.fraction, std::min(p->largest_fraction, largest_fraction) + 1e-9);
      EXPECT_LE(std::abs(deed_of(c).step_c), largest_step.c() + 1e-9);
      EXPECT_LE(std::abs(deed_of(c).step_c), largest_step.c() * c.refill_minutes / 60.0 + 1e-9);  // a degree an hour
      if (c.gas_as_it_comes && gas_fraction_after(c.fraction, *c.gas_as_it_comes) > most_gas_fraction) {
        EXPECT_TRUE(c.must_stand);
      }
      EXPECT_EQ(c.thiosulfate.has_value(), p->source.chlorine_mg_per_l > 0.0);
      if (i == 0 || c.at_day - p->programme.changes[0].at_day < 7.0) a_week += c.fraction;
    }
    EXPECT_LE(a_week, most_a_week + 1e-9);
  }
  EXPECT_GE(planned, 3);  // the seasons of chance do ask for changes
}

TEST(WaterProgrammeProperty, MoreNitrateNeverMakesTheWaterSafer) {
  double last = -1.0;
  for (const double mg_no3_per_l : {5.0, 10.0, 20.0, 40.0}) {
    auto season = ripe_season();
    season.step(56, "nitrate", mg_no3_per_l);
    const auto asked = asked_water(season, 56);
    const auto made = water_case(asked->asked());
    const double broken = forecast_water(made.tanks, made.course(), {}).by_limit[static_cast<std::size_t>(WaterLimitKind::nitrate)];
    EXPECT_GE(broken, last - 0.02) << mg_no3_per_l;
    last = broken;
  }
}

}  // namespace
}  // namespace redd::planning
