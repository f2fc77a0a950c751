#include "ledger/season_tables.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "ledger/season_file.h"
#include "support/small_season.h"
#include "wire/any_record.h"
#include "wire/codec.h"
#include "wire/csv_table.h"
#include "wire/json.h"

namespace redd::ledger {
namespace {

using records::Record;
using testing::SmallSeason;

/// An invented season with readings in all forms, a correction, something taken back, and texts that try a spreadsheet.
std::vector<Record> season() {
  SmallSeason s;
  s.step(1, "ammonia", 0.4);
  s.step(1, "nitrite", 0);
  s.between(1, "nitrate", 5, 20);
  s.add(1, SmallSeason::reading("nitrate", records::Reading::Form::above_last, {}));
  s.add(1, SmallSeason::reading("ph", records::Reading::Form::below_first, {}));
  s.drops(1, "kh", 6);
  s.temperature(2, 8.25);
  for (const char* text : {"=1+1", "'", "''", "'=1", "-5", "two\nlines, \"quoted\"", " spaces ", "é水"}) s.add(2, records::Note{text});
  s.add(2, records::EquipmentEvent{records::EquipmentEvent::Equipment::chiller, records::EquipmentEvent::Event::failed, ""});
  s.add(2, records::EquipmentEvent{records::EquipmentEvent::Equipment::chiller, records::EquipmentEvent::Event::restored, {}});
  s.add(3, records::Undo{4});
  s.step(3, "nitrite", 0.05);
  s.log().back().entry.supersedes = 5;
  s.log().back().entry.entry_key = "key,1";
  return s.log();
}

const NamedFile& file(const std::vector<NamedFile>& files, std::string_view name) {
  for (const NamedFile& one : files)
    if (one.name == name) return one;
  ADD_FAILURE() << "there is no " << name;
  return files.front();
}

std::map<std::string, std::string> water_row(const std::vector<NamedFile>& files, std::size_t index) {
  const auto rows = wire::read_csv(file(files, "data/water_quality.csv").bytes, ',').value();
  std::map<std::string, std::string> row;
  for (std::size_t i = 0; i < rows.front().cells.size(); ++i) row[rows.front().cells[i]] = rows.at(index + 1).cells.at(i);
  return row;
}

std::string code(const std::vector<NamedFile>& files) {
  const auto result = records_of_season_tables(files);
  return result ? "" : result.problems().front().code + " " + result.problems().front().field;
}

TEST(SeasonTables, BringEveryRecordBackAndWriteTheSameBytesAgain) {
  const auto files = season_tables(season());
  const auto back = records_of_season_tables(files);
  ASSERT_TRUE(back.has_value()) << code(files);
  EXPECT_EQ(season_file(*back), season_file(season()));
  EXPECT_EQ(season_tables(*back), files);
}

TEST(SeasonTables, RandomSeasonsOfEveryKindComeBackInBothForms) {
  for (unsigned seed = 0; seed < 40; ++seed) {
    std::vector<Record> records;
    test::RandomFill fill(seed);
    for (unsigned n = 0; n < 25; ++n) {
      const auto kinds = records::kind_names();
      Record record;
      record.id = static_cast<records::RecordId>(n) + 1;
      record.logged_at = record.entry.at = testing::on_day(static_cast<int>(n));
      record.entry.author = fill.any_text().substr(0, 20);
      if (fill.coin()) record.entry.entry_key = std::to_string(seed) + "-" + std::to_string(n);
      if (n > 0 && n % 5 == 0) record.entry.supersedes = record.id - 1;
      record.entry.body = test::any_body(kinds[(n + seed) % kinds.size()], seed * 100 + n);
      // Authors cut in the middle of a letter are mended by the first writing.
      records.push_back(wire::record_from_json(wire::json_from_record(record)).value());
    }
    const auto files = season_tables(records);
    const auto back = records_of_season_tables(files);
    ASSERT_TRUE(back.has_value()) << seed << " " << code(files);
    EXPECT_EQ(season_tables(*back), files) << seed;
    EXPECT_EQ(season_file(*back), season_file(records)) << seed;
    EXPECT_EQ(season_file(records_of_season_file(season_file(records)).value()), season_file(records)) << seed;
    EXPECT_EQ(files_of_stored_zip(stored_zip(files)).value(), files) << seed;
  }
}

TEST(SeasonTables, DescribeEveryColumnOfEveryTable) {
  const auto files = season_tables(season());
  const auto package = wire::parsed(file(files, "datapackage.json").bytes).value();
  std::set<std::string> described{"datapackage.json"};
  for (const auto& resource : package["resources"]) {
    const std::string path = resource["path"];
    described.insert(path);
    const auto rows = wire::read_csv(file(files, path).bytes, ',').value();
    std::vector<std::string> names;
    for (const auto& field : resource["schema"]["fields"]) {
      names.push_back(field["name"]);
      EXPECT_FALSE(field["description"].get<std::string>().empty()) << path;
    }
    EXPECT_EQ(rows.front().cells, names) << path;
    EXPECT_GT(rows.size(), 1u) << path;
    for (const auto& row : rows) EXPECT_EQ(row.cells.size(), names.size()) << path << " line " << row.line;
  }
  std::set<std::string> written;
  for (const auto& one : files) written.insert(one.name);
  EXPECT_EQ(described, written);
}

TEST(SeasonTables, SayUnitsAndWhatPointsWhere) {
  const auto package = wire::parsed(file(season_tables(season()), "datapackage.json").bytes).value();
  std::map<std::string, std::string> units, keys;
  for (const auto& resource : package["resources"]) {
    for (const auto& field : resource["schema"]["fields"]) units[resource["name"].get<std::string>() + "/" + field["name"].get<std::string>()] = field.value("unit", "");
    for (const auto& key : resource["schema"]["foreignKeys"])
      keys[resource["name"].get<std::string>() + "/" + key["fields"][0].get<std::string>()] = key["reference"]["resource"];
  }
  EXPECT_EQ(units.at("temperature/temperature_c"), "°C");
  EXPECT_EQ(units.at("source_water/nitrate_mg_n_per_l"), "mg/L as N");
  EXPECT_EQ(units.at("season_setup/elevation_m"), "m");
  EXPECT_EQ(units.at("note/text"), "");
  EXPECT_EQ(keys.at("note/record"), "records");
  EXPECT_EQ(keys.at("undo/target"), "records");
  EXPECT_EQ(keys.at("records/supersedes"), "");
}

TEST(SeasonTables, WaterQualitySaysTheRangeAReadingStandsFor) {
  const auto files = season_tables(season());
  auto row = water_row(files, 0);  // ammonia, the step 0.4 between 0.2 and 0.8
  EXPECT_EQ(row["characteristic"], "total_ammonia");
  EXPECT_EQ(row["counts"], "false") << "it was taken back";
  EXPECT_EQ(row["value"] + " " + row["low"] + " " + row["high"] + " " + row["unit"] + " " + row["speciation"], "0.4 0.3 0.6 mg/L as N");
  EXPECT_EQ(row["fraction"] + " " + row["method"] + " " + row["kit_name"], "total colour_steps Test kit");
  row = water_row(files, 2);
  EXPECT_EQ(row["form"] + " " + row["value"] + " " + row["upper_value"] + " " + row["low"] + " " + row["high"] + " " + row["speciation"], "between 5.0 20.0 5.0 20.0 as NO3");
  row = water_row(files, 3);
  EXPECT_EQ(row["form"] + " " + row["value"] + "/" + row["low"] + "/" + row["high"], "above_last /80.0/");
  row = water_row(files, 4);
  EXPECT_EQ(row["unit"] + "/" + row["fraction"] + "/" + row["speciation"] + "/" + row["high"], "pH///6.4");
  row = water_row(files, 6);
  EXPECT_EQ(row["characteristic"] + " " + row["value"] + " " + row["unit"], "temperature 8.25 °C");
}

TEST(SeasonTables, AFormulaStaysText) {
  const std::string notes = file(season_tables(season()), "data/note.csv").bytes;
  EXPECT_NE(notes.find(",'=1+1\r\n"), std::string::npos) << notes;
  EXPECT_NE(notes.find(",-5\r\n"), std::string::npos) << notes;
}

TEST(SeasonTables, ThatAreNoneOrNewerAreRefused) {
  EXPECT_EQ(code({}), "not_an_export ");
  EXPECT_EQ(code({{"datapackage.json", "{"}}), "not_an_export ");
  EXPECT_EQ(code({{"datapackage.json", R"({"resources":[]})"}}), "not_an_export ");
  EXPECT_EQ(code({{"datapackage.json", R"({"redd_tables":2})"}}), "newer_export ");
  EXPECT_EQ(code({{"datapackage.json", R"({"redd_tables":1})"}}), "missing_table data/records.csv");
}

TEST(SeasonTables, ChangedByHandSayWhatIsWrong) {
  const auto whole = season_tables(season());
  const auto with = [&](std::string_view name, const std::string& from, const std::string& to) {
    auto files = whole;
    for (NamedFile& one : files)
      if (one.name == name) {
        const auto at = one.bytes.find(from);
        EXPECT_NE(at, std::string::npos) << from;
        one.bytes.replace(at, from.size(), to);
      }
    return code(files);
  };
  EXPECT_EQ(with("data/temperature.csv", "8.25", "8000"), "out_of_range /records/9/body/temperature_c");
  EXPECT_EQ(with("data/temperature.csv", "8.25", "warm"), "not_a_number /records/9/body/temperature_c");
  EXPECT_EQ(with("data/temperature.csv", "10,8.25", "99,8.25"), "record_without_row data/temperature.csv");
  EXPECT_EQ(with("data/temperature.csv", "temperature_c", "degrees"), "missing_column data/temperature.csv");
  EXPECT_EQ(with("data/note.csv", "\r\n12,", "\r\n11,"), "row_without_record data/note.csv");
  EXPECT_EQ(with("data/note.csv", "record,text\r\n", "record,text\r\n1,more\r\n"), "row_without_record data/note.csv");
  EXPECT_EQ(with("data/records.csv", ",note,", ",poem,"), "row_without_record data/note.csv");
  EXPECT_EQ(with("data/records.csv", "\r\n2,", "\r\n7,"), "record_without_row data/kit.csv");
  auto less = whole;
  std::erase_if(less, [](const NamedFile& one) { return one.name == "data/note.csv"; });
  EXPECT_EQ(code(less), "missing_table data/note.csv");
}

TEST(SeasonTables, MayBeSavedByASpreadsheetWithLineFeedsAndAMark) {
  auto files = season_tables(season());
  for (NamedFile& one : files)
    if (one.name == "data/temperature.csv") one.bytes = "\xEF\xBB\xBFtemperature_c,place,record\n8.25,tank,10\n";
  EXPECT_EQ(season_file(records_of_season_tables(files).value()), season_file(season()));
}

TEST(SeasonTables, OfAnEmptySeasonHoldAnEmptyList) { EXPECT_TRUE(records_of_season_tables(season_tables({}))->empty()); }

}  // namespace
}  // namespace redd::ledger
