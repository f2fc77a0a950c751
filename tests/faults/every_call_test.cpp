// Each thing done to a season's files, with the n-th system call failing, for every n until it passes: a clear error, nothing half-written, and the next try works.

#include <gtest/gtest.h>

#include <functional>
#include <set>

#include "faults/failing_calls.h"
#include "logbook/check.h"
#include "logbook/detail/season_file.h"
#include "logbook/removal.h"
#include "logbook/restore.h"
#include "logbook/salvage.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

/// What is tried, as the code of its first problem; "" when it worked.
using Deed = std::function<std::string(const Folder&)>;

template <class T>
std::string code_of(const Result<T>& result) {
  return result ? "" : result.problems().front().code;
}

constexpr Fault faults[] = {Fault::disk_full, Fault::short_write, Fault::failed_sync, Fault::read_only};
const std::set<std::string> clear_codes{"disk_full", "disk_error", "read_only", "not_deleted", "damaged", "locked"};

std::string describe(Fault fault, int nth) {
  constexpr const char* names[] = {"full disk", "short write", "failed sync", "read-only disk"};
  return std::string(names[static_cast<int>(fault)]) + " at call " + std::to_string(nth);
}

/// No unfinished file is left, unless the disk also refuses to remove.
void expect_tidy(const Folder& folder, const std::string& where) {
  for (const auto& item : std::filesystem::recursive_directory_iterator(folder.path()))
    EXPECT_EQ(item.path().filename().string().find(".unfinished-"), std::string::npos) << where << ": " << item.path();
}

/// A small season put there without the time that making one takes.
void put_season(const std::filesystem::path& path) {
  static const std::string bytes = [] {
    Folder folder;
    { small_season(folder / "a.redd"); }
    return bytes_of(folder / "a.redd");
  }();
  write_bytes(path, bytes);
}

/// The same with one later entry, and a copy of it as it was before.
void put_season_and_copy(const Folder& folder) {
  static const std::string later = [] {
    Folder another;
    { must(small_season(another / "a.redd").append(entry(water_c(9)), noon)); }
    return bytes_of(another / "a.redd");
  }();
  put_season(folder / "copy.redd");
  write_bytes(folder / "a.redd", later);
}

/// Prepares a folder, does the deed under the fault, and looks; then does it again without.
void at_every_call(const std::function<void(const Folder&)>& prepare, const Deed& deed, const std::function<void(const Folder&, bool worked, const std::string&)>& look) {
  int failures = 0;
  FailingCalls::skip_syncs(true);
  for (const Fault fault : faults) {
    bool struck = true;
    int nth = 0;
    while (struck && nth < 400) {
      ++nth;
      Folder folder;
      prepare(folder);
      const std::string where = describe(fault, nth);
      std::string code;
      {
        const FailingCalls failing(fault, nth);
        code = deed(folder);
        struck = FailingCalls::struck();
      }
      if (!code.empty()) {
        ++failures;
        EXPECT_TRUE(clear_codes.contains(code)) << where << ": " << code;
      }
      EXPECT_TRUE(struck || code.empty()) << where << ": failed by itself with " << code;
      if (fault != Fault::read_only) expect_tidy(folder, where);
      look(folder, code.empty(), where);
      if (!code.empty()) {
        EXPECT_EQ(deed(folder), "") << where << ": the next try";
        look(folder, true, where + ", the next try");
      }
    }
    EXPECT_LT(nth, 400) << "never passed";
  }
  FailingCalls::skip_syncs(false);
  EXPECT_GT(failures, 5) << "hardly any fault showed: the test shows nothing";
}

std::string records_in(const std::filesystem::path& file, const std::string& where) {
  const auto check = check_file(file);
  EXPECT_TRUE(check && check->whole()) << where;
  auto book = Logbook::open(file, OpenMode::read_only);
  if (!book) return "can't be opened";
  return json(must(book.value().records()).records);
}

TEST(EveryCall, OfAnEntry) {
  std::string before;
  std::unique_ptr<Logbook> book;
  at_every_call(
      [&](const Folder& folder) {
        book.reset();
        put_season(folder / "a.redd");
        book = std::make_unique<Logbook>(must(Logbook::open(folder / "a.redd")));
        before = json(must(book->records()).records);
      },
      [&](const Folder&) { return code_of(book->append_all(std::vector<records::Entry>(40, entry(water_c(8))), noon)); },
      [&](const Folder& folder, bool worked, const std::string& where) {
        const auto now = must(book->records()).records;
        EXPECT_EQ(now.size(), worked ? 43u : 3u) << where;
        EXPECT_EQ(records_in(folder / "a.redd", where), json(now)) << where;
      });
  book.reset();
}

TEST(EveryCall, OfANewSeason) {
  at_every_call([](const Folder&) {}, [](const Folder& folder) { return code_of(Logbook::create(folder / "a.redd")); },
                [](const Folder& folder, bool worked, const std::string& where) {
                  EXPECT_EQ(std::filesystem::exists(folder / "a.redd"), worked) << where;
                  if (worked) EXPECT_EQ(records_in(folder / "a.redd", where), "");
                });
}

TEST(EveryCall, OfACopy) {
  std::string before;
  at_every_call(
      [&](const Folder& folder) {
        put_season(folder / "a.redd");
        auto book = must(Logbook::open(folder / "a.redd"));
        before = json(must(book.records()).records);
      },
      [&](const Folder& folder) {
        auto book = Logbook::open(folder / "a.redd");
        return book ? code_of(book.value().keep_copy(Why::daily, noon, {})) : book.problems().front().code;
      },
      [&](const Folder& folder, bool worked, const std::string& where) {
        EXPECT_EQ(records_in(folder / "a.redd", where), before) << where;
        expect_whole_copies(folder / "a.redd", where);
        if (worked) EXPECT_EQ(must(check_file(must(copies_of(folder / "a.redd")).front().file)).rows, 3);
      });
}

TEST(EveryCall, OfARestore) {
  std::string then, now, told;
  at_every_call(
      [&](const Folder& folder) {
        put_season_and_copy(folder);
        then = records_in(folder / "copy.redd", "before");
        now = records_in(folder / "a.redd", "before");
      },
      [&](const Folder& folder) {
        const auto done = restored(folder / "a.redd", folder / "copy.redd", noon, {});
        told = done ? "" : done.problems().front().sentence;
        return code_of(done);
      },
      [&](const Folder& folder, bool worked, const std::string& where) {
        const std::string is = records_in(folder / "a.redd", where);
        // A folder that could not be synced may have the new name already: then what was there is in a copy.
        EXPECT_TRUE(is == then || (!worked && is == now)) << where;
        EXPECT_EQ(!worked && is == then, told.find("was put back, but") != std::string::npos) << where << ": " << told;
        expect_whole_copies(folder / "a.redd", where);
        bool kept = is == now;
        for (const Copy& copy : must(copies_of(folder / "a.redd"))) kept |= records_in(copy.file, where) == now;
        EXPECT_TRUE(kept) << where << ": the later entry is nowhere";
      });
}

TEST(EveryCall, OfARestoreOverADamagedFile) {
  std::string then, bytes;
  at_every_call(
      [&](const Folder& folder) {
        put_season_and_copy(folder);
        then = records_in(folder / "copy.redd", "before");
        bytes = bytes_of(folder / "a.redd").substr(0, 6000);
        write_bytes(folder / "a.redd", bytes);
      },
      [&](const Folder& folder) { return code_of(restored(folder / "a.redd", folder / "copy.redd", noon, {})); },
      [&](const Folder& folder, bool worked, const std::string& where) {
        const bool is_old = bytes_of(folder / "a.redd") == bytes;
        if (worked || !is_old) EXPECT_EQ(records_in(folder / "a.redd", where), then) << where;
        bool kept = is_old;
        for (const Copy& copy : must(copies_of(folder / "a.redd"))) kept |= bytes_of(copy.file) == bytes;
        EXPECT_TRUE(kept) << where << ": the damaged bytes are nowhere";
      });
}

TEST(EveryCall, OfAnUpgrade) {
  const std::vector<Migration> steps{migration_0001_records, {2, "CREATE TABLE later AS SELECT * FROM records"}};
  at_every_call([&](const Folder& folder) { put_season(folder / "a.redd"); },
                [&](const Folder& folder) { return code_of(detail::open_season_file(folder / "a.redd", true, steps)); },
                [&](const Folder& folder, bool worked, const std::string& where) {
                  detail::Database file((folder / "a.redd").string(), SQLITE_OPEN_READWRITE);
                  const auto version = file.integer("PRAGMA user_version");
                  EXPECT_TRUE(version == 2 || (!worked && version == 1)) << where << ": " << version;
                  EXPECT_EQ(file.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'later'"), version - 1) << where << ": half a step";
                  EXPECT_EQ(file.integer("SELECT count(*) FROM records"), 3) << where;
                  EXPECT_EQ(file.text("PRAGMA integrity_check"), "ok") << where;
                  if (version == 2) EXPECT_FALSE(must(copies_of(folder / "a.redd")).empty()) << where << ": upgraded without a copy";
                  expect_whole_copies(folder / "a.redd", where);
                });
}

TEST(EveryCall, OfASalvage) {
  at_every_call(
      [&](const Folder& folder) {
        put_season(folder / "a.redd");
        write_bytes(folder / "a.redd", bytes_of(folder / "a.redd").substr(0, 9000));
      },
      [&](const Folder& folder) { return code_of(salvaged(folder / "a.redd", {}, folder / "new.redd")); },
      [&](const Folder& folder, bool worked, const std::string& where) {
        EXPECT_EQ(std::filesystem::exists(folder / "new.redd"), worked) << where;
        if (worked) records_in(folder / "new.redd", where);
      });
}

TEST(EveryCall, OfADeletion) {
  at_every_call(
      [&](const Folder& folder) {
        put_season(folder / "a.redd");
        std::filesystem::create_directory(folder / "copies");
        put_season(folder / "copies" / "a-copy-0001-2031-02-14T145003Z-daily.redd");
      },
      [&](const Folder& folder) {
        const auto gone = delete_season(folder / "a.redd");
        // The next try finds what is left, or nothing.
        return gone || gone.problems().front().code == "file_missing" ? "" : gone.problems().front().code;
      },
      [&](const Folder& folder, bool worked, const std::string& where) {
        if (worked) EXPECT_TRUE(files_of_season(folder / "a.redd").empty()) << where;
        else if (std::filesystem::exists(folder / "a.redd")) records_in(folder / "a.redd", where);
      });
}

}  // namespace
}  // namespace redd::logbook
