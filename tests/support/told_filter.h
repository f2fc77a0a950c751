#pragma once
// A filter's outlook as a test wants it told, without any sampling; told of SmallSeason on day 30.

#include "planning/filter_outlook.h"
#include "support/small_season.h"

namespace redd::testing {

inline planning::FilterOutlook told_filter(double ready_probability, double carries_probability, int day = 30, int egg_day = 60) {
  using namespace inference;
  planning::FilterOutlook told;
  told.begin = on_day(0, 0);
  told.now_day = day + 0.5;
  told.by_day = local_day({}, on_day(egg_day));
  told.by_probability = ready_probability;
  told.today_probability = 0.5 * ready_probability;
  told.cold_today_probability = 0.1 * ready_probability;
  told.particles = 2048;
  told.sittings = 4;
  Outlook& o = told.outlook;
  for (int d = 0; d <= egg_day + 40; ++d) {
    const Band band{0.1, 0.2, 0.3, 0.4, 0.5};
    o.bands.push_back({static_cast<double>(d), band, band, band, {7.0, 7.2, 7.4, 7.6, 7.8}, band});
  }
  o.ready_on = {{told.now_day, told.today_probability, 0.01}, {told.now_day + 3, ready_probability, 0.01}};
  o.ready = {0.9, 33.0, 36.0, 40.0, 45.0, std::nullopt};
  o.total_ammonia_peak = {1.0, 3.0, 4.0, 5.0, 6.0, 7.0};
  o.nitrite_peak = {1.0, 20.0, 25.0, 32.0, 35.0, 38.0};
  o.capacity_now_mg_n_per_l_per_day = {0.5, 1.0, 2.0};
  o.capacity_at_target_mg_n_per_l_per_day = {0.2, 0.4, 0.8};
  o.coming_load_mg_n_per_l_per_day = 0.15;
  o.coming_load_day = egg_day + 35;
  o.carries_coming_load_probability = carries_probability;
  o.next_sitting_day = told.now_day + 7;
  const Kit kit = SmallSeason::kit();
  SittingTest nitrite{kit.tests[1], "k", {}, {}};
  o.next_readings.push_back({nitrite, {{SmallSeason::reading("nitrite", Reading::Form::step, 0.1), 0.7}, {SmallSeason::reading("nitrite", Reading::Form::step, 0.2), 0.3}}});
  told.measures = MeasureComparison{ready_probability, 0.01, {}};
  told.measures->effects.push_back({{MeasureKind::later_chill, {"Begin to chill {0} later, and chill over a week.", {Days(7)}}, 7, {}}, ready_probability + 0.2, 0.2, 0.02});
  told.measures->effects.push_back({{MeasureKind::more_alkalinity, {"Raise the alkalinity by {0} with sodium bicarbonate.", {Alkalinity::from_meq_per_l(1)}}, 1, {}},
                                    ready_probability, 0.001, 0.01});
  return told;
}

inline season::DayView look_with(const SmallSeason& season, const planning::FilterOutlook& told, int day = 30) {
  auto view = season::look_at_day({}, season.log(), on_day(day, 12), &told);
  require(view.has_value(), "look_with", "the season does not look");
  return std::move(view).value();
}

}  // namespace redd::testing
