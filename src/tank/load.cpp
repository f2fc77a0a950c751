#include "tank/load.h"

#include <cmath>

namespace redd::tank {
namespace {

constexpr double q10 = 2.47;  // of oxygen use between the two fits; used for excretion of eggs and alevins too
constexpr double nitrogen_of_protein = 0.16;
constexpr double reference_egg_mg = 100.0;

double warmth(double temperature_c, double reference_c) { return std::pow(q10, (temperature_c - reference_c) / 10.0); }

/// Straight from nothing to twice the mean.
double ramp(double share) { return 2.0 * share; }

}  // namespace

double excretion_mg_n_per_day(const Brood& brood, double temperature_c) {
  constexpr double egg_mg_n = 0.0078, alevin_mg_n = 0.029, fasting_mg_n_per_g = 0.07, fed_share_of_protein = 0.092;
  const double size = brood.egg_mass_mg / reference_egg_mg;
  switch (brood.stage) {
    case Stage::egg: return brood.count * size * egg_mg_n * ramp(brood.stage_share_fraction) * warmth(temperature_c, 10.0);
    case Stage::alevin: return brood.count * size * alevin_mg_n * warmth(temperature_c, 10.0);
    case Stage::fry: break;
  }
  const double eaten_g = brood.feed_g_per_day * brood.eaten_fraction;
  return brood.count * brood.fry_mass_g * fasting_mg_n_per_g + 1e3 * fed_share_of_protein * brood.feed_protein_fraction * eaten_g;
}

double organic_mg_n_per_day(const Brood& brood) {
  if (brood.stage != Stage::fry) return 0.0;
  constexpr double faeces_share = 0.1;
  const double protein_n_mg = 1e3 * nitrogen_of_protein * brood.feed_protein_fraction * brood.feed_g_per_day;
  return protein_n_mg * (1.0 - brood.eaten_fraction + faeces_share * brood.eaten_fraction);
}

double oxygen_use_mg_o2_per_day(const Brood& brood, double temperature_c) {
  constexpr double egg_mg = 24.0 * 0.004, alevin_mg = 0.57;
  constexpr double mg_per_umol_h = 24.0 * 0.031998;
  const double size = brood.egg_mass_mg / reference_egg_mg;
  switch (brood.stage) {
    case Stage::egg: return brood.count * size * egg_mg * brood.stage_share_fraction * warmth(temperature_c, 10.0);
    case Stage::alevin: return brood.count * size * alevin_mg * warmth(temperature_c, 10.0);
    case Stage::fry: break;
  }
  return brood.count * mg_per_umol_h * 6.509 * std::pow(brood.fry_mass_g, 0.925) * warmth(temperature_c, 12.0);
}

void add_brood(DayForcing& day, const Brood& brood) {
  day.excretion_mg_n_per_day += excretion_mg_n_per_day(brood, day.temperature_c);
  day.organic_mg_n_per_day += organic_mg_n_per_day(brood);
  day.oxygen_use_mg_o2_per_day += oxygen_use_mg_o2_per_day(brood, day.temperature_c);
}

}  // namespace redd::tank
