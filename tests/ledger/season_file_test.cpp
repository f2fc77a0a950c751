#include "ledger/season_file.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "wire/codec.h"
#include "wire/json.h"

namespace redd::ledger {
namespace {

using records::Record;

Record record_of(const char* text) {
  auto record = wire::record_from_json(text);
  EXPECT_TRUE(record.has_value()) << text;
  return std::move(record).value();
}

/// An invented season of three records.
std::vector<Record> season(const char* name = "Otter Lane 2030") {
  std::vector<Record> records{
      record_of(R"({"id":1,"logged_at":"2030-09-02T15:00:00Z","at":"2030-09-02T15:00:00Z","kind":"season_setup","author":"Team Otter","body":{"name":"T","time_zone":"America/Denver","first_day":"2030-09-02","volume_l":210,"species":"brook_trout","target_c":8}})"),
      record_of(R"({"id":2,"logged_at":"2030-09-03T15:00:00Z","at":"2030-09-03T14:00:00Z","kind":"temperature","author":"Team Otter","entry_key":"k\"\\é","body":{"temperature_c":8.25,"place":"tank"}})"),
      record_of(R"({"id":3,"logged_at":"2030-09-04T15:00:00Z","at":"2030-09-03T14:00:00Z","kind":"temperature","author":"Team Heron","supersedes":2,"body":{"temperature_c":8.5,"place":"tank"}})")};
  std::get<records::SeasonSetup>(records[0].entry.body).name = name;
  return records;
}

std::string code(const Problems& problems) { return problems.empty() ? "" : problems.front().code; }

TEST(SeasonFile, BringsEveryRecordBackAndWritesTheSameBytesAgain) {
  const std::string text = season_file(season());
  const auto back = records_of_season_file(text);
  ASSERT_TRUE(back.has_value()) << code(back.problems());
  ASSERT_EQ(back->size(), 3u);
  EXPECT_EQ((*back)[1].entry.entry_key, "k\"\\é");
  EXPECT_EQ((*back)[2].entry.supersedes, 2);
  EXPECT_EQ(season_file(*back), text);
}

TEST(SeasonFile, IsADataPackageWithItsTablesInside) {
  const auto tree = wire::parsed(season_file(season())).value();
  EXPECT_EQ(tree["$schema"], "https://datapackage.org/profiles/2.0/datapackage.json");
  EXPECT_EQ(tree["title"], "Otter Lane 2030");
  ASSERT_EQ(tree["resources"].size(), 2u);
  for (const auto& resource : tree["resources"]) {
    EXPECT_EQ(resource["type"], "table");
    // Every field of every row is described, and every required one is there.
    std::set<std::string> fields, required;
    for (const auto& field : resource["schema"]["fields"]) {
      fields.insert(field["name"].get<std::string>());
      if (field.contains("constraints")) required.insert(field["name"].get<std::string>());
    }
    ASSERT_FALSE(resource["data"].empty());
    for (const auto& row : resource["data"]) {
      for (const auto& [name, value] : row.items()) EXPECT_TRUE(fields.contains(name)) << name;
      for (const auto& name : required) EXPECT_TRUE(row.contains(name)) << name;
    }
  }
}

TEST(SeasonFile, NamesTheUnitOfEachFieldThatHasOne) {
  const auto tree = wire::parsed(season_file({})).value();
  std::map<std::string, std::string> units;
  for (const auto& row : tree["resources"][1]["data"])
    units[row["kind"].get<std::string>() + "/" + row["field"].get<std::string>()] = row.value("unit", "");
  EXPECT_EQ(units.at("temperature/temperature_c"), "°C");
  EXPECT_EQ(units.at("season_setup/volume_l"), "L");
  EXPECT_EQ(units.at("note/text"), "");
}

TEST(SeasonFile, OfAnEmptySeasonIsEmpty) { EXPECT_TRUE(records_of_season_file(season_file({}))->empty()); }

TEST(SeasonFile, OfTheFirstFormIsStillRead) {
  std::string text = "{\"format\":\"redd-season\",\"version\":1,\"records\":[";
  for (const Record& record : season()) text += (record.id > 1 ? "," : "") + wire::json_from_record(record);
  const auto back = records_of_season_file(text + "]}");
  ASSERT_TRUE(back.has_value());
  EXPECT_EQ(season_file(*back), season_file(season()));
}

TEST(SeasonFile, ThatIsNoneIsRefusedWithItsReason) {
  for (const char* text : {"[]", "{}", R"({"format":"other","version":1,"records":[]})", R"({"redd_season":1})", R"({"redd_season":1,"resources":[{"name":"other","data":[]}]})",
                           R"({"redd_season":1,"resources":[{"name":"records","data":{}}]})", R"({"redd_season":"1","resources":[]})"})
    EXPECT_EQ(code(records_of_season_file(text).problems()), "not_an_export") << text;
  EXPECT_EQ(code(records_of_season_file(R"({"redd_season":2,"resources":[]})").problems()), "newer_export");
  EXPECT_EQ(code(records_of_season_file("").problems()), "not_json");
}

TEST(SeasonFile, SaysWhichRecordIsWrong) {
  std::string text = season_file(season());
  text.replace(text.find("8.25"), 4, "8000");
  auto result = records_of_season_file(text);
  ASSERT_FALSE(result.has_value());
  EXPECT_EQ(result.problems().front().field, "/records/1/body/temperature_c");

  auto hole = season();
  hole.erase(hole.begin() + 1);
  EXPECT_EQ(code(records_of_season_file(season_file(hole)).problems()), "ids_not_in_order");
  auto twice = season();
  twice[2].entry.entry_key = twice[1].entry.entry_key;
  EXPECT_EQ(code(records_of_season_file(season_file(twice)).problems()), "given_twice");
}

TEST(NewRecords, AreAllOfThemWhereThereIsNoSeasonYet) { EXPECT_EQ(new_records({}, season())->size(), 3u); }

TEST(NewRecords, AreOnlyWhatContinuesTheSameSeason) {
  const auto all = season();
  const std::span<const Record> three(all);
  EXPECT_EQ(new_records(three.first(1), three)->size(), 2u);
  EXPECT_EQ(new_records(three.first(1), three)->front().id, 2);
  EXPECT_TRUE(new_records(three, three)->empty());
  EXPECT_TRUE(new_records(three, three.first(2))->empty());  // an older file
}

TEST(NewRecords, OfAnotherSeasonOrOneGoneApartAreRefused) {
  const auto here = season();
  EXPECT_EQ(code(new_records(here, season("Heron Lane 2030")).problems()), "another_season");
  auto other = season();
  other[2].entry.author = "Team Dipper";
  EXPECT_EQ(code(new_records(here, other).problems()), "gone_apart");
}

}  // namespace
}  // namespace redd::ledger
