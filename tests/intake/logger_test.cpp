// Temperature-logger files, one trap after the other.

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "intake/import_helpers.h"

namespace redd::intake {
namespace {

using namespace redd::test;

TEST(LoggerFile, IsReadBehindItsTitleWithIndexEventsAndFaults) {
  const auto p = preview(example("logger.csv"));
  EXPECT_EQ(p.kind, "temperature_logger");
  EXPECT_EQ(guessed(p, "delimiter"), "comma certain");
  EXPECT_EQ(guessed(p, "unit"), "c certain");
  EXPECT_EQ(guessed(p, "time_zone"), "UTC-07:00 certain");
  EXPECT_EQ(guessed(p, "value_column"), "Temp, °C certain");
  EXPECT_EQ(guessed(p, "date_order"), "mdy open") << "10/01/30 may be October or January";
  EXPECT_EQ(bad(p), "14:Temp, °C:sensor_fault ");
  EXPECT_TRUE(says(p, "1 row has no temperature"));
  EXPECT_TRUE(says(p, "hourly means"));
}

TEST(LoggerFile, IsKeptOnlyWhenEveryQuestionIsAnswered) {
  const auto open = preview(example("logger.csv"));
  EXPECT_FALSE(entries_to_keep(open, {true, true}));
  const auto p = preview(example("logger.csv"), {{"date_order", "mdy"}});
  const auto unconfirmed = entries_to_keep(p, {false, true});
  ASSERT_FALSE(unconfirmed);
  EXPECT_EQ(unconfirmed.problems().front().code, "not_confirmed");
  const auto bad_rows = entries_to_keep(p, {true, false});
  ASSERT_FALSE(bad_rows);
  EXPECT_EQ(bad_rows.problems().front().field, "line 14, column Temp, °C");
  EXPECT_TRUE(entries_to_keep(p, {true, true}));
}

std::string plain_log(const std::string& header, const std::vector<std::string>& rows) {
  std::string text = header + "\n";
  for (const auto& row : rows) text += row + "\n";
  return text;
}

TEST(LoggerFile, NeverGuessesDayAndMonthSilently) {
  const auto p = preview(plain_log("Time,Temp (C)", {"03/04/2031 12:00,8.1", "04/04/2031 12:00,8.2"}));
  EXPECT_EQ(guess(p, "date_order")->certainty, Certainty::open);
  const auto sure = preview(plain_log("Time,Temp (C)", {"03/04/2031 12:00,8.1", "13/04/2031 12:00,8.2"}));
  EXPECT_EQ(guessed(sure, "date_order"), "dmy certain");
  const auto by_header = preview(plain_log("Time (mm/dd/yyyy),Temp (C)", {"03/04/2031 12:00,8.1", "04/04/2031 12:00,8.2"}));
  EXPECT_EQ(guessed(by_header, "date_order"), "mdy certain");
  EXPECT_EQ(moments(by_header), "2031-03-04T19:00:00Z 2031-04-04T18:00:00Z ");
  EXPECT_EQ(refusal(plain_log("Time,Temp (C)", {"13/04/2031 12:00,8.1", "04/13/2031 12:00,8.2"})), "mixed_date_orders");
}

TEST(LoggerFile, ReadsTheUsualWaysToWriteATime) {
  for (const char* time : {"2031-02-14 07:30", "2031-02-14T07:30:00", "2031/02/14 07:30:00", "14-Feb-2031 7:30", "Feb 14, 2031 7:30 AM", "14. February 2031 07:30",
                           "Fri 14 Feb 2031 07:30", "2031-02-14T07:30:00-07:00", "2031-02-14T14:30:00Z", "14.02.2031 07:30", "14/2/31 7:30:00 am", "02/14/31 07:30:00.250"}) {
    const auto p = preview(plain_log("Time;Temp (C)", {std::string(time) + ";8.1"}));
    EXPECT_EQ(moments(p), "2031-02-14T14:30:00Z ") << time << " " << bad(p);
  }
}

TEST(LoggerFile, ReadsNoonAndMidnightOfTheTwelveHourClock) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2031-02-14 12:00 AM,8.1", "2031-02-14 12:00 PM,8.2"}));
  EXPECT_EQ(moments(p), "2031-02-14T07:00:00Z 2031-02-14T19:00:00Z ");
}

TEST(LoggerFile, ReadsSpreadsheetDayNumbers) {
  // 47894 is 2031-02-15 in the 1900 system: 25569 (1970-01-01) plus 22325 days.
  const auto p = preview(plain_log("Date;Temp (C)", {"47894,5;8,1", "47895,5;8,2"}));
  EXPECT_EQ(guessed(p, "date_order"), "serial_1900 likely");
  EXPECT_EQ(moments(p), "2031-02-15T19:00:00Z 2031-02-16T19:00:00Z ");
  EXPECT_EQ(guessed(p, "decimal_mark"), "comma certain");
}

TEST(LoggerFile, JoinsDayAndTimeFromTwoColumns) {
  const auto p = preview(plain_log("Date,Time,Temp (C)", {"2031-02-14,07:00,8.1", "2031-02-14,08:00,8.2"}));
  EXPECT_EQ(moments(p), "2031-02-14T14:00:00Z 2031-02-14T15:00:00Z ");
}

TEST(LoggerFile, TakesDecimalCommas) {
  const auto p = preview(plain_log("Time;Temp (C)", {"2031-02-14 07:00;8,1", "2031-02-14 08:00;-0,5"}));
  EXPECT_EQ(guessed(p, "decimal_mark"), "comma certain");
  EXPECT_EQ(temperatures(p), (std::vector<double>{8.1, -0.5}));
  const auto clash = preview(plain_log("Time,Temp (C)", {"2031-02-14 07:00,8,1", "2031-02-14 08:00,8,2"}));
  EXPECT_TRUE(clash.entries.empty());
  EXPECT_NE(clash.bad.front().problem.sentence.find("semicolons"), std::string::npos);
}

TEST(LoggerFile, NeverGuessesTheUnitSilently) {
  const auto cold = preview(plain_log("Time,Value", {"2031-02-14 07:00,8.1", "2031-02-14 08:00,8.2"}));
  EXPECT_EQ(guessed(cold, "unit"), "c open");
  const auto warm = preview(plain_log("Time,Value", {"2031-02-14 07:00,46.4", "2031-02-14 08:00,46.6"}));
  EXPECT_EQ(guessed(warm, "unit"), "f open");
  EXPECT_FALSE(entries_to_keep(warm, {true, true}));
  const auto said = preview(plain_log("Time,Value", {"2031-02-14 07:00,46.4", "2031-02-14 08:00,46.6"}), {{"unit", "f"}});
  EXPECT_NEAR(temperatures(said).front(), 8.0, 1e-9);
  EXPECT_TRUE(entries_to_keep(said, {true, false}));
  EXPECT_EQ(guessed(preview(plain_log("Time,Temp (\xB0" "F)", {"2031-02-14 07:00,46.4"})), "unit"), "f certain") << "degree sign of Windows-1252";
  EXPECT_EQ(guessed(preview("\"Class C (C) 2031\",x\n" + plain_log("Time,Temp", {"2031-02-14 07:00,8"})), "unit"), "c open") << "a title's C is no unit";
}

TEST(LoggerFile, RefusesWhatSensorsWriteWhenTheyFail) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2031-02-14 01:00,85", "2031-02-14 02:00,-127.0", "2031-02-14 03:00,-100", "2031-02-14 04:00,404", "2031-02-14 05:00,9999",
                                                     "2031-02-14 06:00,-6999", "2031-02-14 07:00,8.5", "2031-02-14 08:00,200"}));
  EXPECT_EQ(temperatures(p), std::vector<double>{8.5});
  EXPECT_EQ(bad(p), "2:Temp (C):sensor_fault 3:Temp (C):sensor_fault 4:Temp (C):sensor_fault 5:Temp (C):sensor_fault 6:Temp (C):sensor_fault 7:Temp (C):sensor_fault 9:Temp (C):out_of_range ");
  // 85 F is a warm room, not a fault; 185 F is the same fault in the other unit.
  const auto room = preview(plain_log("Time,Temp (F)", {"2031-02-14 01:00,85", "2031-02-14 02:00,185"}), {{"place", "room"}});
  EXPECT_EQ(bad(room), "3:Temp (F):sensor_fault ");
}

TEST(LoggerFile, PlacesTheHourThatOccursTwice) {
  // Denver, 3 November 2030: 02:00 MDT becomes 01:00 MST.
  const auto p = preview(plain_log("Time,Temp (C)", {"2030-11-03 00:00,8.0", "2030-11-03 01:00,8.1", "2030-11-03 01:00,8.2", "2030-11-03 02:00,8.3"}));
  EXPECT_EQ(moments(p), "2030-11-03T06:00:00Z 2030-11-03T07:00:00Z 2030-11-03T08:00:00Z 2030-11-03T09:00:00Z ");
  EXPECT_TRUE(says(p, "1 row was placed in its second half"));
  EXPECT_TRUE(p.bad.empty());
}

TEST(LoggerFile, AsksWhenItsClockWasNotChanged) {
  // The same night from a logger left on daylight time: it never repeats the hour.
  const auto p = preview(plain_log("Time,Temp (C)", {"2030-11-03 00:00,8.0", "2030-11-03 01:00,8.1", "2030-11-03 01:30,8.2", "2030-11-03 02:00,8.3", "2030-11-03 03:00,8.3"}));
  EXPECT_EQ(guessed(p, "time_zone"), "UTC-06:00 open");
  // In spring it shows an hour that Denver never had (9 March 2031, 02:00 to 03:00).
  const auto spring = preview(plain_log("Time,Temp (C)", {"2031-03-09 01:00,8.0", "2031-03-09 02:00,8.1", "2031-03-09 03:00,8.2"}));
  EXPECT_EQ(guessed(spring, "time_zone"), "UTC-07:00 open");
  EXPECT_EQ(moments(spring), "2031-03-09T08:00:00Z 2031-03-09T09:00:00Z 2031-03-09T10:00:00Z ");
  // Told that it is Denver's own time, the missing hour is refused and said so.
  const auto told = preview(plain_log("Time,Temp (C)", {"2031-03-09 01:00,8.0", "2031-03-09 02:00,8.1", "2031-03-09 03:00,8.2"}), {{"time_zone", "America/Denver"}});
  EXPECT_EQ(bad(told), "3:Time:time_did_not_exist ");
}

TEST(LoggerFile, TakesAZoneByName) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2031-02-14 07:00,8.1"}), {{"time_zone", "UTC"}});
  EXPECT_EQ(moments(p), "2031-02-14T07:00:00Z ");
  EXPECT_EQ(refusal(plain_log("Time,Temp (C)", {"2031-02-14 07:00,8.1"}), {{"time_zone", "America/Dever"}}), "unknown_time_zone");
  EXPECT_EQ(guessed(preview(plain_log("Time (UTC),Temp (C)", {"2031-02-14 07:00,8.1"})), "time_zone"), "UTC certain");
}

TEST(LoggerFile, ReadsNewestFirst) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2030-11-03 02:00,8.3", "2030-11-03 01:00,8.2", "2030-11-03 01:00,8.1", "2030-11-03 00:00,8.0"}));
  EXPECT_EQ(temperatures(p), (std::vector<double>{8.0, 8.1, 8.2, 8.3}));
  EXPECT_EQ(moments(p), "2030-11-03T06:00:00Z 2030-11-03T07:00:00Z 2030-11-03T08:00:00Z 2030-11-03T09:00:00Z ");
}

TEST(LoggerFile, KeepsGapsAndNamesThem) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2031-02-14 01:00,8", "2031-02-14 02:00,8.1", "2031-02-14 10:00,8.2", "2031-02-14 11:00,8.3"}));
  EXPECT_EQ(p.entries.size(), 4u);
  EXPECT_TRUE(says(p, "Nothing was recorded for 8.0 hours from 2031-02-14T02:00:00-07:00"));
}

TEST(LoggerFile, NamesAStuckSensor) {
  std::vector<std::string> rows;
  for (int i = 0; i < 100; ++i) rows.push_back("2031-02-" + std::to_string(14 + i / 24) + " " + std::to_string(i % 24) + ":00,8.00");
  EXPECT_TRUE(says(preview(plain_log("Time,Temp (C)", rows)), "stands still"));
}

TEST(LoggerFile, SettlesDoubles) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2031-02-14 01:00,8", "2031-02-14 01:00,8", "2031-02-14 02:00,8.1", "2031-02-14T02:00:00,9.1"}), {{"time_zone", "UTC-07:00"}});
  EXPECT_EQ(p.entries.size(), 2u);
  EXPECT_EQ(bad(p), "5:Temp (C):two_values ");
}

TEST(LoggerFile, LeavesOutWhatIsNotTheSeason) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2030-09-01 12:00,21", "2030-09-02 12:00,15", "2031-06-02 11:00,9", "2031-06-03 12:00,9"}));
  EXPECT_EQ(p.entries.size(), 2u);
  EXPECT_TRUE(says(p, "1 row from before the season's first day is left out"));
  EXPECT_EQ(bad(p), "5:Time:in_the_future ");
  const auto part = preview(plain_log("Time,Temp (C)", {"2031-02-14 12:00,8", "2031-02-15 12:00,8", "2031-02-16 12:00,8"}), {{"from", "2031-02-15"}, {"to", "2031-02-15"}});
  EXPECT_EQ(moments(part), "2031-02-15T19:00:00Z ");
}

TEST(LoggerFile, AsksWhichOfSeveralTemperatures) {
  const std::string text = plain_log("Time,Water temp (C),Air temp (C),Humidity", {"2031-02-14 07:00,8.1,20.5,40", "2031-02-14 08:00,8.2,20.6,41"});
  EXPECT_EQ(guessed(preview(text), "value_column"), "Water temp (C) open");
  EXPECT_EQ(temperatures(preview(text, {{"value_column", "Air temp (C)"}, {"place", "room"}})), (std::vector<double>{20.5, 20.6}));
  EXPECT_EQ(temperatures(preview(text, {{"value_column", "2"}})), (std::vector<double>{8.1, 8.2}));
}

TEST(LoggerFile, BecomesHourlyMeans) {
  std::vector<std::string> rows;
  for (int i = 0; i < 24; ++i) rows.push_back("2031-02-14 " + std::to_string(10 + i / 4) + ":" + (i % 4 ? std::to_string(i % 4 * 15) : "00") + "," + std::to_string(8 + i % 4));
  const auto p = preview(plain_log("Time,Temp (C)", rows));
  EXPECT_EQ(p.entries.size(), 6u);
  for (const double t : temperatures(p)) EXPECT_DOUBLE_EQ(t, 9.5);
  EXPECT_TRUE(says(p, "24 rows, denser than hourly, become 6 hourly means"));
  EXPECT_EQ(rfc3339_from_instant(p.entries.front().at), "2031-02-14T17:30:00Z");
}

TEST(LoggerFile, ReadingsFarApartAreKeptRowByRow) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2031-02-14 08:50,8.1", "2031-02-14 08:55,8.2", "2031-02-15 08:50,8.3", "2031-02-15 08:55,8.4", "2031-02-16 08:50,8.5", "2031-02-16 08:55,8.6"}));
  EXPECT_EQ(temperatures(p), (std::vector<double>{8.1, 8.2, 8.3, 8.4, 8.5, 8.6}));
  EXPECT_FALSE(says(p, "denser than hourly"));
  EXPECT_FALSE(says(p, "unfinished"));
}

TEST(LoggerFile, OneRowWaits) {
  const auto p = preview(plain_log("Time,Temp (C)", {"2031-02-14 08:00,8.1", "2031-02-14 08:30,8.2", "2031-02-14 09:00,8.3"}));
  EXPECT_TRUE(says(p, "3 rows, denser than hourly, become 1 hourly mean."));
  EXPECT_TRUE(says(p, "1 row of an unfinished first or last hour waits for a longer file."));
}

TEST(LoggerFile, ImportedAgainAfterItHasGrownAddsOnlyWhatIsNew) {
  std::vector<std::string> rows;
  for (int i = 0; i < 400; ++i)
    rows.push_back("2031-02-" + std::to_string(10 + i / 96) + " " + std::to_string(i % 96 / 4) + ":" + (i % 4 ? std::to_string(i % 4 * 15) : "00") + "," + std::to_string(8 + i % 7 * 0.25));
  const auto keys = [&](std::size_t count) {
    std::vector<std::string> result;
    for (const auto& e : preview(plain_log("Time,Temp (C)", {rows.begin(), rows.begin() + static_cast<std::ptrdiff_t>(count)})).entries) result.push_back(*e.entry_key);
    return result;
  };
  const auto all = keys(400);
  for (std::size_t count = 8; count < 400; count += 13) {
    const auto some = keys(count);
    EXPECT_TRUE(std::equal(some.begin(), some.end(), all.begin())) << count;
    EXPECT_EQ(some.size(), count / 4);
  }
}

TEST(LoggerFile, KeysAreTheSameInEveryVersion) {
  // A changed key would double every reading of a file imported before.
  EXPECT_EQ(preview(plain_log("Time,Temp (C)", {"2031-02-14 07:00,8.1"})).entries.front().entry_key, "temperature_csv/b17606247ab57893");
}

TEST(LoggerFile, RefusesWhatIsNoTrace) {
  EXPECT_EQ(refusal(""), "empty_file");
  EXPECT_EQ(refusal("hello"), "not_a_table");
  EXPECT_EQ(refusal("a,b\n1,2\n"), "no_dates");
  EXPECT_EQ(refusal("date,b\n2031-02-14,x\n"), "no_temperatures");
  EXPECT_EQ(refusal("date,b\n2031-02-14,\"x\n"), "bad_quotes");
  EXPECT_EQ(refusal("date,temp\n2031-02-14 07:00,8\n", {{"value_column", "depth"}}), "setting_does_not_fit");
  EXPECT_EQ(refusal("date,temp\n2031-02-14 07:00,8\n", {{"header_line", "99"}}), "setting_does_not_fit");
  EXPECT_EQ(refusal("date,temp\n2031-02-14 07:00,8\n", {{"unit", "kelvin"}}), "unknown_word");
  EXPECT_EQ(refusal("date,temp\n2031-02-14 07:00,8\n", {{"colour", "red"}}), "unknown_field");
  EXPECT_EQ(refusal("date,temp\n2031-02-14 07:00,8\n", {{"from", "soon"}}), "not_a_time");
}

TEST(LoggerFile, WithoutAHeaderIsReadToo) {
  const auto p = preview("2031-02-14 07:00;8,1\n2031-02-14 08:00;8,2\n2031-02-14 09:00;8,4\n", {{"unit", "c"}});
  EXPECT_EQ(temperatures(p), (std::vector<double>{8.1, 8.2, 8.4}));
  EXPECT_EQ(p.good.front().line, 1u);
}

RC_GTEST_PROP(LoggerFile, ReadsBackEveryWayItCanBeWritten, ()) {
  // Written with any delimiter, mark, unit and order; told the answers; the same temperatures at the same moments return.
  const bool comma = *rc::gen::arbitrary<bool>(), fahrenheit = *rc::gen::arbitrary<bool>();
  const char delimiter = comma ? ';' : *rc::gen::element(',', ';', '\t');
  const std::string order = *rc::gen::element<std::string>("ymd", "dmy", "mdy");
  const int count = *rc::gen::inRange(1, 30);
  std::string text = "Time" + std::string(1, delimiter) + (fahrenheit ? "Temp (F)" : "Temp (C)") + "\r\n";
  std::vector<int> tenths;
  for (int i = 0; i < count; ++i) {
    tenths.push_back(*rc::gen::inRange(320, 600));
    const std::string day = std::to_string(1 + i), month = "2";
    std::string value = std::to_string(tenths.back() / 10) + (comma ? "," : ".") + std::to_string(tenths.back() % 10);
    const std::string date = order == "ymd" ? "2031-02-" + std::string(i < 9 ? "0" : "") + day : order == "dmy" ? day + "/2/2031" : "2/" + day + "/2031";
    if (i >= 28) break;
    text += date + " 12:00" + delimiter + value + "\r\n";
  }
  if (tenths.size() > 28) tenths.resize(28);
  const auto p = preview(text, {{"date_order", order}, {"unit", fahrenheit ? "f" : "c"}, {"time_zone", "UTC"}, {"place", "room"}});
  RC_ASSERT(p.bad.size() + p.entries.size() == tenths.size());
  const auto read = temperatures(p);
  std::size_t k = 0;
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    const double c = fahrenheit ? (tenths[i] / 10.0 - 32) / 1.8 : tenths[i] / 10.0;
    if (c > 60) continue;
    RC_ASSERT(std::abs(read[k++] - c) < 1e-9);
  }
}

}  // namespace
}  // namespace redd::intake
