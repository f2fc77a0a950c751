// Processes killed while they copy, restore and upgrade. REDD_KILLS says how often (each test; 30 when it is not set).

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include <cstdlib>
#include <random>
#include <set>
#include <thread>

#include "logbook/detail/season_file.h"
#include "logbook/restore.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

int rounds() {
  const char* wanted = std::getenv("REDD_KILLS");
  return wanted ? std::atoi(wanted) : 30;
}

/// Runs `work` in a process of its own and kills it after this time. In: work gets the writing end of a pipe.
/// Out: the numbers it wrote there.
template <class Work>
std::vector<int> killed_after(std::chrono::microseconds time, Work work) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    try {
      for (;;) work(ends[1]);
    } catch (const std::exception& error) {
      std::fprintf(stderr, "%s\n", error.what());
    }
    ::_exit(1);
  }
  ::close(ends[1]);
  std::this_thread::sleep_for(time);
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status)) << "the worker stopped by itself";
  std::vector<int> told;
  int number = 0;
  while (::read(ends[0], &number, sizeof number) == sizeof number) told.push_back(number);
  ::close(ends[0]);
  return told;
}

/// How long a deed takes here and now, so that the kills fall into it on a fast disk and on a slow one.
template <class Deed>
std::chrono::microseconds time_of(Deed deed) {
  const auto begun = std::chrono::steady_clock::now();
  deed();
  return std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begun);
}

/// A moment from now on, up to so many times as long.
std::chrono::microseconds moment_within(std::mt19937& random, std::chrono::microseconds time, double times) {
  return std::chrono::microseconds(std::uniform_int_distribution<long>(500, 1000 + static_cast<long>(times * static_cast<double>(time.count())))(random));
}

void tell(int pipe, int number) {
  if (::write(pipe, &number, sizeof number) != sizeof number) ::_exit(1);
}

/// The texts of the notes in a file.
std::set<std::string> notes_in(const std::filesystem::path& file) {
  auto book = must(Logbook::open(file, OpenMode::read_only));
  const auto contents = must(book.records());
  EXPECT_TRUE(contents.unreadable.empty()) << file;
  std::set<std::string> notes;
  for (const auto& record : contents.records)
    if (const auto* note = std::get_if<records::Note>(&record.entry.body)) notes.insert(note->text);
  return notes;
}

TEST(KilledKeeper, LosesNoEntryAndLeavesNoHalfCopy) {
  Folder folder;
  const auto season = folder / "a.redd";
  { small_season(season); }
  const auto copying = time_of([&] {
    auto book = must(Logbook::open(season));
    must(book.append(entry(records::Note{"first"}), noon));
    must(book.keep_copy(Why::by_hand, noon, {}));
  });
  std::mt19937 random(20301101);
  int newest = 0, next = 0;
  std::size_t copies = 0;
  for (int round = 0; round < rounds(); ++round) {
    const auto told = killed_after(moment_within(random, copying, 8), [&](int pipe) {
      auto book = must(Logbook::open(season));
      for (int i = next;; ++i) {
        must(book.append(entry(records::Note{std::to_string(i)}), noon));
        tell(pipe, i);
        must(book.keep_copy(i % 2 ? Why::daily : Why::by_hand, noon + std::chrono::hours(6 * i), {}));
      }
    });
    if (!told.empty()) newest = told.back();
    const auto check = must(check_file(season));
    EXPECT_TRUE(check.whole());
    const auto notes = notes_in(season);
    for (const int i : told) EXPECT_TRUE(notes.contains(std::to_string(i))) << "an acknowledged entry is gone";
    next = static_cast<int>(notes.size()) + 1000 * (round + 1);
    expect_whole_copies(season);
    copies = std::max(copies, must(copies_of(season)).size());
  }
  EXPECT_GT(newest, 0);
  EXPECT_GT(copies, 2u) << "the keepers hardly copied: the test shows nothing";
  // What the killed ones left goes with the next copy.
  must(must(Logbook::open(season)).keep_copy(Why::daily, noon, {}));
  for (const auto& item : std::filesystem::directory_iterator(copies_folder(season)))
    EXPECT_EQ(item.path().filename().string().find("unfinished"), std::string::npos) << item.path();
}

TEST(KilledRestore, LeavesOneOfBothAndEveryEntrySomewhere) {
  Folder folder;
  const auto season = folder / "a.redd";
  {
    auto book = small_season(season);
    must(book.keep_copy(Why::by_hand, noon, {}));
  }
  const auto first_copy = must(copies_of(season)).front().file;
  const auto own_copy = folder / "first.redd";
  std::filesystem::copy_file(first_copy, own_copy);
  const auto restoring = time_of([&] {
    { must(must(Logbook::open(season)).append(entry(records::Note{"first"}), noon)); }
    must(restored(season, own_copy, noon, {}));
  });
  std::mt19937 random(20301102);
  std::set<std::string> acknowledged;
  int restores = 0;
  for (int round = 0; round < rounds(); ++round) {
    int next = 1000 * round;
    for (const int told : killed_after(moment_within(random, restoring, 10), [&](int pipe) {
           {
             auto book = must(Logbook::open(season));
             must(book.append(entry(records::Note{std::to_string(next)}), noon));
             tell(pipe, next++);
           }
           must(restored(season, own_copy, noon, {}));
           tell(pipe, -1);
         })) {
      if (told < 0) ++restores;
      else acknowledged.insert(std::to_string(told));
    }
    EXPECT_TRUE(must(check_file(season)).whole());
    expect_whole_copies(season);
    // So that the copies do not grow without end: what is in them is looked at and put aside.
    std::set<std::string> found = notes_in(season);
    for (const Copy& copy : must(copies_of(season))) found.merge(notes_in(copy.file));
    for (const std::string& note : acknowledged) EXPECT_TRUE(found.contains(note)) << "entry " << note << " is neither in the season nor in a copy";
    acknowledged = notes_in(season);
    for (const Copy& copy : must(copies_of(season))) std::filesystem::remove(copy.file);
  }
  EXPECT_GT(restores, 0) << "hardly anything was restored: the test shows nothing";
}

TEST(KilledUpgrade, LeavesTheOldOrTheNewLayoutAndACopy) {
  Folder folder;
  const auto season = folder / "a.redd";
  {
    auto book = small_season(season);
    must(book.append_all(std::vector<records::Entry>(300, entry(water_c(8))), noon));
  }
  const std::string old_file = bytes_of(season);
  // An invented second layout whose step takes a while.
  const Migration wider{2, "CREATE TABLE wider AS SELECT * FROM records; INSERT INTO wider SELECT * FROM wider; INSERT INTO wider SELECT * FROM wider"};
  const std::vector<Migration> steps{migration_0001_records, wider};
  const auto upgrading = time_of([&] { must(detail::open_season_file(season, true, steps)); });
  std::mt19937 random(20301103);
  int upgraded = 0, not_yet = 0;
  for (int round = 0; round < rounds(); ++round) {
    for (const char* ending : {"-wal", "-shm", ""}) std::filesystem::remove(season.string() + ending);
    std::filesystem::remove_all(copies_folder(season));
    write_bytes(season, old_file);
    killed_after(moment_within(random, upgrading, 2), [&](int) {
      must(detail::open_season_file(season, true, steps));
      for (;;) ::pause();
    });
    {
      const auto file = must(detail::open_season_file(season, true, std::vector<Migration>{migration_0001_records, {2, "SELECT 1"}}));
      EXPECT_EQ(file->integer("SELECT count(*) FROM records"), 303);
      EXPECT_EQ(file->text("PRAGMA integrity_check"), "ok");
      const bool is_new = file->integer("SELECT count(*) FROM sqlite_schema WHERE name = 'wider'") == 1;
      ++(is_new ? upgraded : not_yet);
      if (is_new) EXPECT_EQ(file->integer("SELECT count(*) FROM wider"), 4 * 303) << "half a step";
    }
    ASSERT_FALSE(must(copies_of(season)).empty()) << "upgraded without a copy";
    expect_whole_copies(season);
    EXPECT_EQ(must(check_file(must(copies_of(season)).back().file)).rows, 303);
  }
  EXPECT_GT(upgraded, 0) << "no kill came late enough";
  EXPECT_GT(not_yet, 0) << "no kill came early enough";
}

}  // namespace
}  // namespace redd::logbook
