#include "logbook/removal.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "logbook/season.h"

namespace redd::logbook {
namespace {

using namespace redd::test;

TEST(DeleteSeason, LeavesNothingOfItAndEverythingElse) {
  Folder folder;
  {
    auto book = small_season(folder / "season.redd");
    must(book.keep_copy(Why::daily, noon, {}));
    must(book.keep_copy(Why::by_hand, noon, {}));
    auto other = small_season(folder / "demo.redd");
    must(other.keep_copy(Why::by_hand, noon, {}));
  }
  write_bytes(folder / "season.redd.shown", "2031-02-14\n");
  write_bytes(folder / "season.redd-wal", "");
  write_bytes(folder / ".season.redd.unfinished-1-1", "x");
  write_bytes(folder / "copies" / ".season.redd.unfinished-1-1", "x");
  write_bytes(folder / "season.redd.before-version-2", "x");
  write_bytes(folder / "season.csv", "mine");
  EXPECT_EQ(files_of_season(folder / "season.redd").back(), folder / "season.redd") << "the file goes last";
  EXPECT_GE(must(delete_season(folder / "season.redd")), 6u);
  EXPECT_TRUE(files_of_season(folder / "season.redd").empty());
  std::vector<std::string> left;
  for (const auto& item : std::filesystem::recursive_directory_iterator(folder.path()))
    if (item.is_regular_file()) left.push_back(item.path().filename().string());
  std::ranges::sort(left);
  EXPECT_EQ(left, (std::vector<std::string>{"demo-copy-0001-2030-10-01T180000Z-by-hand.redd", "demo.redd", "season.csv"}));
  must(delete_season(folder / "demo.redd"));
  EXPECT_FALSE(std::filesystem::exists(folder / "copies"));
  EXPECT_EQ(first_code(delete_season(folder / "demo.redd")), "file_missing");
}

TEST(DeleteSeason, IsRefusedWhileItIsOpen) {
  Folder folder;
  auto book = small_season(folder / "a.redd");
  EXPECT_EQ(first_code(delete_season(folder / "a.redd")), "season_in_use");
  EXPECT_EQ(must(book.append(entry(water_c(8)), noon)).record.id, 4);
}

TEST(DeleteSeason, CallsNothingGoneThatItCanNotSee) {
  Folder folder;
  { small_season(folder / "a.redd"); }
  write_bytes(folder / "copies", "in the way");
  EXPECT_EQ(first_code(delete_season(folder / "a.redd")), "read_only");
  EXPECT_TRUE(std::filesystem::exists(folder / "a.redd"));
}

TEST(DeleteSeason, TakesADamagedOneToo) {
  Folder folder;
  write_bytes(folder / "a.redd", std::string(5000, 'x'));
  EXPECT_EQ(must(delete_season(folder / "a.redd")), 1u);
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

}  // namespace
}  // namespace redd::logbook
