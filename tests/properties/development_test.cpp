// Laws of development, whatever the species, temperature or record.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "biology/development.h"
#include "biology/development_forecast.h"
#include "numerics/random.h"

namespace redd::biology {
namespace {

const Date first = *date_from_iso("2031-01-10");
Date day(int i) {
  return first + std::chrono::days(i);
}

SpeciesProfile any_species() {
  const auto all = all_species();
  return all[*rc::gen::inRange<std::size_t>(0, all.size())];
}
Stage any_stage() {
  return all_stages[*rc::gen::inRange<std::size_t>(0, all_stages.size())];
}
DevelopmentModel any_model(const SpeciesProfile& species, Stage stage) {
  const auto keys = model_keys(species, stage);
  return *model_for(species, stage, keys[*rc::gen::inRange<std::size_t>(0, keys.size())]);
}
/// A temperature in hundredths, so that failures shrink to readable numbers.
Temperature any_water(double low_c = 0.3, double high_c = 16.0) {
  return Temperature::from_c(*rc::gen::inRange(static_cast<int>(low_c * 100), static_cast<int>(high_c * 100)) / 100.0);
}

RC_GTEST_PROP(Development, IsFasterInWarmerWater, ()) {
  const auto species = any_species();
  const auto model = any_model(species, any_stage());
  const auto colder = any_water(), warmer = colder + TemperatureChange::from_c(0.1);
  const auto slow = days_at(model, colder), fast = days_at(model, warmer);
  RC_PRE(slow.has_value());
  RC_ASSERT(fast.has_value());
  RC_ASSERT(*fast < *slow);
  RC_ASSERT(std::isfinite(slow->count()) && slow->count() > 0.0);
}

RC_GTEST_PROP(Development, AtConstantTemperatureTakesTheCurvesDays, ()) {
  const auto species = any_species();
  const auto model = any_model(species, any_stage());
  const auto water = any_water();
  const auto days = days_at(model, water);
  RC_PRE(days.has_value());
  const std::vector<TemperatureSpell> daily(2000, {Days(1.0), water});
  const auto reached = time_to_stage(model, daily);
  RC_PRE(days->count() < 1999.0);
  RC_ASSERT(reached.has_value());
  RC_ASSERT(std::abs(reached->count() - days->count()) < 1e-6);
}

RC_GTEST_PROP(Development, NeverGoesBackAndIsUnchangedByCuttingDays, ()) {
  const auto species = any_species();
  const auto model = any_model(species, any_stage());
  const int parts = *rc::gen::inRange(2, 25);
  std::vector<TemperatureSpell> whole, cut;
  double before = 0.0;
  for (int i = 0; i < 30; ++i) {
    const auto water = any_water(-1.0, 16.0);
    whole.push_back({Days(1.0), water});
    for (int k = 0; k < parts; ++k) cut.push_back({Days(1.0 / parts), water});
    const double now = progress_over(model, whole);
    RC_ASSERT(now >= before);
    before = now;
  }
  RC_ASSERT(std::abs(progress_over(model, cut) - before) < 1e-12);
}

// --- the forecast ---

struct Case {
  SpeciesProfile species;
  BatchStart start;
  std::vector<DailyTemperature> record;
  Date today;
};

StartKnown any_start(int shift) {
  const std::optional<IncubationTemperature> incubation =
      *rc::gen::arbitrary<bool>()
          ? std::optional(IncubationTemperature{any_water(4.0, 11.0), TemperatureChange::from_c(1.0)})
          : std::nullopt;
  switch (*rc::gen::inRange(0, 3)) {
    case 0:
      return Fertilised{day(shift - *rc::gen::inRange(0, 40)), Days(*rc::gen::inRange(0, 4)), incubation};
    case 1:
      return ThermalUnitsSoFar{ThermalSum::from_c_days(*rc::gen::inRange(0, 350)),
                               ThermalSum::from_c_days(*rc::gen::inRange(0, 30)), day(shift), incubation};
    default:
      return ReceivedEyed{day(shift), 0.5, 0.9, incubation};
  }
}

Case any_case() {
  Case c{any_species(), {any_start(0), EggOrigin::unknown, {}}, {}, day(*rc::gen::inRange(0, 60))};
  const double base_c = any_water(4.0, 11.0).c();
  for (int i = 0; i < 150; ++i)
    c.record.push_back({day(i), Temperature::from_c(base_c + std::sin(i * 0.3)),
                        TemperatureChange::from_c(i < 40 ? 0.2 : 0.8), i < 40});
  return c;
}

DevelopmentForecast forecast(const Case& c, const std::vector<ObservedMilestone>& seen = {}) {
  return *forecast_development(c.species, {}, c.start, c.record, seen, c.today);
}

StartKnown shifted(StartKnown start, int days) {
  std::visit(
      [&](auto& each) {
        if constexpr (requires { each.as_of; })
          each.as_of += std::chrono::days(days);
        else
          each.day += std::chrono::days(days);
      },
      start);
  return start;
}

double width_days(const StageForecast& f) {
  return (f.lot.high_90 - f.lot.low_90).count();
}

RC_GTEST_PROP(DevelopmentForecasts, AreOrderedWindowsAndShares, ()) {
  const auto f = forecast(any_case());
  double lot = 0.0, batch = 0.0;
  for (std::size_t i = 0; i < 4; ++i) {
    RC_ASSERT(f.lot_stage_probability[i] >= 0.0 && f.batch_fraction[i] >= 0.0);
    lot += f.lot_stage_probability[i];
    batch += f.batch_fraction[i];
  }
  RC_ASSERT(std::abs(lot - 1.0) < 1e-9);
  RC_ASSERT(std::abs(batch - 1.0) < 1e-9);
  for (const StageForecast& each : f.stages) {
    for (const MomentWindow* w : {&each.lot, &each.first_tenth, &each.last_tenth})
      RC_ASSERT(w->low_90 <= w->low_50 && w->low_50 <= w->median && w->median <= w->high_50 &&
                w->high_50 <= w->high_90);
    RC_ASSERT(each.first_tenth.median <= each.lot.median && each.lot.median <= each.last_tenth.median);
    RC_ASSERT(each.past_fraction.low <= each.past_fraction.mid && each.past_fraction.mid <= each.past_fraction.high);
  }
  RC_ASSERT(f.stages[0].lot.median <= f.stages[1].lot.median && f.stages[1].lot.median <= f.stages[2].lot.median);
}

RC_GTEST_PROP(DevelopmentForecasts, MoveWithTheCalendar, ()) {
  const Case c = any_case();
  const int shift = *rc::gen::inRange(-400, 400);
  Case moved = c;
  moved.start.known = shifted(c.start.known, shift);
  moved.today += std::chrono::days(shift);
  for (auto& each : moved.record) each.day += std::chrono::days(shift);
  const auto a = forecast(c), b = forecast(moved);
  for (std::size_t i = 0; i < 3; ++i) {
    RC_ASSERT(std::abs((b.stages[i].lot.median - a.stages[i].lot.median).count() - shift) < 1e-6);
    RC_ASSERT(std::abs((b.stages[i].lot.high_90 - a.stages[i].lot.high_90).count() - shift) < 1e-6);
  }
}

RC_GTEST_PROP(DevelopmentForecasts, ComeEarlierInWarmerWater, ()) {
  const Case c = any_case();
  Case warmer = c;
  for (auto& each : warmer.record) each.mean = each.mean + TemperatureChange::from_c(0.5);
  const auto a = forecast(c), b = forecast(warmer);
  // Milestones already behind the record's first day depend on the hatchery's water alone; their medians repeat to a
  // tenth of a day.
  for (std::size_t i = 0; i < 3; ++i) RC_ASSERT(b.stages[i].lot.median <= a.stages[i].lot.median + Days(0.1));
}

RC_GTEST_PROP(DevelopmentForecasts, AreTheSameWhenAskedAgain, ()) {
  const Case c = any_case();
  const std::vector<ObservedMilestone> seen{{Milestone::first_hatch, c.today, false}};
  const auto a = forecast(c, seen), b = forecast(c, seen);
  for (std::size_t i = 0; i < 3; ++i) {
    RC_ASSERT(a.stages[i].lot.low_90 == b.stages[i].lot.low_90);
    RC_ASSERT(a.stages[i].happened_probability == b.stages[i].happened_probability);
  }
}

// An expected sighting narrows; a contradicted one is flagged instead and may widen.
RC_GTEST_PROP(DevelopmentForecasts, NarrowWhenASightingFits, ()) {
  Case c = any_case();
  const auto expected = forecast(c).stage(Stage::hatch).lot.median;
  c.today = day_of(expected) + std::chrono::days(1);
  const auto before = forecast(c), after = forecast(c, {{Milestone::half_hatched, day_of(expected)}});
  RC_PRE(after.observations.at(0).used && after.observations[0].sentence.empty());
  RC_ASSERT(width_days(after.stage(Stage::hatch)) < width_days(before.stage(Stage::hatch)));
  RC_ASSERT(width_days(after.stage(Stage::swim_up)) <= width_days(before.stage(Stage::swim_up)) * 1.02);
}

RC_GTEST_PROP(DevelopmentForecasts, AreNeverNarrowerForMissingDays, ()) {
  Case c = any_case();
  for (auto& each : c.record) each.mean = c.record[0].mean;  // so that the filling does not happen to be warmer
  Case holed = c;
  const int from = *rc::gen::inRange(1, 25), count = *rc::gen::inRange(1, 12);
  holed.record.erase(holed.record.begin() + from, holed.record.begin() + from + count);
  const auto a = forecast(c), b = forecast(holed);
  // Ends of windows come from samples; a width repeats to within about one percent of itself.
  for (std::size_t i = 0; i < 3; ++i) RC_ASSERT(width_days(b.stages[i]) >= width_days(a.stages[i]) * 0.98);
}

// 90 % windows hold about 90 % of lots drawn from the stated model, also after learning from a noisy sighting.
TEST(DevelopmentForecasts, CoverTheTruthsTheyClaim) {
  const auto species = *find_species("brook_trout");
  const auto hatch = *model_for(species, Stage::hatch), swim_up = *model_for(species, Stage::swim_up);
  numerics::RandomStream stream(20310110);
  constexpr int lots = 300;
  int hatch_before = 0, swim_up_before = 0, swim_up_after = 0;
  for (int lot = 0; lot < lots; ++lot) {
    const double shift_past_c = stream.normal(0.0, 0.3), shift_future_c = stream.normal(0.0, 0.8);
    const double date_error = stream.normal(0.0, 2.0 / 1.645);
    std::vector<DailyTemperature> told;
    std::vector<TemperatureSpell> truth;
    for (int i = 0; i < 300; ++i) {
      const bool measured = i < 40;
      told.push_back({day(i), Temperature::from_c(8.0), TemperatureChange::from_c(measured ? 0.3 : 0.8), measured});
      truth.push_back({Days(1.0), Temperature::from_c(8.0 + (measured ? shift_past_c : shift_future_c))});
    }
    // Fertilised at noon of day 2 plus the date's error.
    const double start = 2.5 + date_error;
    const double x = stream.normal(0.0, species.lot_log_sd);
    const double k_hatch = std::exp(x), k_swim_up = std::exp(0.7 * x + stream.normal(0.0, 0.75 * species.lot_log_sd));
    const auto reach = [&](const DevelopmentModel& model, double k) {
      const double skipped = start * progress_per_day(model, truth[0].mean);
      return time_to_stage(model, truth, 1.0 - (k + skipped))->count();
    };
    const double hatch_at = reach(hatch, k_hatch), swim_up_at = reach(swim_up, k_swim_up);
    const BatchStart batch{Fertilised{day(2), Days(2.0), {}}, EggOrigin::farmed, {}};
    const auto inside = [&](const DevelopmentForecast& f, Stage stage, double at) {
      const auto moment = CalendarMoment(day(0)) + Days(at);
      return f.stage(stage).lot.low_90 <= moment && moment <= f.stage(stage).lot.high_90;
    };
    const auto before = *forecast_development(species, {}, batch, told, {}, day(39));
    hatch_before += inside(before, Stage::hatch, hatch_at);
    swim_up_before += inside(before, Stage::swim_up, swim_up_at);
    // Half hatched, looked for once a day at noon.
    const Date noticed = day(static_cast<int>(std::ceil(hatch_at - 0.5)));
    const auto after = *forecast_development(
        species, {}, batch, told, std::vector<ObservedMilestone>{{Milestone::half_hatched, noticed}}, noticed);
    swim_up_after += inside(after, Stage::swim_up, swim_up_at);
  }
  // Binomial with 300 trials at 0.9: 0.99 of them between 256 and 283.
  for (const int count : {hatch_before, swim_up_before, swim_up_after}) {
    EXPECT_GE(count, 254);
    EXPECT_LE(count, 290);
  }
}

}  // namespace
}  // namespace redd::biology
