#include "logbook/copies.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <chrono>

#include "logbook/check.h"
#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

const ZoneOffsets denver{"America/Denver", {{Instant{}, std::chrono::hours(-7)}}};

/// Copies made at these moments, the last one first, as copies_of() gives them.
std::vector<Copy> made_at(const std::vector<Instant>& moments, Why why = Why::daily) {
  std::vector<Copy> copies;
  int number = 0;
  for (const Instant at : moments) copies.insert(copies.begin(), {"copy-" + std::to_string(number + 1), ++number, at, why});
  return copies;
}

/// Lives through the moments with a copy at each and the surplus gone after each.
std::vector<Copy> after_living(const std::vector<Instant>& moments) {
  std::vector<Copy> kept;
  int number = 0;
  for (const Instant at : moments) {
    if (!copy_is_due(kept, at, denver)) continue;
    ++number;
    kept.insert(kept.begin(), {"copy-" + std::to_string(number), number, at, Why::daily});
    for (const Copy& old : surplus_of(kept, denver)) std::erase_if(kept, [&](const Copy& copy) { return copy.number == old.number; });
  }
  return kept;
}

TEST(Surplus, KeepsDaysThenWeeksThenMonths) {
  std::vector<Instant> moments;
  for (int day = 0; day < 400; ++day) moments.push_back(at("2030-09-02T15:00:00Z") + std::chrono::days(day));
  const auto kept = after_living(moments);
  EXPECT_LE(kept.size(), 7u + 5u + 12u);
  EXPECT_EQ(kept.front().number, 400);
  for (std::size_t i = 0; i < 7; ++i) EXPECT_EQ(kept[i].number, 400 - static_cast<int>(i)) << "the last seven days are all there";
  EXPECT_LT(kept.back().made_at, moments.back() - std::chrono::days(300)) << "the oldest reaches far back";
  // No two weeks of the last five without a copy between.
  for (std::size_t i = 0; i + 1 < 10; ++i) EXPECT_LE(kept[i].made_at - kept[i + 1].made_at, std::chrono::days(14));
}

TEST(Surplus, IsNothingAfterAMonthAsleep) {
  std::vector<Instant> moments;
  for (int day = 0; day < 7; ++day) moments.push_back(at("2031-01-06T15:00:00Z") + std::chrono::days(day));
  const auto before = after_living(moments);
  moments.push_back(at("2031-02-20T15:00:00Z"));
  const auto after = after_living(moments);
  // The days without a copy used nothing up: of the seven days before the sleep six are still there.
  EXPECT_EQ(before.size(), 7u);
  EXPECT_EQ(after.size(), 7u);
  EXPECT_EQ(after.back().made_at, moments[1]);
}

TEST(Surplus, SurvivesAClockThatJumps) {
  // Ten good days, one day on which the clock runs a year ahead, ten good days more.
  std::vector<Instant> moments;
  for (int day = 0; day < 10; ++day) moments.push_back(at("2031-01-06T15:00:00Z") + std::chrono::days(day));
  moments.push_back(at("2032-01-16T15:00:00Z"));
  for (int day = 11; day < 21; ++day) moments.push_back(at("2031-01-06T15:00:00Z") + std::chrono::days(day));
  const auto kept = after_living(moments);
  EXPECT_EQ(kept.front().made_at, moments.back());
  for (std::size_t i = 0; i < 7; ++i) EXPECT_EQ(kept[i].made_at, moments[moments.size() - 1 - i]) << "the order is that of making, not that of the clock";
}

TEST(Surplus, LetsGoOfTheCopyJustMadeNever) {
  // Whatever the clock does, also going back every time.
  std::vector<Instant> moments;
  for (int step = 0; step < 60; ++step) moments.push_back(at("2031-06-01T15:00:00Z") - std::chrono::days(3 * step));
  std::vector<Instant> so_far;
  for (const Instant moment : moments) {
    so_far.push_back(moment);
    EXPECT_EQ(after_living(so_far).front().made_at, moment);
  }
}

TEST(Surplus, KeepsTheLastMadeBeforeSomethingGreat) {
  std::vector<Instant> moments(9, at("2031-01-06T15:00:00Z"));
  EXPECT_EQ(surplus_of(made_at(moments, Why::before_import), denver).size(), 4u);
  for (const Why why : {Why::damaged, Why::before_restore})
    EXPECT_TRUE(surplus_of(made_at(moments, why), denver).empty()) << "it may hold what is nowhere else";
}

TEST(CopyIsDue, OnceADayOfTheSchool) {
  EXPECT_TRUE(copy_is_due({}, noon, denver));
  const auto copies = made_at({at("2031-02-14T23:30:00Z")});  // 16:30 in Denver
  EXPECT_FALSE(copy_is_due(copies, at("2031-02-15T06:59:00Z"), denver)) << "still the same day there";
  EXPECT_TRUE(copy_is_due(copies, at("2031-02-15T07:00:00Z"), denver));
  EXPECT_TRUE(copy_is_due(copies, at("2031-02-10T20:00:00Z"), denver)) << "a clock set back must not stop the copies";
}

TEST(CopyIsDue, AcrossDaylightSavingAndAnotherZone) {
  // The clocks go forward on 9 March 2031 at 02:00: that day lasts 23 hours and is one day.
  const ZoneOffsets zone{"x", {{Instant{}, std::chrono::hours(-7)}, {at("2031-03-09T09:00:00Z"), std::chrono::hours(-6)}}};
  const auto copies = made_at({at("2031-03-09T07:10:00Z")});  // 00:10
  EXPECT_FALSE(copy_is_due(copies, at("2031-03-10T05:59:00Z"), zone));
  EXPECT_TRUE(copy_is_due(copies, at("2031-03-10T06:00:00Z"), zone));
  // A corrected zone makes one copy more at the most, never one less.
  const ZoneOffsets tokyo{"Asia/Tokyo", {{Instant{}, std::chrono::hours(9)}}};
  EXPECT_TRUE(copy_is_due(made_at({at("2031-03-09T14:00:00Z")}), at("2031-03-09T16:00:00Z"), tokyo));
}

TEST(KeepCopy, IsWholePrivateAndAFileOfItsOwn) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  const KeptCopy copy = must(book.keep_copy(Why::by_hand, noon, denver));
  EXPECT_TRUE(copy.whole);
  EXPECT_EQ(copy.file.filename(), "a-copy-0001-2030-10-01T180000Z-by-hand.redd");
  const auto check = must(check_file(copy.file));
  EXPECT_TRUE(check.whole());
  EXPECT_EQ(check.rows, 3);
  EXPECT_EQ(check.last_id, 3);
  EXPECT_EQ(check.season, "Invented season");
  struct stat as {};
  ASSERT_EQ(::stat(copy.file.c_str(), &as), 0);
  EXPECT_EQ(as.st_mode & 0777, 0600u);
  ASSERT_EQ(::stat(copies_folder(folder / "a.redd").c_str(), &as), 0);
  EXPECT_EQ(as.st_mode & 0777, 0700u);
  std::size_t files = 0;
  for (const auto& item : std::filesystem::directory_iterator(copies_folder(folder / "a.redd"))) files += item.exists() ? 1 : 0;
  EXPECT_EQ(files, 1u) << "nothing unfinished and no side file is left";
  const std::string before = json(must(book.records()).records);
  auto opened = must(Logbook::open(copy.file, OpenMode::read_only));
  EXPECT_EQ(json(must(opened.records()).records), before);
}

TEST(KeepCopy, CountsUpAndForgetsNothingThatIsStillNeeded) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  for (int day = 0; day < 12; ++day) must(book.keep_copy(Why::daily, noon + std::chrono::days(day), denver));
  const auto copies = must(copies_of(folder / "a.redd"));
  EXPECT_EQ(copies.front().number, 12);
  EXPECT_GE(copies.size(), 7u);
  EXPECT_LT(copies.size(), 12u);
  // Another season in the same folder has copies of its own.
  EXPECT_TRUE(must(copies_of(folder / "b.redd")).empty());
}

TEST(KeepCopy, LetsNothingGoWhileTheSeasonHasADamagedRecord) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  run_sql(folder / "a.redd", "DROP TRIGGER records_are_never_changed; UPDATE records SET author = 'x' WHERE id = 2");
  auto book = must(Logbook::open(folder / "a.redd"));
  for (int day = 0; day < 40; ++day) EXPECT_FALSE(must(book.keep_copy(Why::daily, noon + std::chrono::days(day), denver)).whole);
  EXPECT_EQ(must(copies_of(folder / "a.redd")).size(), 40u) << "an older copy may hold the record as it was";
}

TEST(CopiesOf, TakesOnlyItsOwnNames) {
  Folder folder;
  std::filesystem::create_directory(folder / "copies");
  for (const char* name : {"a-copy-0003-2031-02-14T145003Z-daily.redd", "a-copy-0001-2031-02-14T145003Z-before-import.redd", "a-copy-0002-2031-02-30T145003Z-daily.redd",
                           "a-copy-0004-2031-02-14T145003Z-weekly.redd", "a-copy--5-2031-02-14T145003Z-daily.redd", "a-copy-0007.redd", "b-copy-0008-2031-02-14T145003Z-daily.redd",
                           "a-copy-0009-2031-02-14T145003Z-daily.redd-wal", ".a.redd.unfinished-1-1", "notes.txt"})
    write_bytes(folder / "copies" / name, "x");
  const auto copies = must(copies_of(folder / "a.redd"));
  ASSERT_EQ(copies.size(), 2u);
  EXPECT_EQ(copies[0].number, 3);
  EXPECT_EQ(copies[0].made_at, at("2031-02-14T14:50:03Z"));
  EXPECT_EQ(copies[1].why, Why::before_import);
}

TEST(CopiesOf, AFolderThatCanNotBeReadIsNotAnEmptyOne) {
  Folder folder;
  EXPECT_TRUE(must(copies_of(folder / "a.redd")).empty());
  write_bytes(folder / "copies", "in the way");
  EXPECT_EQ(first_code(copies_of(folder / "a.redd")), "read_only");
}

TEST(NewestWhole, PassesOverTheBytesOfADamagedFile) {
  EXPECT_FALSE(newest_whole(made_at({noon}, Why::damaged)));
  auto copies = made_at({noon});
  copies.insert(copies.begin(), {"x", 2, noon, Why::damaged});
  EXPECT_EQ(newest_whole(copies)->number, 1);
}

}  // namespace
}  // namespace redd::logbook
