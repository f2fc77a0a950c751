#include "report/filter_view.h"

#include <gtest/gtest.h>

#include "report/day_json.h"
#include "support/told_filter.h"

namespace redd::report {
namespace {

using namespace redd::testing;

season::DayView told_day(double ready = 0.6, double carries = 0.8) {
  SmallSeason season;
  season.step(28, "nitrite", 0.1);
  season.temperature(28, 22);
  return look_with(season, told_filter(ready, carries));
}

TEST(ChanceText, IsNeverNoughtNorCertain) {
  EXPECT_EQ(chance_text(0.0), "less than 1 chance in 20");
  EXPECT_EQ(chance_text(1.0), "more than 19 chances in 20");
  EXPECT_EQ(chance_text(0.1), "1 chance in 10");
  EXPECT_EQ(chance_text(0.73), "7 chances in 10");
}

// Another draw of the same season must not say what sounds like another thing.
TEST(ChanceText, NeighboursAgree) {
  EXPECT_EQ(chance_text(0.03), "less than 1 chance in 10");
  EXPECT_EQ(chance_text(0.08), "less than 1 chance in 10");
  EXPECT_EQ(chance_text(0.12), "1 chance in 10");
  EXPECT_EQ(chance_text(0.88), "9 chances in 10");
  EXPECT_EQ(chance_text(0.93), "more than 9 chances in 10");
}

TEST(FilterJson, HoldsWhatThePageShows) {
  const auto day = told_day();
  const wire::Json filter = filter_json(day);
  EXPECT_EQ(filter["state"], "ready");
  EXPECT_EQ(filter["now"], "2031-02-05");
  EXPECT_EQ(filter["first_day"], "2031-01-06");
  EXPECT_EQ(filter["ready"]["by_day"], "2031-03-07");
  EXPECT_DOUBLE_EQ(filter["ready"]["probability"].get<double>(), 0.6);
  EXPECT_EQ(filter["ready"]["window"]["mid"], "2031-02-15");
  EXPECT_TRUE(filter["ready"]["window"]["high_90"].is_null());
  EXPECT_EQ(filter["charts"].size(), 5u);
  for (const auto& chart : filter["charts"]) {
    for (const char* key : {"low_90", "low_50", "mid", "high_50", "high_90"}) EXPECT_EQ(chart[key].size(), chart["days"].size()) << chart["key"];
    EXPECT_EQ(chart["days"][chart["now_index"].get<std::size_t>()], "2031-02-05");
    EXPECT_FALSE(chart["summary"].get<std::string>().empty());
  }
  EXPECT_EQ(filter["next_readings"]["day"], "2031-02-12");
  EXPECT_EQ(filter["next_readings"]["tests"][0]["text"], "most likely 0.1, perhaps 0.2 mg/L as N");
  EXPECT_EQ(filter["measures"]["rows"][0]["change_text"], "+20 points (give or take 4)");
  EXPECT_EQ(filter["measures"]["rows"][0]["helps"], true);
  EXPECT_EQ(filter["measures"]["rows"][1]["helps"], false);
  EXPECT_EQ(filter["capacity"]["carries_text"], "8 chances in 10");
  EXPECT_NE(day_json(day).find("\"filter\":{"), std::string::npos);
}

TEST(FilterJson, ChartsAreInTheUnitOfTheKeepersCard) {
  SmallSeason season;
  season.step(28, "nitrate", 5);  // printed as NO3
  const wire::Json filter = filter_json(look_with(season, told_filter(0.6, 0.8)));
  for (const auto& chart : filter["charts"])
    if (chart["key"] == "nitrate") EXPECT_NEAR(chart["mid"][0].get<double>(), 0.3 * 4.4266, 0.001);
}

TEST(FilterJson, AModelThatLostTrackSaysSoFirstAndForetellsNoSuchReading) {
  SmallSeason season;
  season.step(28, "nitrite", 0.8);
  auto told = told_filter(0.9, 0.9);
  told.lost_track = planning::LostTrack{records::Quantity::nitrite, 28.3, true, {4, 5}};
  const auto day = look_with(season, told);
  const wire::Json filter = filter_json(day);
  EXPECT_NE(filter["sentence"].get<std::string>().find("Go by the tests"), std::string::npos);
  EXPECT_EQ(filter["lost_track"]["key"], "nitrite");
  EXPECT_TRUE(filter["next_readings"]["tests"].empty());
  EXPECT_NE(filter["capacity"]["tone"], "good");
  EXPECT_EQ(filter_text(day).find("most likely 0.1"), std::string::npos);
}

TEST(FilterJson, SaysWhyThereIsNothing) {
  SmallSeason season;
  auto day = season.look(10);
  EXPECT_EQ(filter_json(day)["state"], "absent");
  using State = season::FilterProgress::State;
  for (const auto& [state, text] : {std::pair{State::working, "working"}, {State::cancelled, "cancelled"}, {State::failed, "failed"}}) {
    day.filter_progress = {state, 0.4};
    EXPECT_EQ(filter_json(day)["state"], text);
    EXPECT_DOUBLE_EQ(filter_json(day)["done_fraction"].get<double>(), 0.4);
    EXPECT_FALSE(filter_json(day)["sentence"].get<std::string>().empty());
  }
}

TEST(FilterJson, AWindowThatNeverComesSaysSo) {
  SmallSeason season;
  auto told = told_filter(0.0, 0.5);
  told.outlook.ready = {};
  told.outlook.nitrite_peak = {0.4, 20.0, 30.0, std::nullopt, std::nullopt, std::nullopt};
  const wire::Json filter = filter_json(look_with(season, told));
  EXPECT_TRUE(filter["ready"]["window"]["mid"].is_null());
  EXPECT_NE(filter["ready"]["window"]["text"].get<std::string>().find("Not before the end"), std::string::npos);
  EXPECT_NE(filter["nitrite_peak"]["text"].get<std::string>().find("Not sure"), std::string::npos);
}

TEST(FilterText, FitsTheTerminalAndNamesItsGround) {
  const std::string text = filter_text(told_day());
  for (const char* part : {"6 chances in 10", "Ready means", "Nitrite peak", "Next tests, 12 Feb", "+20 points", "no clear", "4 sittings"})
    EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
  std::size_t begin = 0;
  for (std::size_t end; (end = text.find('\n', begin)) != std::string::npos; begin = end + 1) EXPECT_LE(end - begin, 92u) << text.substr(begin, end - begin);
}

}  // namespace
}  // namespace redd::report
