#include "logbook/logbook.h"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <chrono>
#include <thread>

#include "ledger/rules.h"
#include "ledger/season_file.h"
#include "logbook/detail/season_file.h"
#include "logbook/season.h"
#include "zones/zones.h"

namespace redd::logbook {
namespace {

using namespace redd::test;
using records::Entry;
using records::Record;

TEST(Logbook, GivesBackWhatWasKept) {
  Folder folder;
  std::string before;
  {
    auto book = small_season(folder / "a.redd");
    before = json(must(book.records()).records);
  }
  auto again = must(Logbook::open(folder / "a.redd"));
  const auto contents = must(again.records());
  EXPECT_EQ(json(contents.records), before);
  EXPECT_TRUE(contents.unreadable.empty());
  EXPECT_EQ(contents.records.size(), 3u);
  EXPECT_EQ(contents.records.back().id, 3);
  EXPECT_EQ(must(again.last_id()), 3);
}

TEST(Logbook, IsOneFileAfterEveryEntry) {
  // A keeper who copies the one file while the program runs must get the whole season.
  Folder folder;
  auto book = small_season(folder / "a.redd");
  std::filesystem::copy_file(folder / "a.redd", folder / "copy.redd");
  auto copy = must(Logbook::open(folder / "copy.redd"));
  EXPECT_EQ(must(copy.records()).records.size(), 3u);
}

TEST(Logbook, GivesOnlyWhatIsNewer) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  const auto newer = must(book.records_after(2)).records;
  ASSERT_EQ(newer.size(), 1u);
  EXPECT_EQ(newer.front().id, 3);
  EXPECT_TRUE(must(book.records_after(3)).records.empty());
}

TEST(Logbook, AddsAResentEntryOnce) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  Entry sent = entry(water_c(8.5));
  sent.entry_key = "tablet-1/17";
  const auto first = must(book.append(sent, noon));
  sent.at += std::chrono::seconds(30);  // a resend without a time of its own gets the later time
  const auto second = must(book.append(sent, noon + std::chrono::seconds(30)));
  EXPECT_FALSE(first.already_known);
  EXPECT_TRUE(second.already_known);
  EXPECT_EQ(first.record.id, second.record.id);
  EXPECT_EQ(must(book.last_id()), 4);
}

TEST(Logbook, RefusesAKeyUsedForSomethingElse) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  Entry sent = entry(water_c(8.5));
  sent.entry_key = "tablet-1/17";
  must(book.append(sent, noon));
  sent.body = water_c(9.5);
  EXPECT_EQ(first_code(book.append(sent, noon)), "entry_key_reused");
}

TEST(Logbook, AppliesTheRulesOfRecords) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  EXPECT_EQ(first_code(book.append(entry(setup()), noon)), "second_season");
  EXPECT_EQ(first_code(book.append(entry(between(0.1, 0.3)), noon)), "not_on_the_card");
  EXPECT_EQ(first_code(book.append(entry(records::Undo{99}), noon)), "unknown_record");
  EXPECT_EQ(must(book.last_id()), 3);
}

TEST(Logbook, TakesFoodInSpoonsOnceASpoonIsWeighed) {
  // The file's rules look at some kinds of records only: spoons are among them.
  Folder folder;
  auto book = small_season(folder / "a.redd");
  records::Feeding feeding;
  feeding.spoons = 1.5;
  feeding.food = "crumble 0";
  EXPECT_EQ(first_code(book.append(entry(feeding), noon)), "unknown_spoon");
  must(book.append(entry(records::Spoon{10, Mass::from_g(4), "crumble 0"}), noon));
  EXPECT_TRUE(book.append(entry(feeding), noon));
}

TEST(Logbook, RefusesASeasonInAnUnknownTimeZone) {
  Folder folder;
  auto book = must(Logbook::create(folder / "a.redd"));
  auto season = setup();
  season.time_zone = "America/Dever";
  const auto result = book.append(entry(season), noon);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.problems().front().code, "unknown_time_zone");
  EXPECT_EQ(result.problems().front().field, "/body/time_zone");
}

TEST(Logbook, JudgesDaysInTheSeasonsOwnZone) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  // 05:59 UTC on 2 September is still the first of September in Denver (UTC-6).
  EXPECT_EQ(first_code(book.append(entry(water_c(15), at("2030-09-02T05:59:59Z")), noon)), "before_season");
  EXPECT_TRUE(book.append(entry(water_c(15), at("2030-09-02T06:00:00Z")), noon));
}

TEST(Logbook, KeepsAllOrNothingOfABatch) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  std::vector<Entry> batch{entry(water_c(8)), entry(between(0.1, 0.3)), entry(water_c(9)), entry(records::Undo{99})};
  const auto result = book.append_all(batch, noon);
  ASSERT_FALSE(result);
  ASSERT_EQ(result.problems().size(), 2u);
  EXPECT_EQ(result.problems()[0].field, "/entries/1/body/value");
  EXPECT_EQ(result.problems()[1].field, "/entries/3/body/target");
  EXPECT_EQ(must(book.last_id()), 3);
  // The ids of a batch that failed are free again, and the log goes on as if it had never been.
  EXPECT_EQ(must(book.append(entry(water_c(8)), noon)).record.id, 4);
  EXPECT_EQ(must(must(Logbook::open(folder / "a.redd")).records()).records.size(), 4u);
}

TEST(Logbook, LetsEntriesOfABatchBuildOnEachOther) {
  Folder folder;
  auto book = must(Logbook::create(folder / "a.redd"));
  const std::vector<Entry> batch{entry(setup()), entry(kit()), entry(between(0.1, 0.4)), entry(records::Undo{3})};
  EXPECT_EQ(must(book.append_all(batch, noon)).size(), 4u);
}

TEST(Logbook, ForgetsTheKeysOfABatchThatFailed) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  Entry keyed = entry(water_c(8));
  keyed.entry_key = "k";
  EXPECT_FALSE(book.append_all(std::vector<Entry>{keyed, entry(records::Undo{99})}, noon));
  EXPECT_FALSE(must(book.append(keyed, noon)).already_known);
}

TEST(Logbook, CanNotBeChangedFromOutsideEither) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "a.redd").c_str(), &raw), SQLITE_OK);
  for (const char* sql : {"UPDATE records SET author = 'x'", "DELETE FROM records", "DELETE FROM records WHERE id = 3",
                          "INSERT OR REPLACE INTO records SELECT * FROM records WHERE id = 1",
                          "INSERT INTO records (at, logged_at, author, kind, body, check_sum) VALUES ('', '', '', '', 'no json', '')",
                          "INSERT INTO records (at, logged_at, author, kind, supersedes, body, check_sum) VALUES (1, 2, x'00', '', 'seven', '{}', '')"})
    EXPECT_NE(sqlite3_exec(raw, sql, nullptr, nullptr, nullptr), SQLITE_OK) << sql;
  sqlite3_close(raw);
}

TEST(Logbook, IsSharedByTwoOpenBooks) {
  Folder folder;
  auto one = small_season(folder / "a.redd");
  auto two = must(Logbook::open(folder / "a.redd"));
  auto reader = must(Logbook::open(folder / "a.redd", OpenMode::read_only));
  EXPECT_EQ(must(two.append(entry(water_c(8)), noon)).record.id, 4);
  EXPECT_EQ(must(one.append(entry(water_c(9)), noon)).record.id, 5);
  EXPECT_EQ(must(two.records()).records.size(), 5u);
  EXPECT_EQ(must(reader.records()).records.size(), 5u);
  // A rule is judged against what the other one wrote.
  must(two.append(entry(records::Undo{4}), noon));
  EXPECT_EQ(first_code(one.append(entry(records::Undo{4}), noon)), "already_replaced");
}

TEST(Logbook, ServesSeveralThreads) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  std::vector<std::jthread> threads;
  for (int t = 0; t < 4; ++t)
    threads.emplace_back([&book, t] {
      for (int i = 0; i < 25; ++i) {
        Entry e = entry(water_c(5 + t));
        e.entry_key = std::to_string(t) + "/" + std::to_string(i);
        must(book.append(e, noon));
        must(book.records_after(3));
      }
    });
  threads.clear();
  EXPECT_EQ(must(book.records()).records.size(), 103u);
}

TEST(Logbook, OpenedForReadingKeepsNothing) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  auto book = must(Logbook::open(folder / "a.redd", OpenMode::read_only));
  EXPECT_EQ(first_code(book.append(entry(water_c(8)), noon)), "read_only");
  EXPECT_EQ(must(book.records()).records.size(), 3u);
}

TEST(Logbook, IsNeverMadeOverAnExistingFile) {
  Folder folder;
  write_bytes(folder / "a.redd", "mine");
  EXPECT_EQ(first_code(Logbook::create(folder / "a.redd")), "file_exists");
  EXPECT_EQ(bytes_of(folder / "a.redd"), "mine");
  EXPECT_EQ(first_code(Logbook::create(folder / "no/such/folder/a.redd")), "folder_missing");
  EXPECT_EQ(first_code(Logbook::open(folder / "b.redd")), "file_missing");
  EXPECT_FALSE(std::filesystem::exists(folder / "b.redd"));
}

TEST(Logbook, LeavesNoOtherFilesBehind) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  std::vector<std::string> names;
  for (const auto& item : std::filesystem::directory_iterator(folder.path())) names.push_back(item.path().filename().string());
  EXPECT_EQ(names, std::vector<std::string>{"a.redd"});
}

TEST(Logbook, BringsAWholeSeasonBackFromItsSavedFile) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  Entry keyed = entry(water_c(8.25));
  keyed.entry_key = "k\"\\é";
  must(book.append(keyed, noon));
  Entry better = entry(water_c(8.5));
  better.supersedes = 4;
  must(book.append(better, noon + std::chrono::hours(1)));
  must(book.append(entry(records::Undo{5}), noon + std::chrono::hours(2)));
  const auto records = must(book.records()).records;
  const std::string text = ledger::season_file(records);
  const auto back = must(ledger::records_of_season_file(text));
  EXPECT_EQ(json(back), json(records));
  auto restored = must(Logbook::create_from(folder / "b.redd", back));
  EXPECT_EQ(json(must(restored.records()).records), json(records));
  EXPECT_EQ(ledger::season_file(must(restored.records()).records), text);
}

TEST(Logbook, MakesNoFileOfRecordsThatBreakTheRules) {
  Folder folder;
  std::vector<Record> records{{1, noon, entry(water_c(8))}};  // no season
  EXPECT_EQ(first_code(Logbook::create_from(folder / "a.redd", records)), "no_season");
  records = {{2, noon, entry(setup())}};
  EXPECT_EQ(first_code(Logbook::create_from(folder / "a.redd", records)), "ids_not_in_order");
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(Migrations, KeepACopyAndGoForwardOnly) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  // Two invented later layouts, the second of which does not work.
  const Migration good{2, "CREATE TABLE later (x INTEGER) STRICT"};
  const Migration bad{3, "CREATE TABLE half (x INTEGER) STRICT; INSERT INTO no_such_table VALUES (1)"};
  const std::vector<Migration> fails{migration_0001_records, good, bad}, works{migration_0001_records, good};
  EXPECT_FALSE(detail::open_season_file(folder / "a.redd", true, fails));
  {
    const auto file = must(detail::open_season_file(folder / "a.redd", true, works));
    EXPECT_EQ(file->integer("PRAGMA user_version"), 2);  // the good step stayed, the failed one left nothing
    EXPECT_EQ(file->integer("SELECT count(*) FROM sqlite_schema WHERE name IN ('later', 'half')"), 1);
    EXPECT_EQ(file->integer("SELECT count(*) FROM records"), 3);
  }
  const auto copies = must(copies_of(folder / "a.redd"));
  ASSERT_EQ(copies.size(), 1u);
  EXPECT_EQ(copies.front().why, Why::before_upgrade);
  EXPECT_EQ(must(must(Logbook::open(copies.front().file, OpenMode::read_only)).records()).records.size(), 3u);
  // The program that knows only layout 1 now refuses the file.
  EXPECT_EQ(first_code(Logbook::open(folder / "a.redd")), "newer_schema");
}

TEST(Rules, AreTheSameWithAndWithoutTheMeasurements) {
  // Rules judge a plain entry by the governing records alone; the full log must give the same answer.
  Folder folder;
  auto book = small_season(folder / "a.redd");
  must(book.append(entry(records::EggReceipt{.count = 100}), noon));
  for (int i = 0; i < 5; ++i) must(book.append(entry(water_c(7 + i)), noon));
  must(book.append(entry(records::Undo{2}), noon));
  must(book.append(entry(records::Undo{10}), noon));
  const auto all = must(book.records()).records;
  ledger::Rules rules(zones::season_zone);
  for (const Record& r : all) rules.add(r);
  const auto zone = records::find_season(records::effective(all, noon)) ? ZoneOffsets{"America/Denver", {{Instant{}, std::chrono::hours(-6)}}} : ZoneOffsets{};
  for (const auto kind : records::kind_names()) {
    if (kind == "undo") continue;
    const Entry e = entry(*records::body_of_kind(kind));
    if (kind == "season_setup") continue;  // judged in its own zone
    EXPECT_EQ(rules.problems_of(e, all, noon), records::problems_of(e, all, zone, noon)) << kind;
  }
}

TEST(Logbook, ReadsTwoThousandRecordsFast) {
  Folder folder;
  {
    auto book = small_season(folder / "a.redd");
    std::vector<Entry> batch;
    for (int i = 0; i < 1997; ++i) batch.push_back(i % 2 ? entry(water_c(8 + i * 0.001)) : entry(between(0.1, 0.4)));
    must(book.append_all(batch, noon));
  }
  const auto start = std::chrono::steady_clock::now();
  auto book = must(Logbook::open(folder / "a.redd"));
  EXPECT_EQ(must(book.records()).records.size(), 2000u);
  const auto took = std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
  RecordProperty("milliseconds", std::to_string(took));
  std::printf("open and read 2000 records: %.1f ms\n", took);
  EXPECT_LT(took, 5000) << "an optimised build needs about 10 ms; this bound only catches a wrong order of growth under the checkers";
}

}  // namespace
}  // namespace redd::logbook
