#include "logbook/check.h"

#include <gtest/gtest.h>

#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

TEST(CheckFile, CountsAWholeOneAndLeavesItAlone) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  const std::string before = bytes_of(folder / "a.redd");
  const auto found = must(check_file(folder / "a.redd"));
  EXPECT_TRUE(found.whole());
  EXPECT_EQ(found.rows, 3);
  EXPECT_EQ(found.last_id, 3);
  EXPECT_EQ(found.season, "Invented season");
  EXPECT_EQ(found.last_logged_at, noon);
  EXPECT_EQ(bytes_of(folder / "a.redd"), before);
}

TEST(CheckFile, NamesEachSortOfDamage) {
  const auto found = [](const char* sql) {
    Folder folder;
    { must(small_season(folder / "a.redd").append(entry(water_c(8)), noon)); }
    run_sql(folder / "a.redd", sql);
    return must(check_file(folder / "a.redd"));
  };
  const auto gap = found("DROP TRIGGER records_are_never_removed; DELETE FROM records WHERE id = 2");
  ASSERT_EQ(gap.unreadable.size(), 1u);
  EXPECT_EQ(gap.unreadable.front().problems.front().code, "record_missing");
  const auto changed = found("DROP TRIGGER records_are_never_changed; UPDATE records SET body = replace(body, '8', '9') WHERE id = 4");
  ASSERT_EQ(changed.unreadable.size(), 1u);
  EXPECT_EQ(changed.unreadable.front().id, 4);
  EXPECT_EQ(changed.unreadable.front().problems.front().code, "damaged_record");
  EXPECT_EQ(changed.readable, 3);
  EXPECT_TRUE(changed.read_to_end);
  const auto stray = found("PRAGMA foreign_keys = OFF; DROP TRIGGER records_are_never_changed; UPDATE records SET supersedes = 77 WHERE id = 4");
  EXPECT_FALSE(stray.damage.empty());
  // An index that lacks an entry: only the thorough check sees it.
  const auto index = found("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = 'records') WHERE type = 'index'");
  EXPECT_FALSE(index.whole());
}

TEST(CheckFile, CountsWhatCanBeReadAndNoMore) {
  Folder folder;
  {
    auto book = small_season(folder / "a.redd");
    must(book.append_all(std::vector<records::Entry>(3, entry(water_c(8))), noon));
  }
  run_sql(folder / "a.redd", "DROP TRIGGER records_are_never_removed; DELETE FROM records WHERE id = 4");
  EXPECT_EQ(must(check_file(folder / "a.redd")).readable, 5);
  run_sql(folder / "a.redd", "DELETE FROM records WHERE id BETWEEN 2 AND 5");
  const auto found = must(check_file(folder / "a.redd"));
  EXPECT_EQ(found.readable, 2);
  EXPECT_EQ(found.unreadable.size(), 4u);
  EXPECT_TRUE(found.read_to_end);
}

TEST(CheckFile, TellsThatDamageStoppedTheReading) {
  Folder folder;
  {
    auto book = small_season(folder / "a.redd");
    must(book.append_all(std::vector<records::Entry>(200, entry(water_c(8))), noon));
  }
  std::string bytes = bytes_of(folder / "a.redd");
  bytes.replace(bytes.size() / 2 / 4096 * 4096, 4096, std::string(4096, '\xff'));
  write_bytes(folder / "a.redd", bytes);
  const auto found = must(check_file(folder / "a.redd"));
  EXPECT_FALSE(found.whole());
  EXPECT_FALSE(found.read_to_end);
  EXPECT_GT(found.readable, 0) << "what came before the damage is read and counted";
  EXPECT_LT(found.readable, 203);
}

TEST(CheckFile, NeverCallsADamagedFileWhole) {
  Folder folder;
  {
    auto book = small_season(folder / "a.redd");
    must(book.append_all(std::vector<records::Entry>(200, entry(water_c(8))), noon));
  }
  const std::string whole = bytes_of(folder / "a.redd");
  for (std::size_t length = 0; length < whole.size(); length += 4096) {
    write_bytes(folder / "cut.redd", whole.substr(0, length));
    const auto found = check_file(folder / "cut.redd");
    EXPECT_FALSE(found && found->whole()) << "cut to " << length;
  }
}

TEST(CheckFile, RefusesWhatIsNoSeason) {
  Folder folder;
  write_bytes(folder / "x.redd", "date,ph\n");
  EXPECT_EQ(first_code(check_file(folder / "x.redd")), "not_a_season_file");
  EXPECT_EQ(first_code(check_file(folder / "y.redd")), "file_missing");
}

}  // namespace
}  // namespace redd::logbook
