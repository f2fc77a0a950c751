// What a season file does when the disk, the folder or the file itself is not as it should be.

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <csignal>
#include <random>

#include "faults/failing_disk.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

TEST(FullDisk, KeepsWhatWasThereAndSaysSo) {
  // The disk fills up after 0, 1, 2… more writes, so every place where a write can fail is visited.
  for (int writes = 0; writes < 12; ++writes) {
    Folder folder;
    const FailingDisk disk;
    auto book = small_season(folder / "a.redd");
    const std::string before = json(must(book.records()).records);
    FailingDisk::is_full_after(writes);
    const auto result = book.append_all(std::vector<records::Entry>(200, entry(water_c(8))), noon);
    FailingDisk::is_full_after(-1);
    const auto after = must(book.records()).records;
    if (result) {
      EXPECT_EQ(after.size(), 203u) << "acknowledged, so it must be there";
    } else {
      EXPECT_EQ(first_code(result), "disk_full");
      EXPECT_EQ(json(after), before);
    }
    // With room again, the same book goes on.
    must(book.append(entry(water_c(9)), noon));
    const std::string now = json(must(book.records()).records);
    book = must(Logbook::open(folder / "a.redd"));
    EXPECT_EQ(json(must(book.records()).records), now);
  }
}

TEST(FullDisk, MakesNoHalfSeason) {
  for (int writes = 0; writes < 12; ++writes) {
    Folder folder;
    const FailingDisk disk;
    FailingDisk::is_full_after(writes);
    const auto made = Logbook::create(folder / "a.redd");
    FailingDisk::is_full_after(-1);
    if (!made) {
      EXPECT_EQ(first_code(made), "disk_full");
      EXPECT_TRUE(std::filesystem::is_empty(folder.path())) << "after " << writes << " writes";
    }
  }
}

TEST(FailingSync, IsNotAcknowledged) {
  Folder folder;
  const FailingDisk disk;
  auto book = small_season(folder / "a.redd");
  FailingDisk::fails_to_sync(true);
  EXPECT_EQ(first_code(book.append(entry(water_c(8)), noon)), "disk_error");
  FailingDisk::fails_to_sync(false);
  EXPECT_EQ(must(book.append(entry(water_c(9)), noon)).record.id, 4);
  EXPECT_EQ(must(book.records()).records.size(), 4u);
}

/// Runs `work` in a process of its own; its return value is the exit code.
template <class Work>
int in_a_child(Work work) {
  const pid_t child = ::fork();
  if (child == 0) {
    int code = 99;
    try {
      code = work();
    } catch (const std::exception& error) {
      std::fprintf(stderr, "%s\n", error.what());
    }
    ::_exit(code);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 100;
}

TEST(FileSizeLimit, IsAClearProblem) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  EXPECT_EQ(in_a_child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    auto book = must(Logbook::open(folder / "a.redd"));
    const rlimit limit{65536, 65536};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    const auto result = book.append_all(std::vector<records::Entry>(5000, entry(water_c(8))), noon);
    const std::string code = first_code(result);
    return code == "disk_full" || code == "disk_error" ? 0 : 1;
  }), 0);
  auto book = must(Logbook::open(folder / "a.redd"));
  EXPECT_EQ(must(book.records()).records.size(), 3u);
}

/// Gives up the right of a superuser to write everywhere, so that permissions mean something.
void become_nobody() {
  if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) throw std::runtime_error("can't become nobody");
}

TEST(ReadOnlyFolder, CanBeReadButNotWritten) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  ::chmod((folder / "a.redd").c_str(), 0444);
  ::chmod(folder.path().c_str(), 0555);
  EXPECT_EQ(in_a_child([&] {
    become_nobody();
    if (first_code(Logbook::open(folder / "a.redd")) != "read_only") return 1;
    if (first_code(Logbook::create(folder / "b.redd")) != "read_only") return 2;
    auto book = must(Logbook::open(folder / "a.redd", OpenMode::read_only));
    return must(book.records()).records.size() == 3 ? 0 : 3;
  }), 0);
  ::chmod(folder.path().c_str(), 0755);
}

TEST(UnreadableFile, IsAClearProblem) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  ::chmod((folder / "a.redd").c_str(), 0000);
  ::chmod(folder.path().c_str(), 0755);
  EXPECT_EQ(in_a_child([&] {
    become_nobody();
    return first_code(Logbook::open(folder / "a.redd", OpenMode::read_only)) == "read_only" ? 0 : 1;
  }), 0);
}

TEST(ForeignFile, IsLeftAsItIs) {
  Folder folder;
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "other.redd").c_str(), &raw), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(raw, "PRAGMA journal_mode = WAL; CREATE TABLE records (id INTEGER PRIMARY KEY); INSERT INTO records VALUES (1)", nullptr, nullptr, nullptr), SQLITE_OK);
  // Still open elsewhere, with unsaved parts: those must not be tidied up either.
  const std::string before = bytes_of(folder / "other.redd"), unsaved = bytes_of(folder / "other.redd-wal");
  EXPECT_EQ(first_code(Logbook::open(folder / "other.redd")), "not_a_season_file");
  EXPECT_EQ(first_code(Logbook::open(folder / "other.redd", OpenMode::read_only)), "not_a_season_file");
  EXPECT_EQ(bytes_of(folder / "other.redd"), before);
  EXPECT_EQ(bytes_of(folder / "other.redd-wal"), unsaved);
  sqlite3_close(raw);
  const std::string closed = bytes_of(folder / "other.redd");
  EXPECT_EQ(first_code(Logbook::open(folder / "other.redd")), "not_a_season_file");
  EXPECT_EQ(bytes_of(folder / "other.redd"), closed);
}

TEST(ForeignFile, OfAnyOtherSortIsRefused) {
  Folder folder;
  for (const std::string& bytes : {std::string(), std::string("date,ph\n2030-10-01,7.1\n"), std::string(5000, '\0'), std::string("SQLite format 3")}) {
    write_bytes(folder / "x.redd", bytes);
    EXPECT_EQ(first_code(Logbook::open(folder / "x.redd")), "not_a_season_file");
    EXPECT_EQ(bytes_of(folder / "x.redd"), bytes);
  }
  EXPECT_EQ(first_code(Logbook::open(folder.path())), "not_a_season_file");
}

TEST(NewerFile, IsLeftAsItIs) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "a.redd").c_str(), &raw), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(raw, "PRAGMA user_version = 7", nullptr, nullptr, nullptr), SQLITE_OK);
  // Known only from the side file so far, because the other program still has it open.
  const std::string before = bytes_of(folder / "a.redd"), unsaved = bytes_of(folder / "a.redd-wal");
  ASSERT_FALSE(unsaved.empty());
  EXPECT_EQ(first_code(Logbook::open(folder / "a.redd")), "newer_schema");
  EXPECT_EQ(bytes_of(folder / "a.redd"), before);
  EXPECT_EQ(bytes_of(folder / "a.redd-wal"), unsaved);
  sqlite3_close(raw);
  const std::string closed = bytes_of(folder / "a.redd");
  EXPECT_EQ(first_code(Logbook::open(folder / "a.redd")), "newer_schema");
  EXPECT_EQ(bytes_of(folder / "a.redd"), closed);
}

TEST(DamagedFile, IsNeverTakenForAWholeOne) {
  // Bytes are flipped and ends are cut at random. Whatever is damaged: the file is refused, or the records that differ
  // are named, or the flipped byte lay where nothing is kept. A changed value must never come back as if it were true.
  Folder folder;
  {
    auto book = small_season(folder / "a.redd");
    std::vector<records::Entry> batch;
    for (int i = 0; i < 300; ++i) batch.push_back(entry(water_c(8 + 0.01 * i)));
    must(book.append_all(batch, noon));
  }
  const std::string whole = bytes_of(folder / "a.redd");
  const auto truth = must(must(Logbook::open(folder / "a.redd")).records()).records;
  std::map<records::RecordId, std::string> true_record;
  for (const auto& r : truth) true_record[r.id] = wire::json_from_record(r);
  std::mt19937 random(7);
  int refused = 0, named = 0, harmless = 0;
  for (int round = 0; round < 400; ++round) {
    std::string damaged = whole;
    if (round % 4 == 0) damaged.resize(random() % damaged.size());
    else for (unsigned n = 1 + random() % 4; n > 0; --n) damaged[random() % damaged.size()] ^= static_cast<char>(1 << random() % 8);
    const auto path = folder / "damaged.redd";
    write_bytes(path, damaged);
    const auto opened = Logbook::open(path, OpenMode::read_only);
    if (!opened) {
      ++refused;
      EXPECT_EQ(bytes_of(path), damaged) << "a refused file must stay as it is";
      continue;
    }
    auto book = must(Logbook::open(path, OpenMode::read_only));
    const auto contents = book.records();
    if (!contents) { ++refused; continue; }
    for (const auto& r : contents->records) EXPECT_EQ(wire::json_from_record(r), true_record[r.id]) << "round " << round;
    const bool complete = contents->records.size() == truth.size();
    EXPECT_TRUE(complete || !contents->unreadable.empty()) << "records are missing and nobody says so, round " << round;
    ++(complete ? harmless : named);
  }
  std::printf("refused %d, damaged records named %d, harmless %d\n", refused, named, harmless);
  EXPECT_GT(refused, 0);
  EXPECT_GT(named, 0);
}

TEST(DamagedFile, NamesItselfAndTheMendAndIsNotWrittenTo) {
  Folder folder;
  {
    auto book = small_season(folder / "a.redd");
    must(book.append_all(std::vector<records::Entry>(300, entry(water_c(8))), noon));
  }
  std::string bytes = bytes_of(folder / "a.redd");
  bytes.resize(bytes.size() / 2);
  write_bytes(folder / "a.redd", bytes);
  const auto result = Logbook::open(folder / "a.redd");
  ASSERT_FALSE(result);
  EXPECT_EQ(result.problems().front().code, "damaged");
  EXPECT_NE(result.problems().front().sentence.find("a.redd"), std::string::npos);
  EXPECT_NE(result.problems().front().sentence.find("latest copy"), std::string::npos);
  EXPECT_EQ(bytes_of(folder / "a.redd"), bytes);
}

TEST(OldRecord, ThatCanNotBeReadAnyMoreIsNamedAndTheOthersStay) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "a.redd").c_str(), &raw), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(raw,
      "INSERT INTO records (at, logged_at, author, kind, body, check_sum) VALUES"
      "('2030-10-01T18:00:00Z', '2030-10-01T18:00:00Z', 'A', 'temperature', '{\"temperature_c\":8}', '0000000000000000')",
      nullptr, nullptr, nullptr), SQLITE_OK);
  sqlite3_close(raw);
  auto book = must(Logbook::open(folder / "a.redd"));
  const auto contents = must(book.records());
  EXPECT_EQ(contents.records.size(), 3u);
  ASSERT_EQ(contents.unreadable.size(), 1u);
  EXPECT_EQ(contents.unreadable.front().id, 4);
  EXPECT_EQ(contents.unreadable.front().problems.front().code, "damaged_record");
  // The log goes on behind it.
  EXPECT_EQ(must(book.append(entry(water_c(8)), noon)).record.id, 5);
}

TEST(RemovedRecord, IsMissed) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "a.redd").c_str(), &raw), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(raw, "DROP TRIGGER records_are_never_removed; DELETE FROM records WHERE id = 2", nullptr, nullptr, nullptr), SQLITE_OK);
  sqlite3_close(raw);
  auto book = must(Logbook::open(folder / "a.redd"));
  const auto contents = must(book.records());
  ASSERT_EQ(contents.unreadable.size(), 1u);
  EXPECT_EQ(contents.unreadable.front().problems.front().code, "record_missing");
}

TEST(LockedFile, IsAClearProblemAfterAWhile) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "a.redd").c_str(), &raw), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(raw, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
  EXPECT_EQ(first_code(book.append(entry(water_c(8)), noon)), "locked");
  EXPECT_EQ(must(book.records()).records.size(), 3u) << "reading goes on";
  EXPECT_TRUE(Logbook::open(folder / "a.redd")) << "opening goes on";
  sqlite3_exec(raw, "ROLLBACK", nullptr, nullptr, nullptr);
  sqlite3_close(raw);
  must(book.append(entry(water_c(8)), noon));
}

}  // namespace
}  // namespace redd::logbook
