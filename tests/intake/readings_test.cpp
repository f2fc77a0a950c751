// Test readings in CSV, long and wide.

#include "intake/import_helpers.h"
#include "logbook/logbook.h"
#include "logbook/season.h"

namespace redd::intake {
namespace {

using namespace redd::test;
using records::Reading;

const Reading& reading(const Preview& p, std::size_t i) { return std::get<Reading>(p.entries.at(i).body); }

TEST(LongReadings, AreReadWithTeamsAndCensoredValues) {
  const auto p = preview(example("readings_long.csv"));
  EXPECT_EQ(p.kind, "readings_long");
  EXPECT_EQ(bad(p), "");
  ASSERT_EQ(p.entries.size(), 7u);  // six results and one note
  EXPECT_EQ(reading(p, 0).form, Reading::Form::between);
  EXPECT_EQ(reading(p, 0).value, 0.1);
  EXPECT_EQ(reading(p, 0).upper_value, 0.4);
  EXPECT_EQ(reading(p, 0).team, "Team Otter");
  EXPECT_EQ(rfc3339_from_instant(p.entries[0].at), "2030-10-01T15:10:00Z");
  EXPECT_EQ(guessed(p, "time_zone"), "America/Denver likely");
  std::string forms;
  for (const auto& row : p.good) forms += row.text + "\n";
  EXPECT_NE(forms.find("nitrite: below the first step (0.05 mg/L as NO2)"), std::string::npos) << forms;
  EXPECT_NE(forms.find("kh: 4 drops (4 German degrees)"), std::string::npos) << forms;
  EXPECT_NEAR(temperatures(p).front(), 10.5, 1e-9) << "50.9 F";
}

TEST(WideReadings, AreReadWithSemicolonsAndDecimalCommas) {
  const auto p = preview(example("readings_wide.csv"));
  EXPECT_EQ(p.kind, "readings_wide");
  EXPECT_EQ(bad(p), "");
  EXPECT_EQ(guessed(p, "delimiter"), "semicolon certain");
  EXPECT_EQ(guessed(p, "decimal_mark"), "comma certain");
  EXPECT_EQ(guessed(p, "date_order"), "dmy certain") << "15.10. is no month";
  EXPECT_EQ(guessed(p, "unit"), "c certain");
  EXPECT_EQ(guessed(p, "time_of_day"), "12:00 likely");
  EXPECT_EQ(guessed(p, "columns/pH"), "class/ph likely");
  EXPECT_EQ(p.entries.size(), 4u * 4 - 1 + 1);
  EXPECT_EQ(temperatures(p), (std::vector<double>{10.5, 10.4, 10.4, 10.3}));
  EXPECT_TRUE(entries_to_keep(p, {true, false}));
}

TEST(Readings, AreKeptByTheLogbookAndAddedOnce) {
  Folder folder;
  auto book = must(logbook::Logbook::create(folder / "a.redd"));
  must(book.append(entry(setup()), noon));
  must(book.append(entry(context().kits.front()), noon));
  const auto first = must(entries_to_keep(preview(example("readings_wide.csv")), {true, false}));
  must(book.append_all(first, at("2031-06-01T18:00:00Z")));
  const auto count = must(book.last_id());
  const auto again = must(book.append_all(must(entries_to_keep(preview(example("readings_wide.csv")), {true, false})), at("2031-06-02T18:00:00Z")));
  for (const auto& a : again) EXPECT_TRUE(a.already_known);
  EXPECT_EQ(must(book.last_id()), count);
  // One more row, as a file that has grown: only that one is new.
  const auto grown = must(entries_to_keep(preview(example("readings_wide.csv") + "29.10.2030;0,4;7,0;4;10,2;\r\n"), {true, false}));
  std::size_t fresh = 0;
  for (const auto& a : must(book.append_all(grown, at("2031-06-02T18:00:00Z")))) fresh += !a.already_known;
  EXPECT_EQ(fresh, 4u);
}

TEST(Readings, SayWhatTheCardHas) {
  const auto p = preview("date,test,value\n2030-10-01,ammonia,0.25\n2030-10-01,ammonia,0.1-0.8\n2030-10-01,ammonia,<0.4\n2030-10-01,ammonia,trace\n2030-10-01,kh,4.5\n"
                         "2030-10-01,ph,15\n2030-10-01,iron,1\n2030-10-01,kh,-3\n2030-10-01,ammonia,\n2030-10-01,ammonia,n/a\n");
  EXPECT_TRUE(p.entries.empty());
  EXPECT_EQ(bad(p), "2:value:not_on_the_card 3:value:not_on_the_card 4:value:not_on_the_card 5:value:not_a_reading 6:value:not_a_drop_count 7:value:out_of_range 8:test:unknown_test 9:value:not_a_drop_count ");
  EXPECT_NE(p.bad.front().problem.sentence.find("0.1, 0.4, 0.9"), std::string::npos);
}

TEST(Readings, ReadTheWaysPeopleWriteBetween) {
  for (const char* cell : {"0.1-0.4", "0.1 - 0.4", "0.1–0.4", "0.1..0.4", "0.1 to 0.4", "between 0.1 and 0.4", "Between 0.1 and 0.4"}) {
    const auto p = preview(std::string("date,test,value\n2030-10-01,ammonia,") + cell + "\n");
    ASSERT_EQ(p.entries.size(), 1u) << cell << " " << bad(p);
    EXPECT_EQ(reading(p, 0).form, Reading::Form::between);
  }
  const auto p = preview("date,test,value,upper value\n2030-10-01,ammonia,0.1,0.4\n2030-10-01 13:00,kh,7 drops,\n");
  EXPECT_EQ(reading(p, 0).upper_value, 0.4);
  EXPECT_EQ(reading(p, 1).value, 7.0);
}

TEST(Readings, NeverTakeAnotherUnitForTheCards) {
  // The header's own unit is kept, with a wide doubt; a card named by the keeper must have it.
  const auto as_n = preview("date,ammonia (mg/L as N)\n2030-10-01,0.4\n");
  EXPECT_EQ(guessed(as_n, "columns/ammonia (mg/L as N)"), "ammonia_as_n likely");
  EXPECT_EQ(guessed(preview("date,KH (ppm CaCO3)\n2030-10-01,4\n"), "columns/KH (ppm CaCO3)"), "alkalinity_mg_caco3 likely");
  EXPECT_EQ(refusal("date,ammonia (mg/L as N)\n2030-10-01,0.4\n", {{"columns/ammonia (mg/L as N)", "class/ammonia"}}), "other_unit");
  const auto p = preview("date,test,value,unit\n2030-10-01,ammonia,0.4,mg/L as N\n2030-10-01,ammonia,0.4,mg/L as NH4\n2030-10-01,nitrite,0.2,mg/L NO2-N\n");
  EXPECT_EQ(bad(p), "2:unit:other_unit 4:unit:other_unit ");
  EXPECT_EQ(p.entries.size(), 1u);
}

TEST(Readings, AskWhichOfTwoTestsIsMeant) {
  auto c = context();
  records::KitTest high = c.kits.front().tests[0];
  high.key = "ammonia_high";
  high.steps = {2.1, 4.8, 9.9};
  c.kits.front().tests.push_back(high);
  const std::string text = "date,NH4\n2030-10-01,2.1\n";
  const auto p = preview(text, {}, c);
  EXPECT_EQ(guessed(p, "columns/NH4"), "class/ammonia open");
  const auto said = preview(text, {{"columns/NH4", "ammonia_high"}}, c);
  EXPECT_EQ(reading(said, 0).test, "ammonia_high");
  const auto ignored = preview("date,NH4,pH\n2030-10-01,2.1,7.2\n", {{"columns/NH4", "ignore"}}, c);
  EXPECT_EQ(ignored.entries.size(), 1u);
}

TEST(Readings, AskWhatANumberOfADropTestMeans) {
  auto c = context();
  c.kits.front().tests[3].per_drop = 0.5;
  const std::string text = "date,KH\n2030-10-01,4\n";
  EXPECT_EQ(guessed(preview(text, {}, c), "drop_cells"), "drops open");
  EXPECT_EQ(reading(preview(text, {{"drop_cells", "value"}}, c), 0).value, 8.0);
  EXPECT_EQ(reading(preview(text, {{"drop_cells", "drops"}}, c), 0).value, 4.0);
}

TEST(Readings, CountALineThatIsThereTwiceOnce) {
  const auto p = preview("date,test,value\n2030-10-01,ph,7.2\n2030-10-01,ph,7.2\n2030-10-01,ph,7.3\n");
  EXPECT_EQ(p.entries.size(), 2u);
  EXPECT_TRUE(says(p, "in the file twice"));
  const auto teams = preview("date,test,value,team\n2030-10-01,ph,7.2,Team Otter\n2030-10-01,ph,7.2,Team Heron\n");
  EXPECT_EQ(teams.entries.size(), 2u);
}

TEST(Readings, RefuseDaysOutsideTheSeason) {
  const auto p = preview("date,ph\n2030-08-01,7.2\n2031-12-01,7.2\n2030-10-01,7.2\n31.02.2031,7\n");
  EXPECT_EQ(bad(p), "2:date:before_season 3:date:in_the_future 5:date:not_a_time ");
  EXPECT_EQ(p.entries.size(), 1u);
}

TEST(Readings, LeaveUnknownColumnsOutAndSaySo) {
  const auto p = preview("date,ph,phosphate,weather\n2030-10-01,7.2,0.5,sunny\n");
  EXPECT_EQ(guessed(p, "columns/phosphate"), "ignore likely");
  EXPECT_EQ(p.entries.size(), 1u);
}

TEST(Readings, KeepFormulasInNotesHarmless) {
  const auto p = preview("date,ph,note\n2030-10-01,7.2,'=1+1\n");
  EXPECT_EQ(std::get<records::Note>(p.entries[1].body).text, "=1+1");
}

TEST(Readings, KeysAreTheSameInEveryVersion) {
  EXPECT_EQ(preview("date,ph\n2030-10-01,7.2\n").entries.front().entry_key, "readings_csv/11f778d3dbeaa045");
}

TEST(PreviewJson, ShowsEverythingOnce) {
  const std::string text = json_from_preview(preview(example("logger.csv")), 3);
  for (const char* part : {"\"kind\":\"temperature_logger\"", "\"certainty\":\"open\"", "\"code\":\"sensor_fault\"", "\"line\":14", "\"bad_count\":1"})
    EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
}

}  // namespace
}  // namespace redd::intake
