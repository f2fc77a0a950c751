// Laws of loading: more, heavier or warmer animals never load less; less air, more height and more fish never leave more oxygen or more hours.
#include "chemistry/oxygen.h"
#include "planning/animal_load.h"
#include "planning/loading.h"
#include "planning/oxygen_budget.h"
#include "planning/oxygen_reserve.h"
#include "properties/generators.h"
#include "support/small_season.h"

namespace redd::properties {
namespace {

using namespace planning;

OxygenConc mg(double value) { return OxygenConc::from_mg_o2_per_l(value); }
Temperature any_water() { return Temperature::from_c(*between(1, 18)); }

LoadPoint any_point() {
  const double g = *between(0.08, 5), less = *between(0.5, 1), more = *between(1, 2);
  return {.stage = *rc::gen::element(tank::Stage::egg, tank::Stage::alevin, tank::Stage::fry), .each_g = {less * g, g, more * g, Support::assumed}, .water = any_water(),
          .ration_fraction = *between(0, 0.05)};
}

void never_less(const Estimate<double>& more, const Estimate<double>& less) {
  RC_ASSERT(more.low >= less.low * (1 - 1e-9));
  RC_ASSERT(more.mid >= less.mid * (1 - 1e-9));
  RC_ASSERT(more.high >= less.high * (1 - 1e-9));
}
void ordered(const Estimate<double>& e) { RC_ASSERT(e.low >= 0.0 && e.low <= e.mid && e.mid <= e.high); }

void loads_never_less(const LoadPoint& more, const LoadPoint& less) {
  const auto a = load_of_one(more), b = load_of_one(less);
  for (const auto& e : {a.breathed_mg_o2_per_h, a.bacteria_mg_o2_per_h, a.nitrogen_mg_n_per_day}) ordered(e);
  never_less(a.breathed_mg_o2_per_h, b.breathed_mg_o2_per_h);
  never_less(a.bacteria_mg_o2_per_h, b.bacteria_mg_o2_per_h);
  never_less(a.nitrogen_mg_n_per_day, b.nitrogen_mg_n_per_day);
}

RC_GTEST_PROP(Loading, HeavierAnimalsNeverLoadLess, ()) {
  const LoadPoint light = any_point();
  LoadPoint heavy = light;
  const double factor = *between(1, 3);
  heavy.each_g = {factor * light.each_g.low, factor * light.each_g.mid, factor * light.each_g.high, Support::assumed};
  loads_never_less(heavy, light);
}

RC_GTEST_PROP(Loading, WarmerAnimalsNeverLoadLess, ()) {
  const LoadPoint cold = any_point();
  LoadPoint warm = cold;
  warm.water = cold.water + TemperatureChange::from_c(*between(0, 5));
  loads_never_less(warm, cold);
}

RC_GTEST_PROP(Loading, MoreFoodNeverLoadsLess, ()) {
  const LoadPoint little = any_point();
  LoadPoint more = little;
  more.ration_fraction += *between(0, 0.03);
  loads_never_less(more, little);
}

RC_GTEST_PROP(Loading, MoreUseOrLessAirNeverLeavesMoreOxygen, ()) {
  const double full = *between(6, 14), use = *between(0.1, 500), air = *between(1, 500);
  const auto estimate = [](double mid) { return Estimate<double>{0.5 * mid, mid, 2.0 * mid, Support::assumed}; };
  const auto rest = steady_oxygen(mg(full), estimate(use), estimate(air));
  RC_ASSERT(rest.low <= rest.mid && rest.mid <= rest.high && rest.high <= mg(full));
  RC_ASSERT(steady_oxygen(mg(full), estimate(use * *between(1, 3)), estimate(air)).mid <= rest.mid);
  RC_ASSERT(steady_oxygen(mg(full), estimate(use), estimate(air * *between(0.3, 1))).mid <= rest.mid);
}

RC_GTEST_PROP(Loading, TheNumberCarriedIsTheOneThatRestsAtTheLimit, ()) {
  const double full = *between(8, 14), limit = *between(4, 7.9), use = *between(0.01, 1), air = *between(1, 300);
  const auto carried = carried_by_oxygen(mg(full), mg(limit), {air, air, air}, {use, use, use});
  RC_ASSERT(std::abs(steady_oxygen(mg(full), {carried.mid * use, carried.mid * use, carried.mid * use}, {air, air, air}).mid.mg_o2_per_l() - limit) < 1e-6);
}

RC_GTEST_PROP(Loading, AReadingNarrowsTheAirAndNeverWidensIt, ()) {
  const Estimate<double> before{*between(1, 10), 20, *between(40, 300), Support::assumed};
  const double full = *between(8, 14), at = *between(2, 16), use = *between(1, 400);
  const auto after = learnt_transfer_l_per_h(before, mg(full), {mg(at - 0.5), mg(at), mg(at + 0.5), Support::measured}, {0.7 * use, use, 1.5 * use});
  ordered(after);
  const bool inside = after.low >= before.low - 1e-9 && after.high <= before.high + 1e-9;
  const double least = 0.7 * use / (full - (at - 0.5)), most = full > at + 0.5 ? 1.5 * use / (full - (at + 0.5)) : 1e99;
  RC_ASSERT(inside || (at - 0.5 < full && (before.high < least || before.low > most)));  // else the reading alone speaks
}

RC_GTEST_PROP(Loading, SaturationAndWhatAirBringsFallWithHeight, ()) {
  const Temperature water = any_water();
  const double low_m = *between(0, 3000), high_m = low_m + *between(1, 1500);
  const auto full = [&](double m) { return chemistry::oxygen_saturation(water, chemistry::pressure_mmhg_at_elevation(m)); };
  RC_ASSERT(full(high_m) < full(low_m));
  RC_ASSERT(air_transfer_l_per_h({.air_l_per_min = 2.0, .elevation_m = high_m}, water).mid < air_transfer_l_per_h({.air_l_per_min = 2.0, .elevation_m = low_m}, water).mid);
  for (const auto stage : biology::all_life_stages) RC_ASSERT(planned_oxygen(stage, full(high_m)) <= planned_oxygen(stage, full(low_m)));
}

ReserveCase fry_case(int count, double g, double water_c) {
  const auto water = Temperature::from_c(water_c);
  const auto full = chemistry::oxygen_saturation(water);
  ReserveCase at{.water = water, .warmed = Temperature::from_c(water_c + 2.0), .start = {full, full, full}};
  at.life = Life::fry;
  at.count = count;
  at.fry_g = {0.7 * g, g, 1.5 * g, Support::assumed};
  return at;
}

void never_longer(const HoldSpan& shorter, const HoldSpan& longer) {
  const auto hours = [](const std::optional<Hours>& h) { return h ? h->count() : 1e99; };
  RC_ASSERT(hours(shorter.soonest) <= hours(longer.soonest) * (1 + 1e-9));
  RC_ASSERT(hours(shorter.likely) <= hours(longer.likely) * (1 + 1e-9));
  RC_ASSERT(hours(shorter.latest) <= hours(longer.latest) * (1 + 1e-9));
}

RC_GTEST_PROP(Loading, ReserveShrinksWithMassNumberAndTheHeightOfTheLimit, ()) {
  const int count = *rc::gen::inRange(10, 500);
  const double g = *between(0.1, 3), water_c = *between(4, 14);
  const auto span = tank_reserve(fry_case(count, g, water_c));
  never_longer(tank_reserve(fry_case(count, g * *between(1, 2), water_c)), span);
  never_longer(tank_reserve(fry_case(count + *rc::gen::inRange(0, 200), g, water_c)), span);
  never_longer(span, tank_reserve(fry_case(count, g, water_c), mg(*between(3, 7))));
}

// The whole view: a larger brood in the same tank never meets its limit later and never leaves more oxygen.
TEST(Loading, MoreFishNeverLowerThePredictedLoad) {
  const auto view_of = [](int count) {
    testing::SmallSeason season;
    season.quiet_tests(7);
    records::EggReceipt eggs;
    eggs.count = count;
    eggs.start = records::EggReceipt::Start::thermal_sum;
    eggs.thermal_sum = ThermalSum::from_c_days(300);
    season.add(8, eggs);
    const auto day = season.look(12);
    return loading_view({day.season, day.records, day.belief, nullptr, day.zone, day.now});
  };
  const auto few = view_of(60), many = view_of(500);
  ASSERT_EQ(few.days.size(), many.days.size());
  for (std::size_t i = 0; i < few.days.size(); ++i) {
    EXPECT_LE(many.days[i].oxygen.mid, few.days[i].oxygen.mid);
    for (const LoadLimit limit : all_load_limits)
      if (few.days[i].by(limit)) EXPECT_GE(many.days[i].by(limit)->over_probability, few.days[i].by(limit)->over_probability);
  }
  ASSERT_TRUE(many.reached);
  if (few.reached) EXPECT_GE(few.reached->day, many.reached->day);
}

}  // namespace
}  // namespace redd::properties
