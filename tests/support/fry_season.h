#pragma once
// The small season come to feeding: 200 brook trout eggs in water at 8 C, half swum up on day 60 of it (invented).

#include "support/small_season.h"

namespace redd::testing {

/// Eggs on day 8, half swum up on `swum_up`; tests and temperatures once a week to a week beyond `until`.
inline SmallSeason fry_season(int until = 62, int swum_up = 60) {
  SmallSeason season;
  season.step(2, "nitrite", 0.8);  // the filter has shown that it works
  season.step(5, "nitrite", 0);
  season.temperature(7, 8);
  season.eggs(8, 400);
  season.add(20, Milestone{Milestone::Which::half_hatched, true});
  season.add(swum_up, Milestone{Milestone::Which::half_swim_up, true});
  for (int day = 14; day <= until; day += 2) season.quiet_tests(day);
  return season;
}

inline Feeding grams(double g) { return Feeding{Mass::from_g(g), {}, {}}; }

inline FishSample weighed(int count, double g) {
  FishSample sample;
  sample.count = count;
  sample.mass = Mass::from_g(g);
  return sample;
}

}  // namespace redd::testing
