#include "biology/species.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace redd::biology {
namespace {

TEST(AllSpecies, AreTheElevenAndSortedByKey) {
  std::vector<std::string> keys;
  for (const SpeciesProfile& each : all_species()) keys.emplace_back(each.key);
  EXPECT_EQ(keys, (std::vector<std::string>{"atlantic_salmon", "brook_trout", "brown_trout", "chinook", "chum", "coho",
                                            "lake_trout", "pink_even", "pink_odd", "rainbow_trout", "sockeye"}));
}

TEST(FindSpecies, KnowsAliases) {
  EXPECT_EQ(find_species("pink")->key, "pink_even");
  EXPECT_EQ(find_species("steelhead")->key, "rainbow_trout");
}

TEST(FindSpecies, ListsWhatItKnows) {
  const auto found = find_species("goldfish");
  ASSERT_FALSE(found);
  EXPECT_EQ(found.problems().front().code, "unknown_species");
  for (const SpeciesProfile& each : all_species())
    EXPECT_NE(found.problems().front().sentence.find(each.key), std::string::npos) << each.key;
}

TEST(Profiles, AreWhole) {
  std::set<std::string_view> names;
  for (const SpeciesProfile& each : all_species()) {
    EXPECT_TRUE(names.insert(each.key).second) << each.key;
    for (const auto alias : each.aliases) EXPECT_TRUE(names.insert(alias).second) << alias;
    EXPECT_FALSE(each.common_name.empty());
    EXPECT_FALSE(each.scientific_name.empty());
    EXPECT_GT(each.lot_log_sd, 0.05);
    const auto& weight = each.swim_up_weight;
    EXPECT_TRUE(Mass::from_g(0.0) < weight.low && weight.low <= weight.mid && weight.mid <= weight.high) << each.key;
    EXPECT_FALSE(each.swim_up_weight_source.empty());
    for (const DevelopmentModel& model : each.models) {
      EXPECT_FALSE(model.source.empty()) << each.key << " " << model.key;
      EXPECT_LT(model.test_low, model.test_high) << each.key << " " << model.key;
    }
    for (const LifeStage stage : all_life_stages) {
      const ThermalBand& band = each.band(stage);
      EXPECT_TRUE(band.red_below <= band.green_low && band.green_low < band.green_high &&
                  band.green_high <= band.red_above)
          << each.key;
      EXPECT_FALSE(band.source.empty()) << each.key;
    }
  }
}

TEST(Profiles, OrderTheirStages) {
  for (const SpeciesProfile& each : all_species())
    for (double t = 2.0; t <= 14.0; t += 0.5) {
      const auto days = [&](Stage stage) { return days_at(*model_for(each, stage), Temperature::from_c(t))->count(); };
      EXPECT_LT(days(Stage::eyed), days(Stage::hatch)) << each.key << " " << t;
      EXPECT_LT(days(Stage::hatch) * 1.2, days(Stage::swim_up)) << each.key << " " << t;
    }
}

TEST(ModelFor, TakesOwnCurvesFirstAndDerivesTheRest) {
  const auto chinook = *find_species("chinook");
  EXPECT_EQ(model_keys(chinook, Stage::hatch), (std::vector<std::string_view>{"beacham1990", "crisp1981"}));
  EXPECT_EQ(model_keys(chinook, Stage::swim_up),
            (std::vector<std::string_view>{"beacham1990", "rombough1985", "rombough1985_ponding", "crisp1981"}));
  EXPECT_EQ(model_for(chinook, Stage::swim_up)->factor, 1.0);
  EXPECT_EQ(model_for(chinook, Stage::swim_up, "crisp1981")->factor, 1.7);
  EXPECT_EQ(model_for(chinook, Stage::eyed)->factor, 0.5);
  for (const SpeciesProfile& each : all_species())
    for (const Stage stage : all_stages)
      for (const auto key : model_keys(each, stage)) EXPECT_TRUE(model_for(each, stage, key)) << each.key << " " << key;
}

TEST(ModelFor, DerivedStagesAreTestedOnlyWhereTheSharesWere) {
  const auto trout = *find_species("rainbow_trout");
  EXPECT_EQ(model_for(trout, Stage::swim_up)->test_high, Temperature::from_c(9.5));
  EXPECT_EQ(model_for(trout, Stage::hatch)->test_high, Temperature::from_c(13.0));
}

TEST(ModelFor, ListsTheKeysItAccepts) {
  const auto found = model_for(*find_species("brook_trout"), Stage::swim_up, "crisp1981");
  ASSERT_FALSE(found);
  EXPECT_EQ(found.problems().front().code, "unknown_model");
  EXPECT_NE(found.problems().front().sentence.find("embody1934, embody1934_rows"), std::string::npos);
}

TEST(ThermalLight, LimitsBelongToTheMilderColour) {
  const ThermalBand band{Temperature::from_c(3.0), Temperature::from_c(6.0), Temperature::from_c(10.0),
                         Temperature::from_c(12.0), ""};
  const auto light = [&](double t) { return thermal_light(band, Temperature::from_c(t)); };
  EXPECT_EQ(light(6.0), ThermalLight::green);
  EXPECT_EQ(light(10.0), ThermalLight::green);
  EXPECT_EQ(light(10.1), ThermalLight::amber);
  EXPECT_EQ(light(12.0), ThermalLight::amber);
  EXPECT_EQ(light(12.1), ThermalLight::red);
  EXPECT_EQ(light(3.0), ThermalLight::amber);
  EXPECT_EQ(light(2.9), ThermalLight::red);
  EXPECT_EQ(light(0.0 / 0.0), ThermalLight::red);
}

// No warmer or colder water than this is anywhere called safe for eggs: red at 13 C and at 1 C for every kind.
TEST(ThermalLight, EggsAreRedWhereEveryStudyLostThem) {
  for (const SpeciesProfile& each : all_species())
    for (const LifeStage stage : {LifeStage::green_egg, LifeStage::eyed_egg, LifeStage::alevin}) {
      EXPECT_EQ(thermal_light(each.band(stage), Temperature::from_c(13.0)), ThermalLight::red) << each.key;
      EXPECT_EQ(thermal_light(each.band(stage), Temperature::from_c(1.0)), ThermalLight::red) << each.key;
      EXPECT_EQ(thermal_light(each.band(stage), Temperature::from_c(7.0)), ThermalLight::green) << each.key;
    }
}

}  // namespace
}  // namespace redd::biology
