// A file of every layout that Redd ever wrote opens, is brought up to date and is read to the last record.

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "logbook/check.h"
#include "logbook/detail/migrations.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

std::string sql_of(int layout) {
  char name[32];
  std::snprintf(name, sizeof name, "%04d.sql", layout);
  return bytes_of(std::filesystem::path(REDD_SOURCE_DIR) / "tests/logbook/schemas" / name);
}

TEST(OldLayout, OfEachNumberOpensAndIsBroughtUpToDate) {
  const int newest = detail::all_migrations().back().version;
  for (int layout = 1; layout <= newest; ++layout) {
    const std::string sql = sql_of(layout);
    ASSERT_FALSE(sql.empty()) << "keep a file of layout " << layout << " in tests/logbook/schemas before the next one comes";
    Folder folder;
    sqlite3* raw = nullptr;
    ASSERT_EQ(sqlite3_open((folder / "old.redd").c_str(), &raw), SQLITE_OK);
    ASSERT_EQ(sqlite3_exec(raw, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK) << sqlite3_errmsg(raw);
    sqlite3_close(raw);
    // Also one that nobody opened since: it can be looked over, and copied, as it is.
    EXPECT_TRUE(must(check_file(folder / "old.redd")).whole());
    {
      auto book = must(Logbook::open(folder / "old.redd"));
      const auto contents = must(book.records());
      EXPECT_TRUE(contents.unreadable.empty());
      EXPECT_EQ(contents.records.size(), 21u);
      EXPECT_EQ(std::get<records::SeasonSetup>(contents.records.front().entry.body).name, "Tarrowfell brook trout 2030-31 (invented)");
      must(book.append(entry(water_c(8)), noon));
    }
    const auto check = must(check_file(folder / "old.redd"));
    EXPECT_TRUE(check.whole());
    EXPECT_EQ(check.layout, newest);
    EXPECT_EQ(check.rows, 22);
    EXPECT_EQ(must(copies_of(folder / "old.redd")).size(), layout < newest ? 1u : 0u) << "a copy before an upgrade, and only then";
  }
}

TEST(OldLayout, TheNewestFileIsTheOneThatIsWrittenToday) {
  // So that a changed layout is not mistaken for an old one.
  Folder folder;
  { must(Logbook::create(folder / "new.redd")); }
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open((folder / "old.redd").c_str(), &raw), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(raw, sql_of(detail::all_migrations().back().version).c_str(), nullptr, nullptr, nullptr), SQLITE_OK);
  sqlite3_close(raw);
  const auto schema = [&](const char* name) {
    detail::Database file((folder / name).string(), SQLITE_OPEN_READONLY);
    return file.text("SELECT group_concat(sql, ';') FROM (SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name)");
  };
  EXPECT_EQ(schema("new.redd"), schema("old.redd"));
}

}  // namespace
}  // namespace redd::logbook
