#include "biology/development_forecast.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "numerics/normal.h"

namespace redd::biology {
namespace {

const Date first = *date_from_iso("2031-01-10");
Date day(int i) {
  return first + std::chrono::days(i);
}
double days_after(CalendarMoment moment, Date from) {
  return (moment - noon_of(from)).count();
}

/// A record of exact, measured days at one temperature.
std::vector<DailyTemperature> steady(double c, int days, double sd_c = 0.0, int measured_days = 1000) {
  std::vector<DailyTemperature> record;
  for (int i = 0; i < days; ++i)
    record.push_back({day(i), Temperature::from_c(c), TemperatureChange::from_c(sd_c), i < measured_days});
  return record;
}

const SpeciesProfile coho = *find_species("coho");
BatchStart fertilised_on(int i, double give_or_take_days = 0.0, EggOrigin origin = EggOrigin::wild) {
  return {Fertilised{day(i), Days(give_or_take_days), {}}, origin, {}};
}
double curve_days(Stage stage, double c) {
  return days_at(*model_for(coho, stage), Temperature::from_c(c))->count();
}

DevelopmentForecast forecast(const BatchStart& start, const std::vector<DailyTemperature>& record, Date today,
                             const std::vector<ObservedMilestone>& seen = {}) {
  auto result = forecast_development(coho, {}, start, record, seen, today);
  EXPECT_TRUE(result) << (result ? "" : result.problems().front().sentence);
  return *result;
}

double width(const MomentWindow& window) {
  return (window.high_90 - window.low_90).count();
}

TEST(Forecast, OfASteadyTankIsTheCurveWithTheLotsError) {
  const auto f = forecast(fertilised_on(0), steady(8.0, 300), day(20));
  const double z = numerics::normal_quantile(0.95);
  for (const Stage stage : {Stage::hatch, Stage::swim_up}) {
    const double days = curve_days(stage, 8.0);
    const double sd = stage == Stage::hatch ? 0.08 : std::hypot(0.7 * 0.08, 0.06);
    EXPECT_NEAR(days_after(f.stage(stage).lot.median, day(0)), days, 0.1) << name_of(stage);
    EXPECT_NEAR(days_after(f.stage(stage).lot.low_90, day(0)), days * std::exp(-z * sd), 0.25) << name_of(stage);
    EXPECT_NEAR(days_after(f.stage(stage).lot.high_90, day(0)), days * std::exp(z * sd), 0.25) << name_of(stage);
    EXPECT_FALSE(f.stage(stage).lot.open_ended);
  }
  const double tenth = numerics::normal_quantile(0.9) * batch_log_sd(EggOrigin::wild);
  EXPECT_NEAR(days_after(f.stage(Stage::hatch).first_tenth.median, day(0)),
              curve_days(Stage::hatch, 8.0) * std::exp(-tenth), 0.1);
  EXPECT_NEAR(days_after(f.stage(Stage::hatch).last_tenth.median, day(0)),
              curve_days(Stage::hatch, 8.0) * std::exp(tenth), 0.1);
}

TEST(Forecast, CountsThermalUnits) {
  const auto f = forecast(fertilised_on(0), steady(8.0, 300), day(20));
  EXPECT_NEAR(f.thermal_sum.mid.c_days(), 160.0, 1e-6);
}

TEST(Forecast, TellsTheLifeStageOfToday) {
  const auto record = steady(8.0, 300);
  const auto at = [&](int i) { return forecast(fertilised_on(0), record, day(i)); };
  EXPECT_GT(at(15).lot_stage_probability[0], 0.99);
  EXPECT_GT(at(42).lot_stage_probability[1], 0.95);
  EXPECT_GT(at(75).batch_fraction[2], 0.95);
  EXPECT_GT(at(130).lot_stage_probability[3], 0.99);
  const auto f = at(58);  // the curve's hatch day
  EXPECT_NEAR(f.stage(Stage::hatch).happened_probability, 0.5, 0.02);
  double lot = 0.0, batch = 0.0;
  for (std::size_t i = 0; i < 4; ++i) {
    lot += f.lot_stage_probability[i];
    batch += f.batch_fraction[i];
  }
  EXPECT_NEAR(lot, 1.0, 1e-9);
  EXPECT_NEAR(batch, 1.0, 1e-9);
}

TEST(Forecast, OfThermalUnitsContinuesWhereTheHatcheryStopped) {
  const IncubationTemperature known{Temperature::from_c(8.0), TemperatureChange::from_c(0.0)};
  const BatchStart start{ThermalUnitsSoFar{ThermalSum::from_c_days(240.0), ThermalSum::from_c_days(0.0), day(0), known},
                         EggOrigin::farmed,
                         {}};
  const auto f = forecast(start, steady(8.0, 300), day(5));
  EXPECT_NEAR(days_after(f.stage(Stage::hatch).lot.median, day(0)), curve_days(Stage::hatch, 8.0) - 30.0, 0.1);
  EXPECT_NEAR(f.thermal_sum.mid.c_days(), 280.0, 1e-6);
  EXPECT_TRUE(f.notes.empty());
}

TEST(Forecast, OfThermalUnitsIsWiderWithoutTheHatcherysTemperature) {
  const auto start = [&](std::optional<IncubationTemperature> incubation) {
    return BatchStart{
        ThermalUnitsSoFar{ThermalSum::from_c_days(240.0), ThermalSum::from_c_days(0.0), day(0), incubation},
        EggOrigin::farmed,
        {}};
  };
  const auto known = forecast(start(IncubationTemperature{Temperature::from_c(7.0), TemperatureChange::from_c(0.0)}),
                              steady(8.0, 300), day(5));
  const auto unknown = forecast(start({}), steady(8.0, 300), day(5));
  EXPECT_GT(width(unknown.stage(Stage::swim_up).lot), width(known.stage(Stage::swim_up).lot));
  EXPECT_FALSE(unknown.notes.empty());
}

TEST(Forecast, OfEggsReceivedEyedRunsOverTheirPossibleShares) {
  const BatchStart start{ReceivedEyed{day(0)}, EggOrigin::farmed, {}};
  const auto f = forecast(start, steady(8.0, 300), day(0));
  const double days = curve_days(Stage::hatch, 8.0);
  // 0.5 to 0.9 of the way: the middle is 0.3 of the way to go.
  EXPECT_NEAR(days_after(f.stage(Stage::hatch).lot.median, day(0)), 0.3 * days, 0.3);
  EXPECT_GT(days_after(f.stage(Stage::hatch).lot.low_90, day(0)), 0.1 * days);
  EXPECT_LT(days_after(f.stage(Stage::hatch).lot.high_90, day(0)), 0.55 * days);
  EXPECT_GT(f.stage(Stage::eyed).happened_probability, 0.99);
}

TEST(Forecast, LearnsFromAnObservedHatch) {
  const auto record = steady(8.0, 300);
  const double days = curve_days(Stage::hatch, 8.0);
  const int seen_day = static_cast<int>(days * 0.92);
  const auto before = forecast(fertilised_on(0, 1.0, EggOrigin::farmed), record, day(seen_day));
  const auto after = forecast(fertilised_on(0, 1.0, EggOrigin::farmed), record, day(seen_day),
                              {{Milestone::half_hatched, day(seen_day)}});
  EXPECT_TRUE(after.observations.at(0).used);
  EXPECT_TRUE(after.observations.at(0).sentence.empty());
  EXPECT_LT(width(after.stage(Stage::hatch).lot), 4.0);
  EXPECT_NEAR(days_after(after.stage(Stage::hatch).lot.median, day(seen_day)), -0.5, 0.6);
  // The swim-up clock follows by k^0.7 and keeps an error of 6 %.
  const double k = (seen_day - 0.5) / days;
  EXPECT_NEAR(days_after(after.stage(Stage::swim_up).lot.median, day(0)),
              curve_days(Stage::swim_up, 8.0) * std::pow(k, 0.7), 0.8);
  EXPECT_LT(width(after.stage(Stage::swim_up).lot), width(before.stage(Stage::swim_up).lot));
  EXPECT_GT(width(after.stage(Stage::swim_up).lot), 2.0 * 1.64 * 0.055 * curve_days(Stage::swim_up, 8.0));
}

TEST(Forecast, LearnsFromNothingHatchedYet) {
  const auto record = steady(8.0, 300);
  const int today = static_cast<int>(curve_days(Stage::hatch, 8.0)) + 3;
  const auto before = forecast(fertilised_on(0), record, day(today));
  const auto after = forecast(fertilised_on(0), record, day(today), {{Milestone::first_hatch, day(today), false}});
  EXPECT_GT(before.stage(Stage::hatch).happened_probability, 0.5);
  EXPECT_LT(after.stage(Stage::hatch).happened_probability, 0.02);
  EXPECT_GT(after.stage(Stage::hatch).lot.low_90, noon_of(day(today)));
  EXPECT_GT(after.stage(Stage::swim_up).lot.median, before.stage(Stage::swim_up).lot.median);
}

// The same answer as summing over a grid of the lot's error: nothing hatched by `today`, everything else known exactly.
TEST(Forecast, OfNotYetAgreesWithASumOverAGrid) {
  const auto record = steady(8.0, 300);
  const double days = curve_days(Stage::hatch, 8.0);
  const int today = static_cast<int>(days) + 3;
  const auto f = forecast(fertilised_on(0), record, day(today), {{Milestone::half_hatched, day(today), false}});
  const double bound = std::log(today / days);
  const double noise = std::hypot(0.35 * 0.05, 0.2 / today);
  double total = 0.0, passed = 0.0, median = 0.0;
  constexpr double step = 1e-4;
  for (const bool measure : {false, true})
    for (double x = -0.6; x < 0.6; x += step) {
      const double w = numerics::normal_density(x / 0.08) * numerics::normal_cdf((x - bound) / noise);
      if (!measure)
        total += w;
      else if (passed < total / 2.0) {
        passed += w;
        median = x;
      }
    }
  EXPECT_NEAR(days_after(f.stage(Stage::hatch).lot.median, day(0)), days * std::exp(median), 0.15);
}

TEST(Forecast, FlagsAContradictionInWordsAndWidens) {
  const auto record = steady(8.0, 300);
  const int early = static_cast<int>(curve_days(Stage::hatch, 8.0) * 0.6);
  const auto f = forecast(fertilised_on(0), record, day(early), {{Milestone::half_hatched, day(early)}});
  const auto calm = forecast(fertilised_on(0), record, day(early));
  ASSERT_EQ(f.observations.size(), 1u);
  EXPECT_LT(f.observations[0].surprise_sd, -3.0);
  EXPECT_NE(f.observations[0].sentence.pattern.find("Check"), std::string::npos);
  ASSERT_TRUE(f.observations[0].expected);
  EXPECT_NEAR(days_after(*f.observations[0].expected, day(0)), curve_days(Stage::hatch, 8.0), 1.5);
  // It was seen, so the forecast follows it, and is less sure of what comes next than before.
  EXPECT_NEAR(days_after(f.stage(Stage::hatch).lot.median, day(early)), -0.5, 1.5);
  EXPECT_GT(width(f.stage(Stage::swim_up).lot) / days_after(f.stage(Stage::swim_up).lot.median, day(0)),
            width(calm.stage(Stage::swim_up).lot) / days_after(calm.stage(Stage::swim_up).lot.median, day(0)));
}

TEST(Forecast, FlagsEggsThatShouldLongHaveHatched) {
  const auto record = steady(8.0, 300);
  const int late = static_cast<int>(curve_days(Stage::hatch, 8.0) * 1.6);
  const auto f = forecast(fertilised_on(0), record, day(late), {{Milestone::first_hatch, day(late), false}});
  EXPECT_GT(f.observations.at(0).surprise_sd, 3.0);
  EXPECT_FALSE(f.observations.at(0).sentence.empty());
  EXPECT_GT(f.stage(Stage::hatch).lot.median, noon_of(day(late)));
}

TEST(Forecast, LeavesOutWhatCannotBeAndSaysSo) {
  const auto record = steady(8.0, 300);
  const auto f = forecast(fertilised_on(10), record, day(60),
                          {{Milestone::first_hatch, day(61)},  // tomorrow
                           {Milestone::first_eyes, day(5)},    // before fertilisation
                           {Milestone::half_eyed, day(40)},
                           {Milestone::half_eyed, day(41)},           // again
                           {Milestone::half_eyed, day(45), false}});  // against the sighting
  ASSERT_EQ(f.observations.size(), 5u);
  int used = 0, explained = 0;
  for (const auto& each : f.observations) {
    used += each.used;
    explained += !each.used && !each.sentence.empty();
  }
  EXPECT_EQ(used, 1);
  EXPECT_EQ(explained, 4);
}

TEST(Forecast, OfEggsReceivedEyedIgnoresSightingsOfEyes) {
  const BatchStart start{ReceivedEyed{day(0)}, EggOrigin::farmed, {}};
  const auto f =
      forecast(start, steady(8.0, 300), day(3), {{Milestone::half_eyed, day(2)}, {Milestone::first_hatch, day(-1)}});
  for (const auto& each : f.observations) {
    EXPECT_FALSE(each.used);
    EXPECT_FALSE(each.sentence.empty());
  }
}

TEST(Forecast, IsWiderWhenDaysAreMissing) {
  auto record = steady(8.0, 300, 0.2, 30);
  const auto whole = forecast(fertilised_on(0), record, day(29));
  record.erase(record.begin() + 5, record.begin() + 25);
  const auto holed = forecast(fertilised_on(0), record, day(29));
  EXPECT_EQ(holed.filled_days, 20);
  EXPECT_GT(width(holed.stage(Stage::hatch).lot), width(whole.stage(Stage::hatch).lot));
  EXPECT_FALSE(holed.notes.empty());
}

TEST(Forecast, IsWiderWhenThePlanEndsOrIsUnsure) {
  const auto sure = forecast(fertilised_on(0), steady(8.0, 300, 0.2, 20), day(19));
  const auto short_plan = forecast(fertilised_on(0), steady(8.0, 20, 0.2), day(19));
  const auto unsure = forecast(fertilised_on(0), steady(8.0, 300, 1.0, 20), day(19));
  EXPECT_GT(width(short_plan.stage(Stage::swim_up).lot), width(sure.stage(Stage::swim_up).lot));
  EXPECT_GT(width(unsure.stage(Stage::swim_up).lot), width(sure.stage(Stage::swim_up).lot));
}

TEST(Forecast, OfIcyWaterSaysThatItCannotSay) {
  const auto f = forecast(fertilised_on(0), steady(0.1, 100), day(10));
  EXPECT_TRUE(f.stage(Stage::hatch).lot.open_ended);
  EXPECT_FALSE(f.notes.empty());
  EXPECT_EQ(f.stage(Stage::hatch).happened_probability, 0.0);
}

TEST(Forecast, OutsideTheTestedTemperaturesIsFlaggedAndWider) {
  const auto f = forecast(fertilised_on(0), steady(15.0, 200), day(1));
  EXPECT_GT(f.stage(Stage::hatch).days_outside_test_range, 0);
  EXPECT_FALSE(f.notes.empty());
  const double relative = width(f.stage(Stage::hatch).lot) / curve_days(Stage::hatch, 15.0);
  EXPECT_GT(relative, 2.0 * 1.645 * 0.08);
}

TEST(Forecast, UsesTheRivalAsked) {
  const auto trout = *find_species("rainbow_trout");
  const auto record = steady(10.0, 300);
  const auto days = [&](const ModelChoice& choice, Stage stage) {
    const auto f = forecast_development(trout, choice, fertilised_on(0), record, {}, day(1));
    return days_after(f->stage(stage).lot.median, day(0));
  };
  EXPECT_GT(days({.hatch = "velsen1987"}, Stage::hatch), days({}, Stage::hatch) + 0.5);
  EXPECT_GT(days({.hatch = "velsen1987"}, Stage::eyed), days({}, Stage::eyed) + 0.2);
  EXPECT_NEAR(days({.hatch = "velsen1987"}, Stage::swim_up), days({}, Stage::swim_up), 1e-9);
  EXPECT_GT(days({.swim_up = "velsen1987"}, Stage::swim_up), days({}, Stage::swim_up) + 0.5);
}

TEST(Forecast, NamesEveryProblemOfItsInput) {
  auto record = steady(8.0, 3);
  record[1].mean = Temperature::from_c(200.0);
  record.push_back(record[0]);
  BatchStart start{ReceivedEyed{day(0), 0.9, 0.5}, EggOrigin::farmed, 0};
  const auto result = forecast_development(coho, {.hatch = "nobody1900"}, start, record, {}, day(1));
  ASSERT_FALSE(result);
  EXPECT_GE(result.problems().size(), 5u);
  EXPECT_FALSE(forecast_development(coho, {}, fertilised_on(0), {}, {}, day(1)));
  record = steady(std::numeric_limits<double>::quiet_NaN(), 3);
  EXPECT_FALSE(forecast_development(coho, {}, fertilised_on(0), record, {}, day(1)));
}

TEST(Forecast, LooksAheadForEggsStillToCome) {
  const BatchStart start{ReceivedEyed{day(30)}, EggOrigin::farmed, {}};
  const auto f = forecast(start, steady(8.0, 200), day(0));
  EXPECT_GT(f.stage(Stage::hatch).lot.low_90, noon_of(day(30)));
  EXPECT_LT(f.stage(Stage::hatch).happened_probability, 1e-9);
}

}  // namespace
}  // namespace redd::biology
