#include <gtest/gtest.h>

#include <type_traits>

#include "quantities/nitrogen.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) { a + b; };
static_assert(!Addable<Temperature, Temperature>, "two temperatures never add");
static_assert(std::is_same_v<decltype(Temperature::from_c(1) - Temperature::from_c(0)), TemperatureChange>);
static_assert(!std::is_convertible_v<Alkalinity, Hardness>, "KH is not GH");

TEST(Temperature, KnownPointsAgree) {
  EXPECT_DOUBLE_EQ(Temperature::from_f(32.0).c(), 0.0);
  EXPECT_DOUBLE_EQ(Temperature::from_f(212.0).c(), 100.0);
  EXPECT_DOUBLE_EQ(Temperature::from_f(-40.0).c(), -40.0);
  EXPECT_DOUBLE_EQ(Temperature::from_c(25.0).k(), 298.15);
  EXPECT_DOUBLE_EQ(Temperature::from_k(273.15).c(), 0.0);
}

TEST(TemperatureChange, HasNoOffset) {
  EXPECT_DOUBLE_EQ(TemperatureChange::from_f(18.0).c(), 10.0);
  EXPECT_DOUBLE_EQ((Temperature::from_f(68.0) - Temperature::from_f(50.0)).c(), 10.0);
}

TEST(ThermalSum, CountsDaysAboveZeroOnly) {
  const auto sum = ThermalSum::from_c_days(0).after_days(10, Temperature::from_c(8)).after_days(5, Temperature::from_c(-1));
  EXPECT_DOUBLE_EQ(sum.c_days(), 80.0);
  EXPECT_DOUBLE_EQ(sum.f_units(), 144.0);  // ten days at 46.4 F are 14.4 units each
}

TEST(NitrogenConc, KitBasesConvertAtEntry) {
  EXPECT_NEAR(NitrogenConc::from_mg_no3_per_l(44.27).mg_n_per_l(), 10.0, 0.005);
  EXPECT_NEAR(NitrogenConc::from_mg_no2_per_l(3.2845).mg_n_per_l(), 1.0, 0.0001);
  EXPECT_NEAR(NitrogenConc::from_mg_nh3_per_l(1.2159).mg_n_per_l(), 1.0, 0.0001);
  EXPECT_NEAR(NitrogenConc::from_mg_nh4_per_l(1.2879).mg_n_per_l(), 1.0, 0.0001);
}

TEST(HardnessUnit, NamesAreExact) {
  EXPECT_EQ(hardness_unit_named("german_degrees"), HardnessUnit::german_degrees);
  EXPECT_FALSE(hardness_unit_named("German_degrees"));
  EXPECT_FALSE(hardness_unit_named(""));
}

TEST(Volume, UsGallonIsExact) { EXPECT_DOUBLE_EQ(Volume::from_us_gallons(55).l(), 208.19764812); }

}  // namespace
}  // namespace redd
