// Laws of growth and food, for any species, fish and water.
#include "biology/growth.h"
#include "biology/ration.h"
#include "planning/feed_plan.h"
#include "properties/generators.h"

namespace redd::properties {
namespace {

using namespace biology;

SpeciesProfile any_species() {
  const auto all = all_species();
  return all[*rc::gen::inRange<std::size_t>(0, all.size())];
}
Mass any_fish() { return Mass::from_g(*between(0.05, 20.0)); }
Temperature any_water() { return Temperature::from_c(*between(0.0, 24.0)); }

RC_GTEST_PROP(Growth, NeverShrinksAndIsPositive, ()) {
  const Mass fish = any_fish();
  const Temperature water = any_water();
  for (const GrowthModel& model : growth_models(any_species())) {
    RC_ASSERT(rise_per_day(model, water) >= 0.0);
    RC_ASSERT(weight_after(model, fish, water, Days(*between(0.0, 90.0)), *between(0.0, 3.0)).g() >= fish.g() * (1 - 1e-12));
  }
}

RC_GTEST_PROP(Growth, RisesWithTemperatureInsideTheFittedRange, ()) {
  const Mass fish = any_fish();
  for (const GrowthModel& model : growth_models(any_species())) {
    const double top = std::min(model.fitted_high.c(), model.best.c());
    const double colder = *between(model.fitted_low.c(), top), warmer = colder + *between(0.0, 1.0) * (top - colder);
    const auto after = [&](double c) { return weight_after(model, fish, Temperature::from_c(c), Days(30), 1.0).g(); };
    RC_ASSERT(after(warmer) >= after(colder) * (1 - 1e-12));
  }
}

RC_GTEST_PROP(Growth, AddsUpOverDays, ()) {
  const Mass fish = any_fish();
  const Temperature water = any_water();
  const double first = *between(0.0, 40.0), second = *between(0.0, 40.0), factor = *between(0.1, 3.0);
  for (const GrowthModel& model : growth_models(any_species())) {
    const Mass in_two = weight_after(model, weight_after(model, fish, water, Days(first), factor), water, Days(second), factor);
    RC_ASSERT(std::abs(in_two.g() / weight_after(model, fish, water, Days(first + second), factor).g() - 1.0) < 1e-9);
  }
}

RC_GTEST_PROP(Condition, GoesThereAndBack, ()) {
  const double length_mm = *between(15, 200), condition = *between(0.5, 1.5);
  RC_ASSERT(std::abs(condition_factor(weight_by_length(length_mm, condition), length_mm) - condition) < 1e-9);
}

RC_GTEST_PROP(Ration, IsAShareAndItsOwnSourcesBoundIt, ()) {
  const auto share = ration(any_fish(), any_water()).fraction_per_day;
  RC_ASSERT(share.low >= 0.0);
  RC_ASSERT(share.low <= share.mid && share.mid <= share.high);
  RC_ASSERT(share.high <= 1.0);
}

RC_GTEST_PROP(Ration, IsWhatTheGrowthLineNeeds, ()) {
  // A gram of food a gram of fish: in an hour the fish put on what they ate.
  const Mass fish = Mass::from_g(*between(0.1, 20.0));
  const Temperature water = Temperature::from_c(*between(4, 14));
  GrowthModel line = growth_models(any_species())[0];
  const double grown_g = weight_after(line, fish, water, Days(1e-4), 1.0).g() - fish.g();
  RC_ASSERT(std::abs(grown_g / (1e-4 * growth_ration_iwama1981(fish, water) * fish.g()) - 1.0) < 1e-3);
}

RC_GTEST_PROP(FoodCost, RisesWithFoodAndFishAndFallsWithWater, ()) {
  const double food_g = *between(0.0, 20.0), fish_g = *between(0.0, 400.0), litres = *between(50.0, 400.0);
  const auto cost = [](double food, double fish, double water) {
    return planning::food_cost(Mass::from_g(food), Mass::from_g(fish), Volume::from_l(water), nullptr).ammonia_mg_n_per_l_per_day;
  };
  const auto base = cost(food_g, fish_g, litres);
  RC_ASSERT(base.low >= 0.0 && base.low <= base.mid && base.mid <= base.high);
  RC_ASSERT(cost(food_g + 1.0, fish_g, litres).low > base.low);
  RC_ASSERT(cost(food_g, fish_g + 1.0, litres).low > base.low);
  RC_ASSERT(cost(food_g, fish_g, litres + 10.0).high <= base.high);
}

RC_GTEST_PROP(FoodCost, MoreFoodIsNeverLikelierToBeCarried, ()) {
  planning::FilterOutlook filter;
  const double mid = *between(0.01, 1.0), spread = *between(1.05, 4.0);
  filter.outlook.capacity_now_mg_n_per_l_per_day = {mid / spread, mid, mid * spread, Support::inferred};
  const auto cost = [&](double food) { return planning::food_cost(Mass::from_g(food), Mass::from_g(30), Volume::from_l(200), &filter); };
  const double food_g = *between(0.01, 10.0);
  const auto less = cost(food_g), more = cost(food_g * *between(1.0, 3.0));
  RC_ASSERT(*more.carried_probability <= *less.carried_probability + 1e-12);
  RC_ASSERT(more.carried_share <= less.carried_share + 1e-12);
  RC_ASSERT(less.carried_share >= planning::least_share - 1e-12 && less.carried_share <= 1.0);
}

}  // namespace
}  // namespace redd::properties
