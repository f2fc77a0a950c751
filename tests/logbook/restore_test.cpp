#include "logbook/restore.h"

#include <gtest/gtest.h>

#include "logbook/salvage.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

const ZoneOffsets utc{};

/// A season with a copy of three records, and two more records since.
struct Restoring : ::testing::Test {
  Folder folder;
  std::filesystem::path season = folder / "a.redd";
  Copy copy;
  std::string then, now;
  Restoring() {
    auto book = small_season(season);
    copy = must(book.keep_copy(Why::daily, noon, utc));
    then = json(must(book.records()).records);
    must(book.append(entry(water_c(8)), noon));
    must(book.append(entry(water_c(9)), noon));
    now = json(must(book.records()).records);
  }
  std::string in(const std::filesystem::path& file) {
    auto book = must(Logbook::open(file, OpenMode::read_only));
    return json(must(book.records()).records);
  }
};

TEST_F(Restoring, PutsTheCopyBackAndKeepsWhatWasThere) {
  const auto planned = must(planned_restore(season, copy.file));
  ASSERT_TRUE(planned.only_here);
  ASSERT_EQ(planned.only_here->size(), 2u);
  EXPECT_EQ(planned.only_here->front().id, 4);
  const auto done = must(restored(season, copy.file, noon, utc));
  EXPECT_EQ(done.records, 3);
  EXPECT_EQ(in(season), then);
  ASSERT_TRUE(done.kept);
  EXPECT_EQ(in(done.kept->file), now);
  EXPECT_TRUE(std::filesystem::exists(copy.file)) << "the copy itself stays";
  // The log goes on, and the way back is open.
  { must(must(Logbook::open(season)).append(entry(water_c(7)), noon)); }
  must(restored(season, done.kept->file, noon, utc));
  EXPECT_EQ(in(season), now);
}

TEST_F(Restoring, IsRefusedWhileAnybodyHasTheSeasonOpen) {
  auto book = must(Logbook::open(season));
  must(book.records());
  const auto refused = restored(season, copy.file, noon, utc);
  EXPECT_EQ(first_code(refused), "season_in_use");
  EXPECT_EQ(must(book.append(entry(water_c(7)), noon)).record.id, 6);
  EXPECT_EQ(must(copies_of(season)).size(), 1u);
}

TEST_F(Restoring, MakesAMissingSeason) {
  std::filesystem::remove(season);
  EXPECT_FALSE(must(planned_restore(season, copy.file)).present_exists);
  EXPECT_FALSE(must(restored(season, copy.file, noon, utc)).kept);
  EXPECT_EQ(in(season), then);
}

TEST_F(Restoring, SpoilsNothingByASideFileLeftBehind) {
  const std::string pages = bytes_of(season);
  for (const char* ending : {"-wal", "-journal"}) {
    std::filesystem::remove(season);
    const std::filesystem::path left = season.string() + ending;
    write_bytes(left, pages);
    EXPECT_EQ(first_code(restored(season, copy.file, noon, utc)), "side_file_left");
    EXPECT_EQ(first_code(Logbook::create(season)), "side_file_left");
    EXPECT_EQ(first_code(salvaged(copy.file, {}, season)), "side_file_left");
    EXPECT_FALSE(std::filesystem::exists(season));
    EXPECT_EQ(bytes_of(left), pages) << "it may hold what is nowhere else";
    write_bytes(left, "");
    must(restored(season, copy.file, noon, utc));
    EXPECT_EQ(in(season), then) << "an empty one harms nobody";
    std::filesystem::remove(left);
  }
}

TEST_F(Restoring, ReplacesADamagedSeasonAndKeepsItsBytes) {
  std::string bytes = bytes_of(season);
  for (const std::string& damaged : {bytes.substr(0, bytes.size() / 2), std::string(5000, 'x'), std::string()}) {
    write_bytes(season, damaged);
    write_bytes(season.string() + "-wal", "left over");
    EXPECT_FALSE(must(planned_restore(season, copy.file)).present.has_value() && must(planned_restore(season, copy.file)).present->whole());
    const auto done = must(restored(season, copy.file, noon, utc));
    EXPECT_EQ(in(season), then);
    ASSERT_TRUE(done.kept);
    EXPECT_EQ(done.kept->why, Why::damaged);
    EXPECT_FALSE(done.kept->whole);
    EXPECT_EQ(bytes_of(done.kept->file), damaged);
    EXPECT_EQ(bytes_of(done.kept->file.string() + "-wal"), "left over");
    EXPECT_EQ(newest_whole(must(copies_of(season)))->file, copy.file) << "bytes of a damaged file are no copy to restore";
  }
}

TEST_F(Restoring, SaysNothingOfWhatIsOnlyInASeasonThatCanNotBeReadThrough) {
  std::string bytes = bytes_of(season);
  const std::size_t at = bytes.find("temperature_c");
  ASSERT_NE(at, std::string::npos);
  bytes.replace(at / 4096 * 4096, 4096, std::string(4096, '\xff'));
  write_bytes(season, bytes);
  const auto planned = must(planned_restore(season, copy.file));
  EXPECT_FALSE(planned.only_here);
  ASSERT_TRUE(planned.present);
  EXPECT_FALSE(planned.present->whole());
}

TEST_F(Restoring, RefusesADamagedCopy) {
  std::string bytes = bytes_of(copy.file);
  for (std::size_t i = bytes.size() - 300; i < bytes.size(); ++i) bytes[i] ^= 0x55;
  write_bytes(copy.file, bytes);
  const auto refused = restored(season, copy.file, noon, utc);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.problems().front().code, "copy_damaged");
  EXPECT_EQ(in(season), now);
  EXPECT_EQ(first_code(restored(season, folder / "none.redd", noon, utc)), "file_missing");
}

TEST_F(Restoring, TellsARunningProgramThatItsFileIsGone) {
  // The damaged file of a program that still runs is replaced: what it is sent next must not go into the old file unsaid.
  auto book = must(Logbook::open(season));
  must(book.records());
  std::filesystem::rename(season, folder / "moved.redd");
  EXPECT_EQ(first_code(book.append(entry(water_c(7)), noon)), "file_moved");
  std::filesystem::rename(folder / "moved.redd", season);
  EXPECT_EQ(must(book.append(entry(water_c(7)), noon)).record.id, 6);
}

TEST_F(Restoring, KeepsTheRightsOfTheFile) {
  std::filesystem::permissions(season, std::filesystem::perms(0660));
  must(restored(season, copy.file, noon, utc));
  EXPECT_EQ(std::filesystem::status(season).permissions(), std::filesystem::perms(0660));
}

}  // namespace
}  // namespace redd::logbook
