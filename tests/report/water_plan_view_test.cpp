#include "report/water_plan_view.h"

#include <gtest/gtest.h>

#include "report/record_text.h"
#include "support/water_season.h"

namespace redd::report {
namespace {

using namespace redd::testing;

season::WaterLook look_at(const SmallSeason& season, int day) {
  auto look = season::look_at_water({}, season.log(), on_day(day, 12));
  require(look.has_value(), "water_plan_view_test", "no look");
  return std::move(look).value();
}

SmallSeason nitrate_high() {
  auto season = ripe_season();
  season.step(56, "nitrate", 40);
  tap_of(season).chlorine_mg_per_l = 1.5;
  tap_of(season).chloramine = true;
  return season;
}

TEST(WaterPlanView, JsonAndTextSayTheSameSentence) {
  const auto look = look_at(nitrate_high(), 56);
  const auto json = water_plan_json(look);
  const std::string text = water_plan_text(look, {}, 400);
  EXPECT_EQ(text.substr(0, text.find('\n')), json["sentence"].get<std::string>());
  EXPECT_EQ(json["alternatives"][0]["key"], "programme");
  ASSERT_FALSE(json["alternatives"][0]["changes"].empty());
  const auto& change = json["alternatives"][0]["changes"][0];
  EXPECT_NE(text.find(change["thiosulfate_text"].get<std::string>()), std::string::npos);
  EXPECT_NE(text.find("chloramine"), std::string::npos);
  EXPECT_NE(text.find("Topping up is not a water change"), std::string::npos);
}

TEST(WaterPlanView, EverySentenceHasItsNumbersInPlace) {
  const auto look = look_at(nitrate_high(), 56);
  const std::string text = water_plan_text(look) + water_plan_json(look).dump();
  EXPECT_EQ(text.find("{0}"), std::string::npos);
  EXPECT_EQ(text.find("nan"), std::string::npos);
}

TEST(WaterPlanView, ASourceIsNamedAsItWasGivenAndNeverRead) {
  Reader spanish;
  spanish.language = Language::es;
  for (const char* name : {"{0} well", "Fry", "1.5"}) {
    auto season = nitrate_high();
    tap_of(season).name = name;
    const auto look = look_at(season, 56);
    for (const Reader& reader : {Reader{}, spanish}) {
      const auto json = water_plan_json(look, reader);
      EXPECT_EQ(json["source"]["name"], name);
      EXPECT_EQ(json["alternatives"][0]["changes"][0]["source_name"], name);
      EXPECT_TRUE(record_text(tap_of(season), {}, reader).starts_with(name));
    }
  }
}

TEST(WaterPlanView, NitrateIsShownAsTheKeepersCardCountsIt) {
  const auto look = look_at(nitrate_high(), 56);
  for (const auto& series : water_plan_json(look)["alternatives"][2]["series"]) {
    if (series["key"] != "nitrate") continue;
    EXPECT_EQ(series["unit_text"], "mg/L as NO3");
    EXPECT_NEAR(series["limit_high"].get<double>(), 25.0, 1e-9);
    EXPECT_GT(series["days"][0]["mid"].get<double>(), 15.0);
  }
}

TEST(WaterPlanView, AReleasedBroodHasNoPlanAndSaysSo) {
  auto season = ripe_season();
  season.add(56, records::Release{200, "the brook", std::nullopt, std::nullopt});
  const auto look = look_at(season, 57);
  EXPECT_EQ(water_plan_json(look)["state"], "none");
  EXPECT_NE(water_plan_text(look).find("released"), std::string::npos);
}

TEST(TriedWaterView, RowsAndWarningsAreReadyToShow) {
  const auto season = nitrate_high();
  const auto trial = season::try_water({}, season.log(), on_day(56, 12), {.fraction = 0.3, .new_water = Temperature::from_c(16), .vacuum = true});
  ASSERT_TRUE(trial.has_value());
  const auto json = tried_water_json(*trial);
  EXPECT_FALSE(json["warnings"].empty());
  for (const auto& row : json["rows"]) EXPECT_FALSE(row["after_text"].get<std::string>().empty());
  const std::string text = tried_water_text(*trial);
  EXPECT_NE(text.find("Nothing is kept"), std::string::npos);
  EXPECT_EQ(text.find("{0}"), std::string::npos);
}

TEST(TriedWaterView, NothingIsTriedOnAReleasedBrood) {
  auto season = ripe_season();
  season.add(56, records::Release{200, "the brook", std::nullopt, std::nullopt});
  EXPECT_EQ(season::try_water({}, season.log(), on_day(57, 12), {.fraction = 0.3}).problems().front().code, "nothing_to_change");
}

}  // namespace
}  // namespace redd::report
