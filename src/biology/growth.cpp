#include "biology/growth.h"

#include <algorithm>
#include <cmath>

namespace redd::biology {
namespace {

GrowthModel thermal_coefficient(const SpeciesProfile& species) {
  return {.key = "iwama1981",
          .name = "thermal growth coefficient",
          .form = GrowthModel::Form::thermal_coefficient,
          .factor = species.growth_coefficient,
          .source = "Iwama & Tautz 1981, equation for W(t), exponent 1/3; limits after Jobling 2003"};
}

/// Assumed: of the factors worked back from nine hatchery series (1.1 to 2.7, docs/science/growth.md), a little below their middle: schools often raise wild stock.
constexpr Estimate<double> hatchery_over_wild{1.1, 1.8, 2.9, Support::assumed};

GrowthModel elliott(const SpeciesProfile& species) {
  GrowthModel model{.key = "elliott1995",
                    .name = "Elliott model (brown trout)",
                    .form = GrowthModel::Form::elliott,
                    .exponent = 0.308,
                    .elliott_c = 2.803,
                    .no_growth_below = Temperature::from_c(3.56),
                    .best = Temperature::from_c(13.11),
                    .no_growth_above = Temperature::from_c(19.48),
                    .fitted_low = Temperature::from_c(3.6),
                    .fitted_high = Temperature::from_c(19.5),
                    .lightest = Mass::from_g(1.0),
                    .heaviest = Mass::from_g(300.0),
                    .own_species = species.key == "brown_trout",
                    .factor = hatchery_over_wild,
                    .source = "Elliott, Hurley & Fryer 1995, equation for W(t) (constants from memory)"};
  if (species.key == "atlantic_salmon") {
    model.key = "elliott1997";
    model.name = "Elliott model (Atlantic salmon)";
    model.exponent = 0.31;
    model.elliott_c = 3.53;
    model.no_growth_below = model.fitted_low = Temperature::from_c(6.0);
    model.best = Temperature::from_c(15.9);
    model.no_growth_above = model.fitted_high = Temperature::from_c(22.5);
    model.own_species = true;
    model.source = "Elliott & Hurley 1997, equation for W(t) (constants from memory)";
  }
  return model;
}

}  // namespace

std::array<GrowthModel, 2> growth_models(const SpeciesProfile& species) { return {thermal_coefficient(species), elliott(species)}; }

double rise_per_day(const GrowthModel& model, Temperature water) {
  if (model.form == GrowthModel::Form::thermal_coefficient) return std::clamp(water.c(), 0.0, model.best.c()) / 1000.0;
  const Temperature limit = water <= model.best ? model.no_growth_below : model.no_growth_above;
  const double share = (water - limit).c() / (model.best - limit).c();
  return model.exponent * model.elliott_c * std::max(0.0, share) / 100.0;
}

Mass weight_after(const GrowthModel& model, Mass from, double rises, double factor) {
  if (model.form == GrowthModel::Form::thermal_coefficient) {
    const double root = std::cbrt(from.g()) + factor * rises;
    return Mass::from_g(root * root * root);
  }
  return Mass::from_g(std::pow(std::pow(from.g(), model.exponent) + factor * rises, 1.0 / model.exponent));
}

Mass weight_after(const GrowthModel& model, Mass from, Temperature water, Days days, double factor) {
  return weight_after(model, from, days.count() * rise_per_day(model, water), factor);
}

bool in_fitted_range(const GrowthModel& model, Mass weight, Temperature water) {
  return water >= model.fitted_low && water <= model.fitted_high && weight >= model.lightest && weight <= model.heaviest;
}

double growth_coefficient(Mass from, Mass to, double c_days) { return 1000.0 * (std::cbrt(to.g()) - std::cbrt(from.g())) / c_days; }

double condition_factor(Mass weight, double length_mm) {
  const double length_cm = length_mm / 10.0;
  return 100.0 * weight.g() / (length_cm * length_cm * length_cm);
}

Mass weight_by_length(double length_mm, double condition) {
  const double length_cm = length_mm / 10.0;
  return Mass::from_g(condition * length_cm * length_cm * length_cm / 100.0);
}

double usual_condition(const SpeciesProfile& species, double length_mm) {
  constexpr double grown_rainbow = 1.122, new_fry = 0.8, small_fry = 1.03, new_fry_mm = 25.0, small_fry_mm = 40.0;
  const double way = std::clamp((length_mm - new_fry_mm) / (small_fry_mm - new_fry_mm), 0.0, 1.0);
  return species.condition / grown_rainbow * (new_fry + way * (small_fry - new_fry));
}

Estimate<Mass> egg_mass(const SpeciesProfile& species) {
  constexpr double least = 1.49, middle = 1.57, most = 1.65;
  const auto& fry = species.swim_up_weight;
  return {Mass::from_g(fry.low.g() / most), Mass::from_g(fry.mid.g() / middle), Mass::from_g(fry.high.g() / least), Support::assumed};
}

}  // namespace redd::biology
