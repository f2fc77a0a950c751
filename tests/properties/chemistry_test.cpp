// Laws of speciation that hold for every water.
#include "chemistry/ammonia.h"
#include "chemistry/carbonate.h"
#include "properties/generators.h"

namespace redd::properties {
namespace {

using namespace chemistry;

RC_GTEST_PROP(Ammonia, TheUnIonizedShareRisesWithPhAndWarmthAndFallsWithSalts, ()) {
  const double c = *between(0, 49), ph = *between(5, 11.9), salts = *between(0, 0.09);
  const double here = un_ionized_fraction(Temperature::from_c(c), Ph::from_ph(ph), salts);
  RC_ASSERT(here > 0.0 && here < 1.0);
  RC_ASSERT(un_ionized_fraction(Temperature::from_c(c), Ph::from_ph(ph + 0.1), salts) > here);
  RC_ASSERT(un_ionized_fraction(Temperature::from_c(c + 1), Ph::from_ph(ph), salts) > here);
  RC_ASSERT(un_ionized_fraction(Temperature::from_c(c), Ph::from_ph(ph), salts + 0.01) < here);
}

RC_GTEST_PROP(Ammonia, CriteriaTightenWithPh, ()) {
  const auto t = Temperature::from_c(*between(0, 30));
  const double ph = *between(6.5, 8.9);
  const auto now = Ph::from_ph(ph), later = Ph::from_ph(ph + 0.1);
  RC_ASSERT(acute_criterion_epa2013(t, later, true) < acute_criterion_epa2013(t, now, true));
  RC_ASSERT(acute_criterion_epa2013(t, later, false) < acute_criterion_epa2013(t, now, false));
  RC_ASSERT(chronic_criterion_epa2013(t, later) < chronic_criterion_epa2013(t, now));
  RC_ASSERT(long_term_guideline_ccme(t, later) < long_term_guideline_ccme(t, now));
  RC_ASSERT(chronic_criterion_epa2013(t, now) < acute_criterion_epa2013(t, now, true));
}

RC_GTEST_PROP(Carbonate, MoreCarbonDioxideMeansLowerPh, ()) {
  const auto t = Temperature::from_c(*between(0, 40));
  const auto alkalinity = Alkalinity::from_meq_per_l(*between(0.05, 8));
  const double uatm = *between(50, 20000);
  RC_ASSERT(carbonate_from_pco2(t, alkalinity, 1.1 * uatm)->ph < carbonate_from_pco2(t, alkalinity, uatm)->ph);
  const auto state = carbonate_from_pco2(t, alkalinity, uatm);
  RC_ASSERT(carbonate_from_dic(t, alkalinity, state->dic_mmol_per_l + 0.05)->ph < state->ph);
}

RC_GTEST_PROP(Carbonate, MoreAlkalinityMeansHigherPhInTheSameAir, ()) {
  const auto t = Temperature::from_c(*between(0, 40));
  const double meq = *between(0, 8), uatm = *between(50, 20000);
  RC_ASSERT(carbonate_from_pco2(t, Alkalinity::from_meq_per_l(meq + 0.05), uatm)->ph > carbonate_from_pco2(t, Alkalinity::from_meq_per_l(meq), uatm)->ph);
}

RC_GTEST_PROP(Carbonate, SolvingForwardAndBackIsTheSameWater, ()) {
  const auto t = Temperature::from_c(*between(0, 90));
  const auto alkalinity = Alkalinity::from_meq_per_l(*between(0, 10));
  const double ph = *between(4, 10.5);
  const auto state = carbonate_from_ph(t, alkalinity, Ph::from_ph(ph));
  RC_PRE(state.has_value());
  RC_PRE(state->co2_mg_per_l > 1e-9);
  RC_ASSERT(std::abs(carbonate_from_dic(t, alkalinity, state->dic_mmol_per_l)->ph - ph) < 1e-6);
  RC_ASSERT(std::abs(carbonate_from_co2(t, alkalinity, state->co2_mg_per_l)->ph - ph) < 1e-6);
  RC_ASSERT(std::abs(carbonate_from_pco2(t, alkalinity, state->pco2_uatm)->ph - ph) < 1e-6);
}

RC_GTEST_PROP(Carbonate, EveryPartIsNonNegative, ()) {
  const auto state = carbonate_from_dic(Temperature::from_c(*between(0, 40)), Alkalinity::from_meq_per_l(*between(0, 10)), *between(0, 20));
  RC_ASSERT(state.has_value());
  RC_ASSERT(state->co2_mg_per_l >= 0.0 && state->bicarbonate_mmol_per_l >= 0.0 && state->carbonate_mmol_per_l >= 0.0);
  RC_ASSERT(state->ph >= 0.0 && state->ph <= 14.0);
}

}  // namespace
}  // namespace redd::properties
