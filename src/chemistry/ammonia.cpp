#include "chemistry/ammonia.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chemistry/activity.h"
#include "chemistry/limits.h"

namespace redd::chemistry {
namespace {

double ten_to(double exponent) { return std::exp(std::numbers::ln10 * exponent); }

/// The 2013 criteria share one shape in pH: a low plateau in the alkaline and a high one in the acid range around a midpoint.
double ph_shape(double alkaline_end, double acid_end, double middle_ph, double ph) {
  return alkaline_end / (1.0 + ten_to(middle_ph - ph)) + acid_end / (1.0 + ten_to(ph - middle_ph));
}

}  // namespace

double ammonium_pka(Temperature temperature) { return 0.09018 + 2729.92 / temperature.k(); }

double un_ionized_fraction(Temperature temperature, Ph ph, double ionic_strength_mol_per_l) {
  // pH is an activity, so screening of the ammonium ion alone shifts the balance towards it.
  const double pka = ammonium_pka(temperature) - log_activity(temperature, ionic_strength_mol_per_l, 1);
  return 1.0 / (1.0 + ten_to(pka - ph.ph()));
}

NitrogenConc un_ionized(NitrogenConc total, Temperature temperature, Ph ph, double ionic_strength_mol_per_l) {
  return un_ionized_fraction(temperature, ph, ionic_strength_mol_per_l) * total;
}

NitrogenConc total_with_un_ionized(NitrogenConc un_ionized, Temperature temperature, Ph ph, double ionic_strength_mol_per_l) {
  return (1.0 / un_ionized_fraction(temperature, ph, ionic_strength_mol_per_l)) * un_ionized;
}

bool ammonia_in_fitted_range(Temperature temperature, Ph ph, double ionic_strength_mol_per_l) {
  return temperature.c() >= 0.0 && temperature.c() <= 50.0 && ph.ph() >= 5.0 && ph.ph() <= 12.0 &&
         activity_in_fitted_range(ionic_strength_mol_per_l);
}

NitrogenConc acute_criterion_epa2013(Temperature temperature, Ph ph, bool salmonids) {
  const double invertebrates = 23.12 * ten_to(0.036 * (20.0 - temperature.c()));
  const double shape = 0.7249 * ph_shape(0.0114, 1.6181, 7.204, ph.ph());
  if (!salmonids) return NitrogenConc::from_mg_n_per_l(shape * std::min(51.93, invertebrates));
  const double salmonid = ph_shape(0.275, 39.0, 7.204, ph.ph());
  return NitrogenConc::from_mg_n_per_l(std::min(salmonid, shape * invertebrates));
}

NitrogenConc chronic_criterion_epa2013(Temperature temperature, Ph ph) {
  // Erratum: one public code base has 10 instead of 20 in the exponent, which gives 1.0 instead of 1.9 mg N/L at pH 7, 20 C.
  const double warmth = 2.126 * ten_to(0.028 * (20.0 - std::max(temperature.c(), 7.0)));
  return NitrogenConc::from_mg_n_per_l(0.8876 * ph_shape(0.0278, 1.1994, 7.688, ph.ph()) * warmth);
}

bool epa2013_in_fitted_range(Temperature temperature, Ph ph) {
  return temperature.c() >= 0.0 && temperature.c() <= 30.0 && ph.ph() >= 6.5 && ph.ph() <= 9.0;
}

NitrogenConc chronic_criterion_epa1985_salmonids(Temperature temperature, Ph ph) {
  const double capped_c = std::min(temperature.c(), 15.0);
  const double temperature_factor = ten_to(0.03 * (20.0 - capped_c));
  const double ph_factor = ph.ph() < 8.0 ? (1.0 + ten_to(7.4 - ph.ph())) / 1.25 : 1.0;
  const double acute_to_chronic = ph.ph() < 7.7 ? 24.0 * ten_to(7.7 - ph.ph()) / (1.0 + ten_to(7.4 - ph.ph())) : 16.0;
  const double un_ionized_mg_nh3_per_l = 0.8 / temperature_factor / ph_factor / acute_to_chronic;
  return total_with_un_ionized(NitrogenConc::from_mg_nh3_per_l(un_ionized_mg_nh3_per_l), temperature, ph);
}

NitrogenConc long_term_guideline_ccme(Temperature temperature, Ph ph) {
  return total_with_un_ionized(limits::un_ionized_ammonia_ccme, temperature, ph);
}

}  // namespace redd::chemistry
