// Laws of mixing: nothing is made or lost, and a water mixed with itself stays itself.
#include "chemistry/mixing.h"
#include "properties/generators.h"

namespace redd::properties {
namespace {

using namespace chemistry;

BufferedWater any_water() {
  return {Temperature::from_c(*between(1, 25)), Ph::from_ph(*between(5.5, 9.0)), Alkalinity::from_meq_per_l(*between(0.2, 8))};
}

double dic(const BufferedWater& water) { return carbonate_from_ph(water.temperature, water.alkalinity, water.ph)->dic_mmol_per_l; }

RC_GTEST_PROP(Mixing, NothingIsMadeOrLost, ()) {
  const auto a = any_water(), b = any_water();
  const double x = *between(0, 1);
  const auto mixture = mixed(a, b, x);
  RC_ASSERT(mixture.has_value());
  RC_ASSERT(std::abs(mixture->just_mixed.alkalinity_meq_per_l - (x * a.alkalinity.meq_per_l() + (1 - x) * b.alkalinity.meq_per_l())) < 1e-12);
  RC_ASSERT(std::abs(mixture->just_mixed.dic_mmol_per_l - (x * dic(a) + (1 - x) * dic(b))) < 1e-6);
  RC_ASSERT(std::abs(mixture->temperature.c() - (x * a.temperature.c() + (1 - x) * b.temperature.c())) < 1e-12);
}

RC_GTEST_PROP(Mixing, AWaterWithItselfIsItself, ()) {
  const auto water = any_water();
  const auto mixture = mixed(water, water, *between(0, 1));
  RC_ASSERT(mixture.has_value());
  RC_ASSERT(std::abs(mixture->just_mixed.ph - water.ph.ph()) < 1e-6);
}

RC_GTEST_PROP(Mixing, AllOfOneWaterIsThatWater, ()) {
  const auto a = any_water(), b = any_water();
  RC_ASSERT(std::abs(mixed(a, b, 1.0)->just_mixed.ph - a.ph.ph()) < 1e-6);
  RC_ASSERT(std::abs(mixed(a, b, 0.0)->just_mixed.ph - b.ph.ph()) < 1e-6);
}

RC_GTEST_PROP(Mixing, TheOrderOfTheWatersDoesNotMatter, ()) {
  const auto a = any_water(), b = any_water();
  const double x = *between(0, 1);
  RC_ASSERT(std::abs(mixed(a, b, x)->just_mixed.ph - mixed(b, a, 1 - x)->just_mixed.ph) < 1e-6);
}

RC_GTEST_PROP(Mixing, ConservedValuesStayBetweenTheTwo, ()) {
  const double a = *between(0, 100), b = *between(0, 100), value = mixed_value(*between(0, 1), a, b);
  RC_ASSERT(value >= std::min(a, b) - 1e-9 && value <= std::max(a, b) + 1e-9);
}

RC_GTEST_PROP(WaterChanges, ManySmallOnesFollowTheSameLawAsStepByStep, ()) {
  const double now = *between(0, 100), source = *between(0, 50), fraction = *between(0, 1);
  const int changes = *rc::gen::inRange(0, 12);
  double value = now;
  for (int i = 0; i < changes; ++i) value = mixed_value(fraction, source, value);
  RC_ASSERT(std::abs(after_water_changes(now, source, fraction, changes) - value) < 1e-9);
}

RC_GTEST_PROP(WaterChanges, TheFractionFoundReachesTheTarget, ()) {
  const double now = *between(10, 100), source = *between(0, 9), target = *between(9, 10);
  const auto fraction = fraction_to_reach(now, source, target);
  RC_ASSERT(fraction.has_value());
  RC_ASSERT(std::abs(after_water_changes(now, source, *fraction, 1) - target) < 1e-9);
}

}  // namespace
}  // namespace redd::properties
