#pragma once
// An invented tank for tests of the filter posterior: 200 L, warmed, dosed with ammonia, chilled, then eggs; six weekly tests on an
// invented kit; and readings made from a known truth as a class would read them.

#include <algorithm>
#include <cmath>
#include <vector>

#include "inference/card_reading.h"
#include "inference/filter_posterior.h"
#include "numerics/random.h"

namespace redd::inference::testing {

using records::KitTest;
using records::Method;
using records::Quantity;
using records::TestUnit;

inline KitTest colours(const char* key, Quantity quantity, TestUnit unit, std::vector<double> steps) {
  KitTest test;
  test.key = key;
  test.quantity = quantity;
  test.unit = unit;
  test.steps = std::move(steps);
  return test;
}

inline std::vector<KitTest> invented_kit() {
  KitTest kh;
  kh.key = "kh";
  kh.quantity = Quantity::alkalinity;
  kh.method = Method::drop_count;
  kh.unit = TestUnit::german_degrees;
  kh.per_drop = 0.5;
  return {colours("ammonia", Quantity::total_ammonia, TestUnit::mg_nh4_per_l, {0, 0.2, 0.4, 0.8, 1.6, 3.2, 6.4}),
          colours("nitrite", Quantity::nitrite, TestUnit::mg_no2_per_l, {0, 0.2, 0.5, 1, 2, 5, 10}),
          colours("nitrate", Quantity::nitrate, TestUnit::mg_no3_per_l, {0, 5, 10, 20, 40, 80}),
          colours("ph", Quantity::ph, TestUnit::ph, {6.4, 6.8, 7.2, 7.6, 8.0, 8.4}), kh};
}

struct SeasonShape {
  int weeks = 10;
  int warm_weeks = 8;          ///< then chilled over a week
  double warm_c = 24, cold_c = 10;
  double first_dose_mg_n_per_l = 2.0, weekly_dose_mg_n_per_l = 1.0;
  int eggs_from_week = 12;     ///< then a load that grows, and half-filled water changes
  std::vector<KitTest> kit = invented_kit();
};

/// Deeds and empty sittings; no readings yet. Forcing reaches twelve weeks beyond the last sitting.
inline FilterSeason bare_season(const SeasonShape& shape) {
  FilterSeason season;
  season.begin = Instant{std::chrono::sys_days{std::chrono::year{2031} / 1 / 6}};
  season.volume_l = 200;
  season.first_water.nitrate_mg_n_per_l = 0.5;
  season.first_water.alkalinity_meq_per_l = 1.6;
  season.first_water.inorganic_carbon_mmol_per_l = tank::air_balanced_carbon_mmol_per_l(Temperature::from_c(shape.warm_c), 1.6);
  season.first_water.oxygen_mg_o2_per_l = 8.4;
  for (int day = 0; day < 7 * (shape.weeks + 12); ++day) {
    tank::DayForcing forcing;
    const double cooled = std::clamp((day - 7.0 * shape.warm_weeks) / 7.0, 0.0, 1.0);
    forcing.temperature_c = shape.warm_c + cooled * (shape.cold_c - shape.warm_c);
    if (day >= 7 * shape.eggs_from_week) {
      const double weeks = day / 7.0 - shape.eggs_from_week;
      forcing.excretion_mg_n_per_day = std::min(200.0, 2.0 * std::exp(0.25 * weeks));
      forcing.oxygen_use_mg_o2_per_day = 10.0 * forcing.excretion_mg_n_per_day;
    }
    season.forcing.days.push_back(forcing);
  }
  tank::SourceWater tap;
  tap.nitrate_mg_n_per_l = 0.5;
  tap.alkalinity_meq_per_l = 1.6;
  tap.inorganic_carbon_mmol_per_l = season.first_water.inorganic_carbon_mmol_per_l;
  tap.oxygen_mg_o2_per_l = 9.0;
  for (int week = 0; week < shape.weeks; ++week) {
    const double day = 7.0 * week;
    if (week < shape.warm_weeks) {
      tank::Dose dose;
      dose.ammonium_chloride_mg_n = season.volume_l * (week == 0 ? shape.first_dose_mg_n_per_l : shape.weekly_dose_mg_n_per_l);
      dose.bicarbonate_meq = week > 0 ? 0.15 * season.volume_l : 0.0;
      season.events.push_back({day + 0.1, dose});
    } else {
      season.events.push_back({day + 0.1, WaterChanged{60.0, tap}});
    }
    FilterSitting sitting;
    sitting.at_day = day + 7.0;
    for (const KitTest& test : shape.kit) sitting.tests.push_back({test, "kit", {}, {}});
    season.sittings.push_back(std::move(sitting));
  }
  return season;
}

/// The unknown numbers of a true tank: a draw from the prior.
inline numerics::ParticleTable true_unknowns(const SeasonModel& model, std::uint64_t seed) {
  numerics::ParticleTable truth(model.dimension(), 1);
  numerics::RandomStream stream(seed, 77);
  for (std::size_t row = 0; row < truth.rows(); ++row) truth(row, 0) = stream.normal();
  return truth;
}

/// Readings by one eye on every sitting from `from` on, from this truth. One in fifty is a slip to any class.
inline FilterSeason with_readings(FilterSeason season, const numerics::ParticleTable& truth, std::uint64_t seed, bool slips = true, std::size_t from = 0) {
  const SeasonModel model(season, {1e-4});
  SeasonModel::Path path = model.start(truth);
  numerics::RandomStream stream(seed, 78);
  records::RecordId id = 0;
  for (std::size_t s = 0; s < season.sittings.size(); ++s) {
    FilterSitting& sitting = season.sittings[s];
    model.go_to(path, truth, sitting.at_day, false);
    const WaterColumns water = model.columns(path);
    for (SittingTest& test : sitting.tests) {
      const std::vector<double> place = model.places(test, water, truth);
      const double error = reader_error_steps * stream.normal(), slip = stream.uniform();
      const double classes = test.test.steps.empty() ? 8.0 : static_cast<double>(test.test.steps.size());
      const double anywhere = std::floor(stream.uniform() * classes);
      ++id;
      if (place.empty() || s < from) continue;
      const bool slipped = slips && slip < misread_probability;
      test.readings = {slipped ? reading_at(test.test, anywhere, 0.0) : reading_at(test.test, place[0], error)};
      test.records = {id};
    }
  }
  return season;
}

}  // namespace redd::inference::testing
