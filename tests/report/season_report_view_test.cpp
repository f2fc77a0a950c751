#include "report/season_report_view.h"

#include <gtest/gtest.h>

#include "biology/species.h"
#include "report/water_view.h"
#include "support/small_season.h"

namespace redd::report {
namespace {

using redd::testing::on_day;
using redd::testing::SmallSeason;
using records::Count;

wire::Json report_of(const SmallSeason& season, int day) {
  const auto look = season::look_at_report({}, season.log(), on_day(day, 12));
  EXPECT_TRUE(look.has_value());
  return season_report_json(*look);
}
bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(SeasonReport, AnEmptySeasonSaysWhatIsNotThere) {
  const auto report = report_of(SmallSeason(), 5);
  EXPECT_EQ(report["milestones"]["sentence"], "No eggs are logged, so nothing was foretold.");
  EXPECT_EQ(report["water"]["sentence"], "Nobody has tested the water.");
  EXPECT_EQ(report["temperature"]["sentence"], "Nobody has measured the tank's temperature.");
  EXPECT_EQ(report["temperature"]["months"][0]["text"], "not measured");
  EXPECT_TRUE(report["losses"].empty());
  EXPECT_TRUE(has(report["doubt"][0], "may be a day on which nobody looked"));
}

TEST(SeasonReport, WordsLossesWaterAndMilestonesWithTheirYear) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8);
  season.add(9, Count{Count::What::dead_eggs, 1});
  season.add(10, Count{Count::What::dead_eggs, 4, Count::How::estimated});
  season.step(9, "nitrite", 0.05);
  const auto report = report_of(season, 12);
  EXPECT_EQ(report["losses"][0]["text"], "1 egg");
  EXPECT_EQ(report["losses"][0]["day_text"], "15 Jan 2031");
  EXPECT_EQ(report["losses"][1]["text"], "4 eggs, estimated");
  EXPECT_EQ(report["water"]["rows"][0]["sittings_text"], "1 day");
  EXPECT_TRUE(report["water"]["rows"][0]["with_animals"]);
  EXPECT_TRUE(has(report["water"]["rows"][0]["highest_text"], "mg/L as N, 15 Jan"));
  EXPECT_TRUE(has(report["milestones"]["sentence"], "foretold on 14 Jan 2031"));
  EXPECT_EQ(report["milestones"]["rows"][1]["fit"], "not_seen");
  EXPECT_TRUE(has(report["milestones"]["rows"][1]["foretold_text"], "2031, most likely"));
  EXPECT_EQ(report["counts"]["received"], 200);
}

TEST(ModelTitle, NamesThePaperAndNoKey) {
  EXPECT_EQ(model_title("embody1934", {}), "Embody 1934");
  EXPECT_EQ(model_title("embody1934_rows", {}), "Embody 1934 (between the rows of the table)");
  EXPECT_EQ(model_title("beacham1990_thermal_sum", {.language = Language::es}), "Beacham 1990 (suma térmica)");
  // Every curve there is has such a name.
  for (const auto& species : biology::all_species())
    for (const auto& model : species.models) EXPECT_EQ(model_title(model.key, {}).find('_'), std::string::npos) << model.key;
}

TEST(ValueText, SaysNothingFinerThanCanBeTold) {
  const ShownQuantity ammonia{"un_ionized_ammonia", "Un-ionized ammonia", "mg/L as NH3", 1.0, -1, 0.001};
  EXPECT_EQ(value_text(ammonia, 0.0, 0.000043, false, {}), "under 0.001 mg/L as NH3");
  EXPECT_EQ(value_text(ammonia, 0.0, 0.0043, false, {}), "at most 0.0043 mg/L as NH3");
  EXPECT_EQ(value_text(ammonia, 0.000043, 1.0, true, {}).find("under"), std::string::npos);
}

TEST(SeasonReport, TextAndJsonSayTheSame) {
  SmallSeason season;
  season.eggs(8);
  season.add(9, records::EquipmentEvent{records::EquipmentEvent::Equipment::pump, records::EquipmentEvent::Event::failed});
  const auto look = season::look_at_report({}, season.log(), on_day(12, 12));
  const std::string text = season_report_text(*look, {}, 200);
  const auto report = season_report_json(*look);
  EXPECT_TRUE(has(text, report["sentence"].get<std::string>()));
  EXPECT_TRUE(has(text, report["incidents"][0]["text"].get<std::string>()));
  for (const auto& line : report["method"]) EXPECT_TRUE(has(text, line.get<std::string>()));
  EXPECT_TRUE(has(text, "Team Otter: "));
}

}  // namespace
}  // namespace redd::report
