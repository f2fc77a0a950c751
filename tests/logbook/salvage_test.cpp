#include "logbook/salvage.h"

#include <gtest/gtest.h>

#include <map>
#include <random>

#include "logbook/check.h"
#include "logbook/detail/carve.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

/// A season of some pages, with a body that needs pages of its own.
std::map<records::RecordId, std::string> longer_season(const std::filesystem::path& path) {
  auto book = small_season(path);
  std::vector<records::Entry> batch;
  for (int i = 0; i < 200; ++i) batch.push_back(entry(water_c(8 + 0.01 * i)));
  batch.push_back(entry(records::Note{std::string(1900, 'a')}));
  batch.back().entry_key = "k";
  records::Kit large = kit();
  while (large.tests.size() < 120) {
    large.tests.push_back(large.tests.front());
    large.tests.back().key = "ammonia_" + std::to_string(large.tests.size());
  }
  batch.push_back(entry(large));
  for (int i = 0; i < 100; ++i) batch.push_back(entry(water_c(10 + 0.01 * i)));
  must(book.append_all(batch, noon));
  records::Entry better = entry(water_c(7));
  better.supersedes = 10;
  must(book.append(better, noon));
  std::map<records::RecordId, std::string> truth;
  for (const auto& record : must(book.records()).records) truth[record.id] = wire::json_from_record(record);
  return truth;
}

TEST(Carve, FindsEveryRowOfAWholeFile) {
  Folder folder;
  const auto truth = longer_season(folder / "a.redd");
  const auto rows = detail::carved_rows(bytes_of(folder / "a.redd"), "");
  EXPECT_EQ(rows.size(), truth.size());
  EXPECT_EQ(rows.at(304).entry_key.value_or(""), "");
  EXPECT_EQ(rows.at(204).entry_key, "k");
  EXPECT_EQ(rows.rbegin()->second.supersedes, 10);
}

TEST(Carve, ReadsWhatIsOnlyInTheSideFile) {
  Folder folder;
  const auto truth = longer_season(folder / "a.redd");
  auto book = must(Logbook::open(folder / "a.redd"));
  must(book.append(entry(water_c(6)), noon));
  const std::string wal = bytes_of(folder / "a.redd-wal");
  ASSERT_GT(wal.size(), 4096u);
  // The main file as if nothing had been brought over yet: its last record's page is empty.
  EXPECT_TRUE(detail::carved_rows(std::string(4096, '\0'), wal).contains(static_cast<std::int64_t>(truth.size()) + 1));
  // Not committed: the last frame's mark of a commit is gone.
  std::string open = wal;
  for (std::size_t at = 32; at + 24 <= open.size(); at += 24 + 4096) open.replace(at + 4, 4, std::string(4, '\0'));
  EXPECT_TRUE(detail::carved_rows(std::string(4096, '\0'), open).empty());
}

TEST(Salvage, GivesBackOnlyWhatIsTrueHoweverTheFileIsDamaged) {
  Folder folder;
  const auto truth = longer_season(folder / "a.redd");
  const std::string whole = bytes_of(folder / "a.redd");
  std::mt19937 random(11);
  std::size_t found = 0, rounds = 0;
  for (int round = 0; round < 120; ++round) {
    std::string damaged = whole;
    if (round % 3 == 0) damaged.resize(random() % damaged.size());
    else if (round % 3 == 1) damaged.replace(random() % damaged.size() / 512 * 512, 512, std::string(512, static_cast<char>(random())));
    else for (int n = 0; n < 40; ++n) damaged[random() % damaged.size()] ^= static_cast<char>(1 << random() % 8);
    write_bytes(folder / "damaged.redd", damaged);
    std::filesystem::remove(folder / "new.redd");
    const auto done = salvaged(folder / "damaged.redd", {}, folder / "new.redd");
    EXPECT_EQ(bytes_of(folder / "damaged.redd"), damaged);
    if (!done) {
      EXPECT_EQ(done.problems().front().code, "nothing_found");
      continue;
    }
    ++rounds;
    found += done->from_file;
    const auto check = must(check_file(folder / "new.redd"));
    EXPECT_TRUE(check.whole()) << "round " << round;
    auto book = must(Logbook::open(folder / "new.redd", OpenMode::read_only));
    std::size_t notes = 0;
    for (const auto& record : must(book.records()).records) {
      if (record.entry.author == "salvage") ++notes;
      else EXPECT_EQ(wire::json_from_record(record), truth.at(record.id)) << "round " << round;
    }
    EXPECT_EQ(notes, done->lost.size());
    EXPECT_EQ(check.lost, done->lost) << "what was lost is told ever after";
    EXPECT_EQ(done->from_file + notes, static_cast<std::size_t>(done->last_id));
  }
  EXPECT_GT(rounds, 100u);
  EXPECT_GT(found, rounds * truth.size() / 2) << "most of a file with one wound can be read";
}

TEST(Salvage, WorksWithoutAnythingOfTheHeader) {
  Folder folder;
  const auto truth = longer_season(folder / "a.redd");
  std::string damaged = bytes_of(folder / "a.redd");
  damaged.replace(0, 4096, std::string(4096, '\xff'));
  write_bytes(folder / "damaged.redd", damaged);
  EXPECT_EQ(must(salvaged(folder / "damaged.redd", {}, folder / "new.redd")).from_file, truth.size());
}

TEST(Salvage, TakesWhatIsGoneFromACopyOfTheSameSeasonOnly) {
  Folder folder;
  std::filesystem::path copy;
  {
    auto book = small_season(folder / "a.redd");
    copy = must(book.keep_copy(Why::daily, noon, {})).file;
    must(book.append(entry(water_c(8)), noon));
    auto other = must(Logbook::create(folder / "other.redd"));
    records::SeasonSetup another = setup();
    another.name = "Another";
    must(other.append(entry(another), noon));
    for (int i = 0; i < 9; ++i) must(other.append(entry(water_c(3)), noon));
  }
  std::string damaged = bytes_of(folder / "a.redd");
  const std::size_t body = damaged.find("Class kit (invented)");
  ASSERT_NE(body, std::string::npos);
  damaged[body] = 'K';
  write_bytes(folder / "a.redd", damaged);
  const std::vector<std::filesystem::path> copies{folder / "other.redd", copy};
  const auto done = must(salvaged(folder / "a.redd", copies, folder / "new.redd"));
  EXPECT_EQ(done.from_file, 3u);
  EXPECT_EQ(done.from_copies, 1u);
  EXPECT_TRUE(done.lost.empty());
  EXPECT_TRUE(done.has_season);
  EXPECT_EQ(done.last_id, 4);
  std::filesystem::remove(folder / "new.redd");
  const auto alone = must(salvaged(folder / "a.redd", {}, folder / "new.redd"));
  EXPECT_EQ(alone.lost, std::vector<records::RecordId>{2});
  EXPECT_EQ(first_code(salvaged(folder / "a.redd", {}, folder / "new.redd")), "file_exists");
}

TEST(Salvage, TakesACopyFromBeforeAnEarlierLossForOneOfTheSameSeason) {
  Folder folder;
  std::filesystem::path copy;
  {
    auto book = small_season(folder / "a.redd");
    must(book.append(entry(water_c(8)), noon));
    copy = must(book.keep_copy(Why::daily, noon, {})).file;
  }
  const auto without = [&](const std::filesystem::path& file, const std::string& text) {
    std::string bytes = bytes_of(file);
    const std::size_t at = bytes.find(text);
    ASSERT_NE(at, std::string::npos);
    bytes[at] ^= 1;
    write_bytes(file, bytes);
  };
  without(folder / "a.redd", "Class kit (invented)");
  EXPECT_EQ(must(salvaged(folder / "a.redd", {}, folder / "b.redd")).lost, std::vector<records::RecordId>{2});
  without(folder / "b.redd", "temperature_c");
  const std::vector<std::filesystem::path> copies{copy};
  const auto done = must(salvaged(folder / "b.redd", copies, folder / "c.redd"));
  EXPECT_EQ(done.from_copies, 1u);
  EXPECT_EQ(done.last_id, 4);
  EXPECT_EQ(must(check_file(folder / "c.redd")).lost, std::vector<records::RecordId>{2}) << "the log went on with the note";
}

TEST(Salvage, FindsNothingWhereNothingIs) {
  Folder folder;
  for (const std::string& bytes : {std::string(), std::string(9000, '\0'), std::string(70000, '\x0d'), std::string("text")}) {
    write_bytes(folder / "x.redd", bytes);
    EXPECT_EQ(first_code(salvaged(folder / "x.redd", {}, folder / "new.redd")), "nothing_found");
    EXPECT_FALSE(std::filesystem::exists(folder / "new.redd"));
  }
}

}  // namespace
}  // namespace redd::logbook
