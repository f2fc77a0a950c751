#pragma once
// Made seasons for the water programme, and everything it is asked with. Invented.

#include <memory>

#include "planning/water_programme.h"
#include "support/small_season.h"

namespace redd::testing {

/// What planning::WaterAsked refers to; lives as long as it does.
struct AskedWater {
  ZoneOffsets zone{};
  std::vector<Record> records{};
  SeasonSetup season{};
  inference::Belief belief{};
  inference::FilterCase now{};
  Instant at{};
  planning::WaterAsked asked() const { return {season, records, belief, now, nullptr, zone, at}; }
};

inline std::unique_ptr<AskedWater> asked_water(const SmallSeason& season, int day, int hour = 12) {
  auto made = std::make_unique<AskedWater>();
  made->at = on_day(day, hour);
  const auto view = season::believed_day({}, season.log(), made->at);
  require(view.has_value(), "asked_water", "the season does not look");
  made->records = view->records;
  made->season = view->season;
  made->belief = view->belief;
  made->now = inference::filter_case(made->season, made->records, made->belief, made->zone, made->at);
  return made;
}

/// Six warm weeks in which the filter ripens on ammonia, then 200 eyed eggs on day 45, tests every week since.
inline SmallSeason ripe_season(int last_test_day = 55) {
  SmallSeason season;
  season.add(0, SetPoint{Temperature::from_c(22)}, 2);
  for (int week = 0; week < 6; ++week) {
    season.temperature(7 * week + 1, 22);
    season.add(7 * week + 1, Dose{Substance::ammonium_chloride, Mass::from_g(0.8)}, 9);
    season.step(7 * week + 6, "ammonia", week < 2 ? 0.8 : week < 3 ? 0.2 : 0);
    season.step(7 * week + 6, "nitrite", week < 1 ? 0 : week < 4 ? 0.8 : 0);
    season.drops(7 * week + 6, "kh", 5);
  }
  season.add(43, SetPoint{Temperature::from_c(8)}, 9);
  season.temperature(44, 8);
  season.eggs(45);
  for (int day = 48; day <= last_test_day; day += 7) season.quiet_tests(day);
  return season;
}

/// The source water of a SmallSeason, to be changed before it is looked at.
inline SourceWater& tap_of(SmallSeason& season) { return std::get<SourceWater>(season.log()[2].entry.body); }

}  // namespace redd::testing
