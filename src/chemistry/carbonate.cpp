#include "chemistry/carbonate.h"

#include <cmath>
#include <numbers>

#include "chemistry/activity.h"
#include "chemistry/molar_masses.h"
#include "numerics/roots.h"

namespace redd::chemistry {
namespace {

double ten_to(double exponent) { return std::exp(std::numbers::ln10 * exponent); }

constexpr double ph_tolerance = 1e-10;
/// Bracket of every solve. No water a test kit meets lies outside; the functions below are monotone in pH over all of it.
constexpr double lowest_ph = 0.0;
constexpr double highest_ph = 14.0;

CarbonateConstants constants_for(Temperature temperature, Alkalinity alkalinity, IonicStrength ionic_strength) {
  return carbonate_constants(temperature, ionic_strength ? *ionic_strength : ionic_strength_from_alkalinity(alkalinity));
}

/// Charge that hydroxide and hydrogen ions add to the alkalinity, eq/L.
double water_alkalinity(const CarbonateConstants& k, double h) {
  return k.kw_mixed / h - h / k.hydrogen_activity_coefficient;
}

/// Everything about a water of known pH and dissolved CO2 (mol/L).
CarbonateState state_of(const CarbonateConstants& k, Alkalinity alkalinity, double ph, double co2_mol_per_l) {
  const double h = ten_to(-ph);
  const double bicarbonate = co2_mol_per_l * k.k1_mixed / h;
  const double carbonate = bicarbonate * k.k2_mixed / h;
  return {.ph = ph,
          .alkalinity_meq_per_l = alkalinity.meq_per_l(),
          .dic_mmol_per_l = 1e3 * (co2_mol_per_l + bicarbonate + carbonate),
          .co2_mg_per_l = 1e3 * molar_mass::co2 * co2_mol_per_l,
          .pco2_uatm = 1e6 * co2_mol_per_l / k.kh,
          .bicarbonate_mmol_per_l = 1e3 * bicarbonate,
          .carbonate_mmol_per_l = 1e3 * carbonate};
}

std::optional<CarbonateState> with_dissolved_co2(const CarbonateConstants& k, Alkalinity alkalinity, double co2_mol_per_l) {
  if (!(co2_mol_per_l > 0.0)) return std::nullopt;
  const double wanted = 1e-3 * alkalinity.meq_per_l();
  const auto ph = numerics::root_between(
      [&](double trial_ph) {
        const double h = ten_to(-trial_ph);
        return co2_mol_per_l * k.k1_mixed / h * (1.0 + 2.0 * k.k2_mixed / h) + water_alkalinity(k, h) - wanted;
      },
      lowest_ph, highest_ph, ph_tolerance);
  if (!ph) return std::nullopt;
  return state_of(k, alkalinity, *ph, co2_mol_per_l);
}

}  // namespace

CarbonateConstants carbonate_constants(Temperature temperature, double ionic_strength_mol_per_l) {
  const double t = temperature.k();
  const double log_t = std::log10(t);
  const double per_t = 1.0 / t;
  const double log_k1 = -356.3094 - 0.06091964 * t + 21834.37 * per_t + 126.8339 * log_t - 1684915.0 * per_t * per_t;
  const double log_k2 = -107.8871 - 0.03252849 * t + 5151.79 * per_t + 38.92561 * log_t - 563713.9 * per_t * per_t;
  const double log_kh = 108.3865 + 0.01985076 * t - 6919.53 * per_t - 40.45154 * log_t + 669365.0 * per_t * per_t;
  const double log_kw = -283.971 - 0.05069842 * t + 13323.0 * per_t + 102.24447 * log_t - 1119669.0 * per_t * per_t;
  const double log_g1 = log_activity(temperature, ionic_strength_mol_per_l, 1);
  const double log_g2 = 4.0 * log_g1;  // Davies: proportional to the square of the charge
  return {.pk1 = -log_k1,
          .pk2 = -log_k2,
          .pkw = -log_kw,
          .pkh = -log_kh,
          .k1_mixed = ten_to(log_k1 - log_g1),
          .k2_mixed = ten_to(log_k2 + log_g1 - log_g2),
          .kw_mixed = ten_to(log_kw - log_g1),
          .kh = ten_to(log_kh),
          .hydrogen_activity_coefficient = ten_to(log_g1)};
}

std::optional<CarbonateState> carbonate_from_ph(Temperature temperature, Alkalinity alkalinity, Ph ph,
                                                IonicStrength ionic_strength) {
  const CarbonateConstants k = constants_for(temperature, alkalinity, ionic_strength);
  const double h = ten_to(-ph.ph());
  const double carbon_alkalinity = 1e-3 * alkalinity.meq_per_l() - water_alkalinity(k, h);
  const double co2_mol_per_l = carbon_alkalinity / (k.k1_mixed / h * (1.0 + 2.0 * k.k2_mixed / h));
  if (!(co2_mol_per_l >= 0.0) || !std::isfinite(co2_mol_per_l)) return std::nullopt;
  return state_of(k, alkalinity, ph.ph(), co2_mol_per_l);
}

std::optional<CarbonateState> carbonate_from_pco2(Temperature temperature, Alkalinity alkalinity, double pco2_uatm,
                                                  IonicStrength ionic_strength) {
  const CarbonateConstants k = constants_for(temperature, alkalinity, ionic_strength);
  return with_dissolved_co2(k, alkalinity, 1e-6 * pco2_uatm * k.kh);
}

std::optional<CarbonateState> carbonate_from_co2(Temperature temperature, Alkalinity alkalinity, double co2_mg_per_l,
                                                 IonicStrength ionic_strength) {
  const CarbonateConstants k = constants_for(temperature, alkalinity, ionic_strength);
  return with_dissolved_co2(k, alkalinity, 1e-3 * co2_mg_per_l / molar_mass::co2);
}

std::optional<CarbonateState> carbonate_from_dic(Temperature temperature, Alkalinity alkalinity, double dic_mmol_per_l,
                                                 IonicStrength ionic_strength) {
  if (!(dic_mmol_per_l >= 0.0)) return std::nullopt;
  const CarbonateConstants k = constants_for(temperature, alkalinity, ionic_strength);
  const double wanted = 1e-3 * alkalinity.meq_per_l();
  const double dic_mol_per_l = 1e-3 * dic_mmol_per_l;
  const double k1k2 = k.k1_mixed * k.k2_mixed;
  const auto ph = numerics::root_between(
      [&](double trial_ph) {
        const double h = ten_to(-trial_ph);
        const double shares = h * h + k.k1_mixed * h + k1k2;
        return dic_mol_per_l * (k.k1_mixed * h + 2.0 * k1k2) / shares + water_alkalinity(k, h) - wanted;
      },
      lowest_ph, highest_ph, ph_tolerance);
  if (!ph) return std::nullopt;
  const double h = ten_to(-*ph);
  return state_of(k, alkalinity, *ph, dic_mol_per_l * h * h / (h * h + k.k1_mixed * h + k1k2));
}

bool carbonate_in_fitted_range(Temperature temperature, Alkalinity alkalinity) {
  return temperature.c() >= 0.0 && temperature.c() <= 90.0 && alkalinity.meq_per_l() >= 0.0 && alkalinity.meq_per_l() <= 10.0;
}

}  // namespace redd::chemistry
