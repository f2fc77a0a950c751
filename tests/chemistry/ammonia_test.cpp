// Laws and edges; published values are in tests/reference/emerson1975_test.cpp and epa2013_test.cpp.
#include "chemistry/ammonia.h"

#include <gtest/gtest.h>

#include "chemistry/limits.h"

namespace redd::chemistry {
namespace {

TEST(UnIonized, TotalAndPartAreInverse) {
  const auto t = Temperature::from_c(8.0);
  const auto ph = Ph::from_ph(7.4);
  const auto total = total_with_un_ionized(limits::action_un_ionized_ammonia, t, ph, 0.002);
  EXPECT_NEAR(un_ionized(total, t, ph, 0.002).mg_nh3_per_l(), 0.0125, 1e-15);
}

TEST(UnIonized, ActionAndAlarmAtPhEightAndTenDegrees) {  // worked out elsewhere: 0.56 and 1.13 mg N/L
  const auto t = Temperature::from_c(10.0);
  const auto ph = Ph::from_ph(8.0);
  EXPECT_NEAR(total_with_un_ionized(limits::action_un_ionized_ammonia, t, ph).mg_n_per_l(), 0.56, 0.005);
  EXPECT_NEAR(total_with_un_ionized(limits::alarm_un_ionized_ammonia, t, ph).mg_n_per_l(), 1.13, 0.005);
}

TEST(AmmoniaRange, EndsAreInsideAndBeyondIsNot) {
  EXPECT_TRUE(ammonia_in_fitted_range(Temperature::from_c(0), Ph::from_ph(7)));
  EXPECT_TRUE(ammonia_in_fitted_range(Temperature::from_c(50), Ph::from_ph(7)));
  EXPECT_FALSE(ammonia_in_fitted_range(Temperature::from_c(50.1), Ph::from_ph(7)));
  EXPECT_FALSE(ammonia_in_fitted_range(Temperature::from_c(10), Ph::from_ph(7), 0.5));
  EXPECT_TRUE(epa2013_in_fitted_range(Temperature::from_c(8), Ph::from_ph(9.0)));
  EXPECT_FALSE(epa2013_in_fitted_range(Temperature::from_c(8), Ph::from_ph(9.1)));
}

TEST(Criteria, SalmonidsNeverRaiseTheAcuteLimit) {
  for (double c = 0.0; c <= 30.0; c += 2.0)
    for (double ph = 6.5; ph <= 9.0; ph += 0.25) {
      const auto t = Temperature::from_c(c);
      EXPECT_LE(acute_criterion_epa2013(t, Ph::from_ph(ph), true), acute_criterion_epa2013(t, Ph::from_ph(ph), false));
    }
}

TEST(Criteria, ChronicStopsRisingBelowSevenDegrees) {
  EXPECT_EQ(chronic_criterion_epa2013(Temperature::from_c(2), Ph::from_ph(7.5)), chronic_criterion_epa2013(Temperature::from_c(7), Ph::from_ph(7.5)));
}

// Why the chronic criterion is no limit for eggs: at pH 8 and 10 C it is about 0.033 mg NH3/L, above what killed eggs [solbe1989].
TEST(Criteria, ChronicAllowsMoreThanWhatKilledNewEggs) {
  const auto t = Temperature::from_c(10);
  const auto ph = Ph::from_ph(8);
  const double allowed = un_ionized(chronic_criterion_epa2013(t, ph), t, ph).mg_nh3_per_l();
  EXPECT_NEAR(allowed, 0.033, 0.001);
  EXPECT_GT(allowed, limits::un_ionized_ammonia_killed_new_eggs.mg_nh3_per_l());
}

}  // namespace
}  // namespace redd::chemistry
