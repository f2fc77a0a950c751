// Files copied by hand while entries are written: whole, or found out.

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include <atomic>
#include <cstdlib>
#include <random>
#include <thread>

#include "logbook/check.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

/// Another process that appends without a pause and tells each id through the pipe.
class Writer {
 public:
  explicit Writer(const std::filesystem::path& path) {
    if (::pipe(ends_) != 0) throw std::runtime_error("no pipe");
    child_ = ::fork();
    if (child_ == 0) {
      auto book = must(Logbook::open(path));
      for (;;) {
        const auto kept = must(book.append(entry(water_c(8), noon), noon));
        if (::write(ends_[1], &kept.record.id, sizeof kept.record.id) < 0) ::_exit(1);
      }
    }
    ::close(ends_[1]);
    listening_ = std::jthread([this] {
      records::RecordId id = 0;
      while (::read(ends_[0], &id, sizeof id) == sizeof id) newest_ = id;
    });
  }
  ~Writer() {
    ::kill(child_, SIGKILL);
    ::waitpid(child_, nullptr, 0);
    listening_.join();
    ::close(ends_[0]);
  }
  records::RecordId acknowledged() const { return newest_; }

 private:
  int ends_[2];
  pid_t child_;
  std::atomic<records::RecordId> newest_{0};
  std::jthread listening_;
};

int rounds() {
  const char* wanted = std::getenv("REDD_HAND_COPIES");
  return wanted ? std::atoi(wanted) : 60;
}

TEST(HandCopy, OfTheOneFileIsWholeOrFoundOut) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  const Writer writer(folder / "a.redd");
  std::mt19937 random(5);
  int whole = 0, found_out = 0;
  for (int round = 0; round < rounds(); ++round) {
    std::this_thread::sleep_for(std::chrono::microseconds(500 + random() % 5000));
    const auto before = writer.acknowledged();
    // In small parts, as a copy over a network would be made.
    std::string bytes;
    std::ifstream in(folder / "a.redd", std::ios::binary);
    std::string part(4096, '\0');
    while (in.read(part.data(), 4096) || in.gcount() > 0) bytes.append(part, 0, static_cast<std::size_t>(in.gcount()));
    write_bytes(folder / "copy.redd", bytes);
    const auto check = check_file(folder / "copy.redd");
    if (!check || !check->whole()) {
      ++found_out;
      continue;
    }
    ++whole;
    EXPECT_EQ(check->rows, check->last_id);
    EXPECT_GE(check->last_id, before) << "it opens, so everything confirmed before the copying began must be in it";
  }
  std::printf("copied by hand: %d whole, %d torn and found out\n", whole, found_out);
  EXPECT_GT(whole, 0);
}

TEST(HandCopy, OfTheFolderOfCopiesIsAlwaysWhole) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  std::atomic<bool> stop = false;
  std::jthread keeper([&] {
    auto book = must(Logbook::open(folder / "a.redd"));
    for (int i = 0; !stop; ++i) {
      must(book.append(entry(water_c(8), noon), noon));
      must(book.keep_copy(Why::daily, noon + std::chrono::days(i), {}));
    }
  });
  int copied = 0;
  while (copied < rounds()) {
    for (const Copy& copy : must(copies_of(folder / "a.redd"))) {
      const std::string bytes = bytes_of(copy.file);
      if (bytes.empty()) continue;  // let go of meanwhile
      write_bytes(folder / "copy.redd", bytes);
      const auto check = check_file(folder / "copy.redd");
      EXPECT_TRUE(check && check->whole());
      ++copied;
    }
  }
  stop = true;
}

}  // namespace
}  // namespace redd::logbook
