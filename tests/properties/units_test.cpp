// Every unit converts there and back, and keeps order.
#include "properties/generators.h"
#include "quantities/nitrogen.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::properties {
namespace {

bool same(double a, double b) { return std::abs(a - b) <= 1e-12 * std::max({1.0, std::abs(a), std::abs(b)}); }

RC_GTEST_PROP(Units, TemperaturesRoundTrip, ()) {
  const double value = *between(-40, 120);
  RC_ASSERT(same(Temperature::from_f(Temperature::from_c(value).f()).c(), value));
  RC_ASSERT(same(Temperature::from_k(Temperature::from_c(value).k()).c(), value));
  RC_ASSERT(same(TemperatureChange::from_f(TemperatureChange::from_c(value).f()).c(), value));
  RC_ASSERT(same(ThermalSum::from_f_units(ThermalSum::from_c_days(value).f_units()).c_days(), value));
}

RC_GTEST_PROP(Units, TemperaturePointsAndChangesFitTogether, ()) {
  const auto a = Temperature::from_c(*between(-5, 40)), b = Temperature::from_c(*between(-5, 40));
  RC_ASSERT(same((b + (a - b)).c(), a.c()));
  RC_ASSERT(same((a - b).f(), a.f() - b.f()));
}

RC_GTEST_PROP(Units, NitrogenRoundTripsInEveryBasis, ()) {
  const double value = *between(0, 500);
  for (const auto basis : {NitrogenBasis::n, NitrogenBasis::nh3, NitrogenBasis::nh4, NitrogenBasis::no2, NitrogenBasis::no3}) {
    RC_ASSERT(same(NitrogenConc::from(value, basis).as(basis), value));
    RC_ASSERT(NitrogenConc::from(value, basis).mg_n_per_l() <= value);
  }
}

RC_GTEST_PROP(Units, HardnessRoundTripsBetweenAnyTwoUnits, ()) {
  const double value = *between(0, 1000);
  const HardnessUnit units[] = {HardnessUnit::mg_caco3_per_l, HardnessUnit::german_degrees, HardnessUnit::french_degrees, HardnessUnit::english_degrees,
                                HardnessUnit::us_grains_per_gallon, HardnessUnit::mmol_per_l, HardnessUnit::meq_per_l};
  for (const auto from : units)
    for (const auto to : units) {
      RC_ASSERT(same(hardness_converted(hardness_converted(value, from, to), to, from), value));
      RC_ASSERT(same(Alkalinity::from(value, from).as(from), value));
      RC_ASSERT(same(Hardness::from(value, from).as(to), hardness_converted(value, from, to)));
    }
}

RC_GTEST_PROP(Units, VolumesAndMassesRoundTrip, ()) {
  const double value = *between(0, 10000);
  RC_ASSERT(same(Volume::from_us_gallons(Volume::from_l(value).us_gallons()).l(), value));
  RC_ASSERT(same(Mass::from_ounces(Mass::from_g(value).ounces()).g(), value));
  RC_ASSERT(same(Mass::from_mg(Mass::from_g(value).mg()).g(), value));
}

RC_GTEST_PROP(Units, WarmthAccumulatesEvenlyHoweverTheDaysAreSplit, ()) {
  const auto mean = Temperature::from_c(*between(-3, 25));
  const double days = *between(0, 100), share = *between(0, 1);
  const auto whole = ThermalSum::from_c_days(0).after_days(days, mean);
  const auto split = ThermalSum::from_c_days(0).after_days(days * share, mean).after_days(days * (1 - share), mean);
  RC_ASSERT(std::abs(whole.c_days() - split.c_days()) < 1e-9);
}

}  // namespace
}  // namespace redd::properties
