#include "biology/growth.h"

#include <gtest/gtest.h>

namespace redd::biology {
namespace {

SpeciesProfile species(const char* key) { return *find_species(key); }

TEST(GrowthModels, AreTwoAndSayWhoTheyWereFittedTo) {
  for (const auto& each : all_species()) {
    const auto models = growth_models(each);
    EXPECT_EQ(models[0].key, "iwama1981");
    EXPECT_EQ(models[1].own_species, each.key == "brown_trout" || each.key == "atlantic_salmon") << each.key;
    for (const auto& model : models) {
      EXPECT_FALSE(model.source.empty());
      EXPECT_GT(model.factor.low, 0.0);
      EXPECT_LT(model.factor.low, model.factor.high);
    }
  }
}

TEST(GrowthModels, TheCoefficientDoesNotGoOnBeyondTheOptimum) {
  const auto model = growth_models(species("rainbow_trout"))[0];
  EXPECT_EQ(rise_per_day(model, Temperature::from_c(14)), rise_per_day(model, Temperature::from_c(18)));
  EXPECT_FALSE(in_fitted_range(model, Mass::from_g(1), Temperature::from_c(18)));
  EXPECT_FALSE(in_fitted_range(model, Mass::from_g(1), Temperature::from_c(3)));
  EXPECT_TRUE(in_fitted_range(model, Mass::from_g(1), Temperature::from_c(10)));
}

TEST(GrowthModels, ElliottsFishStandStillAtTheLimitsAndGrowMostAtTheBest) {
  const auto model = growth_models(species("brown_trout"))[1];
  EXPECT_EQ(rise_per_day(model, Temperature::from_c(3)), 0.0);
  EXPECT_EQ(rise_per_day(model, Temperature::from_c(20)), 0.0);
  const double best = rise_per_day(model, model.best);
  for (const double c : {5.0, 9.0, 12.5, 14.0, 18.0}) EXPECT_LT(rise_per_day(model, Temperature::from_c(c)), best);
  EXPECT_FALSE(in_fitted_range(model, Mass::from_g(0.1), Temperature::from_c(10))) << "fitted to fish of a gram and more";
}

TEST(Condition, OfNewFryIsLowerAndRisesToTheSpeciesOwn) {
  const auto trout = species("rainbow_trout");
  EXPECT_NEAR(usual_condition(trout, 20), 0.8, 1e-9);
  EXPECT_NEAR(usual_condition(trout, 32.5), 0.915, 1e-9);
  EXPECT_NEAR(usual_condition(trout, 90), 1.03, 1e-9);
  EXPECT_LT(usual_condition(species("chinook"), 40), usual_condition(trout, 40));
}

TEST(EggMass, IsLessThanTheFryThatComesOfIt) {
  for (const auto& each : all_species()) {
    const auto egg = egg_mass(each);
    EXPECT_LT(egg.mid.g(), each.swim_up_weight.mid.g()) << each.key;
    EXPECT_LE(egg.low.g(), egg.mid.g());
    EXPECT_LE(egg.mid.g(), egg.high.g());
  }
}

}  // namespace
}  // namespace redd::biology
