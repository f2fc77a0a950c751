// A process killed in the middle of writing loses nothing that it had said was kept.

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include <cstdlib>
#include <map>
#include <random>
#include <thread>

#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

/// Appends for ever and tells each id through the pipe once append() has returned.
[[noreturn]] void write_until_killed(const std::filesystem::path& path, int pipe, int round) {
  auto book = must(Logbook::open(path));
  for (int i = 0;; ++i) {
    // Every third is a batch, so that the kill also falls into longer transactions.
    std::vector<records::Entry> entries(i % 3 ? 1 : 20, entry(water_c(5 + i % 10)));
    for (std::size_t k = 0; k < entries.size(); ++k)
      entries[k].entry_key = std::to_string(round) + "/" + std::to_string(i) + "/" + std::to_string(k);
    const auto kept = must(book.append_all(entries, noon));
    for (const Appended& a : kept)
      if (::write(pipe, &a.record.id, sizeof a.record.id) != sizeof a.record.id) ::_exit(1);
  }
}

std::vector<records::RecordId> acknowledged(int pipe) {
  std::vector<records::RecordId> ids;
  records::RecordId id = 0;
  while (::read(pipe, &id, sizeof id) == sizeof id) ids.push_back(id);
  return ids;
}

TEST(KilledWriter, LosesNothingItAcknowledged) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  const char* wanted = std::getenv("REDD_KILLS");
  const int rounds = wanted ? std::atoi(wanted) : 30;
  std::mt19937 random(20301001);
  records::RecordId newest = 3;
  for (int round = 0; round < rounds; ++round) {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      ::close(ends[0]);
      write_until_killed(folder / "a.redd", ends[1], round);
    }
    ::close(ends[1]);
    std::this_thread::sleep_for(std::chrono::microseconds(2000 + random() % 40000));
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the writer stopped by itself";
    const auto ids = acknowledged(ends[0]);
    ::close(ends[0]);

    auto book = must(Logbook::open(folder / "a.redd"));
    const auto contents = must(book.records());
    EXPECT_TRUE(contents.unreadable.empty());
    const auto last = static_cast<records::RecordId>(contents.records.size());
    EXPECT_EQ(contents.records.back().id, last);
    EXPECT_GE(last, ids.empty() ? 0 : ids.back()) << "an acknowledged record is gone";
    EXPECT_GE(last, newest);
    // A batch is there whole or not at all.
    std::map<std::string, int> batches;
    for (const auto& r : contents.records)
      if (r.entry.entry_key) ++batches[r.entry.entry_key->substr(0, r.entry.entry_key->rfind('/'))];
    for (const auto& [name, count] : batches) EXPECT_TRUE(count == 1 || count == 20) << name << " has " << count;
    newest = last;
  }
  EXPECT_GT(newest, 3 + rounds) << "the writers hardly wrote: the test shows nothing";
}

TEST(TwoProcesses, WriteTheSameFileWithoutLosingOrDoublingAnything) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  std::vector<pid_t> children;
  for (int p = 0; p < 2; ++p) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      auto book = must(Logbook::open(folder / "a.redd"));
      for (int i = 0; i < 100; ++i) {
        records::Entry e = entry(water_c(5 + p));
        e.entry_key = "shared/" + std::to_string(i);  // both send the same key: one of them wins
        const auto kept = book.append(e, noon);
        if (!kept && kept.problems().front().code != "entry_key_reused") ::_exit(2);
        e.entry_key = std::to_string(p) + "/" + std::to_string(i);
        if (!book.append(e, noon)) ::_exit(3);
      }
      ::_exit(0);
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(status, 0);
  }
  auto book = must(Logbook::open(folder / "a.redd"));
  EXPECT_EQ(must(book.records()).records.size(), 3u + 100 + 200);
}

}  // namespace
}  // namespace redd::logbook
