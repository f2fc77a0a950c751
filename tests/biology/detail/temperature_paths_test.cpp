#include "biology/detail/temperature_paths.h"

#include <gtest/gtest.h>

#include "biology/species.h"

namespace redd::biology::detail {
namespace {

const Date first = *date_from_iso("2031-01-10");
Date day(int i) {
  return first + std::chrono::days(i);
}
DailyTemperature entry(int i, double c, double sd_c, bool measured) {
  return {day(i), Temperature::from_c(c), TemperatureChange::from_c(sd_c), measured};
}

Clocks clocks() {
  const auto species = *find_species("coho");
  return Clocks(
      {*model_for(species, Stage::eyed), *model_for(species, Stage::hatch), *model_for(species, Stage::swim_up)});
}

TEST(TimelineFrom, FillsHolesWithMoreDoubt) {
  const Timeline line =
      timeline_from(std::vector{entry(0, 8.0, 0.2, true), entry(4, 10.0, 0.2, true)}, day(-2), day(4));
  EXPECT_EQ(line.first_day, day(-2));
  EXPECT_EQ(line.filled_days, 5);
  EXPECT_NEAR(line.mean[4].c(), 9.0, 1e-12);  // the middle of the hole
  EXPECT_GT(line.sd[4].c(), 1.0);
  EXPECT_EQ(line.kind[4], DayKind::until_today);
  EXPECT_EQ(line.kind[0], DayKind::until_today);
  EXPECT_EQ(line.kind[7], DayKind::to_come);
  EXPECT_GE(line.sd[7].c(), 1.5);
  EXPECT_NEAR(line.mean.back().c(), 10.0, 1e-12);
}

TEST(TemperaturePaths, AddUpTheShiftedDaysOfEachKind) {
  const std::vector record{entry(0, 8.0, 0.5, true), entry(1, 6.0, 1.0, false), entry(2, 7.0, 1.0, false)};
  const Timeline line = timeline_from(record, day(0), day(1));
  const TemperaturePaths paths(clocks(), line);
  const auto world = paths.world({1.0, 0.5});
  const auto model = *model_for(*find_species("coho"), Stage::hatch);
  const double expected = progress_per_day(model, Temperature::from_c(8.5)) +
                          progress_per_day(model, Temperature::from_c(7.0)) +
                          progress_per_day(model, Temperature::from_c(7.5));
  EXPECT_NEAR(world.total(1, 3.0), expected, 1e-12);
  EXPECT_NEAR(world.total(thermal_clock, 3.0), 8.5 + 7.0 + 7.5, 1e-9);
  EXPECT_NEAR(world.total(1, 0.5), 0.5 * progress_per_day(model, Temperature::from_c(8.5)), 1e-12);
}

TEST(TemperaturePaths, InterpolateBetweenGridShiftsToATenthOfAPercent) {
  const Timeline line = timeline_from(std::vector{entry(0, 5.0, 1.0, true)}, day(0), day(0));
  const TemperaturePaths paths(clocks(), line);
  const auto model = *model_for(*find_species("coho"), Stage::hatch);
  for (double shift = -3.9; shift <= 3.9; shift += 0.13) {
    const double exact = progress_per_day(model, Temperature::from_c(5.0 + shift));
    EXPECT_NEAR(paths.world({shift, 0}).total(1, 1.0) / exact, 1.0, 0.001) << shift;
  }
}

TEST(TemperaturePaths, FindWhenATotalIsReached) {
  const Timeline line = timeline_from(std::vector{entry(0, 8.0, 0.5, true)}, day(0), day(0));
  const TemperaturePaths paths(clocks(), line);
  const auto world = paths.world({0.3, 0.7});
  for (const double position : {0.0, 0.4, 1.0, 17.3, 120.0})
    EXPECT_NEAR(world.position_of(1, world.total(1, position)), position, 1e-9);
  EXPECT_EQ(world.position_of(1, 1e9), static_cast<double>(line.size()));
}

}  // namespace
}  // namespace redd::biology::detail
