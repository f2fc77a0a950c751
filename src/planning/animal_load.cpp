#include "planning/animal_load.h"

#include "chemistry/nitrification.h"
#include "planning/detail/log_estimates.h"

namespace redd::planning {
namespace {

constexpr double hours_a_day = 24.0;
constexpr Estimate<double> eggs_breathe{0.75, 1.0, 1.25}, alevins_breathe{0.45 / 0.57, 1.0, 0.70 / 0.57}, fed_fry_breathe{1.0, 1.5, 2.4};
constexpr Estimate<double> nitrogen_doubt{0.61, 1.0, 1.64};  // exp(-+1.645 x 0.3)
constexpr Estimate<double> ration_doubt{0.75, 1.0, 1.5};
constexpr Estimate<double> rot_mg_o2_per_g_food{0.0, 50.0, 150.0};

tank::Brood one(const LoadPoint& point, double each_g) {
  tank::Brood brood;
  brood.stage = point.stage;
  brood.count = 1.0;
  brood.stage_share_fraction = 1.0;
  brood.fry_mass_g = each_g;
  brood.feed_g_per_day = point.stage == tank::Stage::fry ? point.ration_fraction * each_g : 0.0;
  return brood;
}

/// At the low, middle and high mass.
template <class Rate>
Estimate<double> over_mass(const LoadPoint& point, Rate rate) {
  const auto at = [&](double g) { return rate(one(point, g)); };
  return {at(point.each_g.low), at(point.each_g.mid), at(point.each_g.high), point.each_g.support};
}

const Estimate<double>& breathing_doubt(tank::Stage stage) {
  switch (stage) {
    case tank::Stage::egg: return eggs_breathe;
    case tank::Stage::alevin: return alevins_breathe;
    case tank::Stage::fry: break;
  }
  return fed_fry_breathe;
}

}  // namespace

Estimate<double> AnimalLoad::oxygen_mg_o2_per_h() const { return sum(breathed_mg_o2_per_h, bacteria_mg_o2_per_h); }

AnimalLoad load_of_one(const LoadPoint& point) {
  const double water_c = point.water.c();
  const bool fed = point.stage == tank::Stage::fry;
  AnimalLoad load;
  const auto breathed = over_mass(point, [&](const tank::Brood& b) { return tank::oxygen_use_mg_o2_per_day(b, water_c) / hours_a_day; });
  load.breathed_mg_o2_per_h = product(breathed, breathing_doubt(point.stage));
  const auto nitrogen = over_mass(point, [&](const tank::Brood& b) { return tank::excretion_mg_n_per_day(b, water_c) + tank::organic_mg_n_per_day(b); });
  load.nitrogen_mg_n_per_day = product(nitrogen, fed ? product(nitrogen_doubt, ration_doubt) : nitrogen_doubt);
  load.feed_g_per_day = one(point, point.each_g.mid).feed_g_per_day;
  const auto nitrified = times(chemistry::ammonia_to_nitrate_mg_o2_per_mg_n / hours_a_day, load.nitrogen_mg_n_per_day);
  const auto rotted = times(load.feed_g_per_day / hours_a_day, rot_mg_o2_per_g_food);
  load.bacteria_mg_o2_per_h = sum(nitrified, rotted);
  return load;
}

}  // namespace redd::planning
