#include "report/wqx_csv.h"

#include <gtest/gtest.h>

#include <map>

#include "support/small_season.h"
#include "wire/csv_table.h"

namespace redd::report {
namespace {

using records::Reading;
using testing::SmallSeason;
using Row = std::map<std::string, std::string>;

std::vector<Row> rows_of(const std::vector<records::Record>& log, const WqxLabels& labels = {}) {
  const auto table = wire::read_csv(wqx_csv(records::effective(log, Instant::max()), labels), ',').value();
  std::vector<Row> rows;
  for (std::size_t i = 1; i < table.size(); ++i) {
    EXPECT_EQ(table[i].cells.size(), table.front().cells.size());
    Row row;
    for (std::size_t k = 0; k < table.front().cells.size(); ++k) row[table.front().cells[k]] = table[i].cells.at(k);
    rows.push_back(row);
  }
  return rows;
}

/// The first result of a season to which `tell` adds one.
template <class Tell>
Row first(Tell tell) {
  SmallSeason s;
  tell(s);
  const auto rows = rows_of(s.log());
  EXPECT_EQ(rows.size(), 1u);
  return rows.empty() ? Row{} : rows.front();
}
bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(WqxCsv, AStepIsItsPrintedValueAndTheCommentSaysTheRange) {
  auto row = first([](SmallSeason& s) { s.step(1, "ammonia", 0.4); });
  EXPECT_EQ(row["CharacteristicName"], "Ammonia and ammonium");
  EXPECT_EQ(row["MethodSpeciationName"], "as N");
  EXPECT_EQ(row["ResultSampleFractionText"], "Unfiltered");
  EXPECT_EQ(row["ResultMeasureValue"] + " " + row["ResultMeasure/MeasureUnitCode"], "0.4 mg/L");
  EXPECT_EQ(row["ResultValueTypeName"], "Estimated");
  EXPECT_EQ(row["ResultDetectionConditionText"], "");
  EXPECT_TRUE(has(row["ResultCommentText"], "Stands for 0.3 to 0.6 mg/L as N")) << row["ResultCommentText"];
  EXPECT_EQ(row["ActivityStartDate"] + " " + row["ActivityStartTime/Time"] + " " + row["ActivityStartTime/TimeZoneCode"], "2031-01-07 08:00:00 UTC");
  EXPECT_TRUE(has(row["ResultAnalyticalMethod/MethodName"], "colour card")) << row["ResultAnalyticalMethod/MethodName"];
}

TEST(WqxCsv, BetweenTwoStepsIsTheMiddleAndSaysSo) {
  auto row = first([](SmallSeason& s) { s.between(1, "nitrate", 5, 10); });
  EXPECT_EQ(row["ResultMeasureValue"] + " " + row["MethodSpeciationName"], "7.5 as NO3");
  EXPECT_TRUE(has(row["ResultCommentText"], "between 5 and 10")) << row["ResultCommentText"];
}

TEST(WqxCsv, BeyondTheCardThereIsALimitAndNoValue) {
  auto none = first([](SmallSeason& s) { s.step(1, "nitrite", 0); });
  EXPECT_EQ(none["ResultMeasureValue"] + none["ResultMeasure/MeasureUnitCode"] + none["ResultValueTypeName"], "");
  EXPECT_EQ(none["ResultDetectionConditionText"], "Not Detected");
  EXPECT_EQ(none["DetectionQuantitationLimitTypeName"] + " " + none["DetectionQuantitationLimitMeasure/MeasureValue"], "Estimated Detection Level 0.025");
  auto below = first([](SmallSeason& s) { s.add(1, SmallSeason::reading("ph", Reading::Form::below_first, {})); });
  EXPECT_EQ(below["ResultDetectionConditionText"] + " " + below["DetectionQuantitationLimitMeasure/MeasureValue"], "Below Reporting Limit 6.4");
  auto above = first([](SmallSeason& s) { s.add(1, SmallSeason::reading("nitrate", Reading::Form::above_last, {})); });
  EXPECT_EQ(above["ResultDetectionConditionText"], "Present Above Quantification Limit");
  EXPECT_EQ(above["DetectionQuantitationLimitTypeName"] + " " + above["DetectionQuantitationLimitMeasure/MeasureValue"] + " " + above["DetectionQuantitationLimitMeasure/MeasureUnitCode"],
            "Upper Quantitation Limit 80 mg/L");
}

TEST(WqxCsv, TheLastStepIsNoCeiling) {
  auto row = first([](SmallSeason& s) { s.step(1, "nitrate", 80); });
  EXPECT_EQ(row["ResultMeasureValue"], "80");
  EXPECT_TRUE(has(row["ResultCommentText"], "60 or more")) << row["ResultCommentText"];
  EXPECT_EQ(row["DetectionQuantitationLimitTypeName"], "Upper Quantitation Limit");
}

TEST(WqxCsv, DegreesBecomeCalciumCarbonateAndAreMarkedCalculated) {
  auto row = first([](SmallSeason& s) { s.drops(1, "kh", 6); });  // 6 drops of half a German degree
  EXPECT_EQ(row["CharacteristicName"], "Alkalinity, total");
  // 1 German degree is 10 mg CaO/L, and so 10 * 100.09 / 56.08 = 17.85 mg CaCO3/L.
  EXPECT_EQ(row["ResultMeasureValue"] + " " + row["MethodSpeciationName"] + " " + row["ResultValueTypeName"], "53.5 as CaCO3 Calculated");
  EXPECT_TRUE(has(row["ResultCommentText"], "6 drops (3 German degrees)")) << row["ResultCommentText"];
  EXPECT_TRUE(has(row["ResultCommentText"], "Stands for 44.6 to 53.5 mg/L as CaCO3")) << row["ResultCommentText"];
}

TEST(WqxCsv, AcidityHasNoUnitAndWarmthIsMeasured) {
  auto ph = first([](SmallSeason& s) { s.step(1, "ph", 7.2); });
  EXPECT_EQ(ph["CharacteristicName"] + " " + ph["ResultMeasureValue"] + " " + ph["ResultMeasure/MeasureUnitCode"] + ph["ResultSampleFractionText"], "pH 7.2 None");
  auto warm = first([](SmallSeason& s) { s.temperature(1, 8.25); });
  EXPECT_EQ(warm["CharacteristicName"] + " " + warm["ResultMeasureValue"] + " " + warm["ResultMeasure/MeasureUnitCode"] + " " + warm["ResultValueTypeName"], "Temperature, water 8.25 deg C Actual");
}

TEST(WqxCsv, LeavesOutTheRoomAndWhatWasTakenBack) {
  SmallSeason s;
  s.add(1, records::TemperatureReading{Temperature::from_c(20), records::TemperatureReading::Place::room});
  s.add(1, records::Undo{s.step(1, "ph", 7.2)});
  EXPECT_TRUE(rows_of(s.log()).empty());
}

TEST(WqxCsv, CarriesTheAgencysIdentifiersAndMarksWhatIsInvented) {
  SmallSeason s;
  s.temperature(1, 8);
  auto row = rows_of(s.log(), {"ORG1", "P2", "L3"}).front();
  EXPECT_EQ(row["OrganizationIdentifier"] + row["ProjectIdentifier"] + row["MonitoringLocationIdentifier"], "ORG1P2L3");
  EXPECT_EQ(row["ResultCommentText"], "");
  std::get<records::SeasonSetup>(s.log().front().entry.body).invented = true;
  EXPECT_TRUE(rows_of(s.log()).front()["ResultCommentText"].starts_with("INVENTED"));
}

}  // namespace
}  // namespace redd::report
