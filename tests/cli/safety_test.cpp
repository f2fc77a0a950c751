// copies, restore, check, salvage, delete-season, undo --logged-since: the safety of a season at a terminal.
#include "cli/program.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

struct Safety : Program {
  Safety() {
    init();
    good({"log", "temperature", "8.4C"});
  }
  fs::path season() const { return folder / "data/season.redd"; }
  fs::path only_copy(const std::string& why = "daily") const {
    fs::path found;
    for (const auto& item : fs::directory_iterator(folder / "data/copies"))
      if (has(item.path().filename().string(), "-" + why + ".redd")) found = item.path();
    return found;
  }
};

TEST_F(Safety, TheFirstEntryOfADayMakesACopy) {
  EXPECT_TRUE(has(good({"copies"}).out, "of the day"));
  EXPECT_TRUE(fs::exists(only_copy()));
  EXPECT_TRUE(has(good({"copies", "--make"}).out, "Copy 2 is made"));
  const Ran listed = good({"copies"});
  EXPECT_TRUE(has(listed.out, "asked for"));
  EXPECT_TRUE(has(listed.out, "whole"));
  EXPECT_FALSE(has(listed.out, "of the day")) << "the newer one of the same day holds all of it";
  EXPECT_TRUE(has(good({"copies", "--language", "es"}).out, "pedida"));
}

TEST_F(Safety, ACopyThatCanNotBeMadeKeepsNoEntryOutAndIsTold) {
  fs::remove_all(folder / "data/copies");
  std::ofstream(folder / "data/copies") << "in the way";
  const Ran ran = redd({"log", "temperature", "8.1C"});
  EXPECT_EQ(ran.code, 0);
  EXPECT_TRUE(has(ran.out, "Kept as record 3")) << ran.out;
  EXPECT_TRUE(has(ran.err, "No copy of the season could be made")) << ran.err;
  EXPECT_TRUE(has(redd({"today", "--quick"}).err, "No copy of the season could be made"));
  EXPECT_TRUE(has(redd({"report"}).out, "No copy of the season could be made"));
  bad({"copies", "--make"}, "No copy of the season could be made");
  bad({"copies"}, "can't be read");
  bad({"restore", "1", "--yes"}, "can't be read");
  bad({"salvage", season().string(), file("new.redd")}, "can't be read");
  good({"salvage", season().string(), file("new.redd"), "--without-copies"});
  // As soon as it can be made it is, at the next look.
  fs::remove(folder / "data/copies");
  good({"list"});
  EXPECT_TRUE(has(good({"copies"}).out, "of the day"));
}

TEST_F(Safety, RestoreShowsAsksAndKeepsTheWayBack) {
  good({"log", "temperature", "9.3C"});
  bad({"restore", "1"}, "--yes");
  EXPECT_TRUE(has(good({"list"}).out, "9.3"));
  const Ran shown = redd({"restore", "1"});
  EXPECT_TRUE(has(shown.out, "not in the copy")) << shown.out;
  EXPECT_TRUE(has(shown.out, "9.3")) << "what would go is named: " << shown.out;
  EXPECT_TRUE(has(good({"restore", "1", "--yes"}).out, "redd restore 2"));
  EXPECT_FALSE(has(good({"list"}).out, "9.3"));
  good({"restore", "2", "--yes"});
  EXPECT_TRUE(has(good({"list"}).out, "9.3"));
  bad({"restore", "77", "--yes"}, "no copy 77");
  bad({"restore", "2001-01-01", "--yes"}, "2001-01-01");
  bad({"restore", file("none.redd"), "--yes"}, "none.redd");
  good({"restore", day(1), "--yes"});
}

TEST_F(Safety, RestoreWaitsUntilTheSeasonIsClosed) {
  const pid_t server = start({"serve", "--no-browser", "--port", "17399"});
  for (int i = 0; i < 500 && !has(text_of(folder / "out.txt"), "ready"); ++i) std::this_thread::sleep_for(std::chrono::milliseconds(20));
  const auto ask = [&](const std::vector<std::string>& words) { return finished(start(words, "second-"), "second-"); };
  const Ran refused = ask({"restore", "1", "--yes"});
  EXPECT_EQ(refused.code, 1);
  EXPECT_TRUE(has(refused.err, "open in another program")) << refused.err;
  EXPECT_EQ(ask({"delete-season", "--name", "Test season"}).code, 1);
  kill(server, SIGINT);
  finished(server);
  good({"restore", "1", "--yes"});
}

TEST_F(Safety, CheckAndSalvageOfADamagedFile) {
  EXPECT_TRUE(has(good({"check"}).out, "is whole: 2 records"));
  std::string bytes = text_of(season());
  const std::size_t at = bytes.find("temperature_c\":8.4");
  ASSERT_NE(at, std::string::npos);
  bytes[at + 16] = '9';
  std::ofstream(season(), std::ios::binary | std::ios::trunc) << bytes;
  bad({"check"}, "damaged");
  bad({"check"}, "Record 2");
  bad({"check"}, "1 record of it can be read");
  bad({"copies", "--make"}, "so they are in the copy");
  const Ran alone = redd({"salvage", season().string(), file("alone.redd"), "--without-copies"});
  EXPECT_TRUE(has(alone.out, "holds 1 record")) << alone.out;
  // The daily copy was made with the first entry, so record 2 is in no copy: it is behind the last one found.
  EXPECT_TRUE(has(alone.out, "can't be told")) << alone.out;
  EXPECT_TRUE(has(good({"check", file("alone.redd")}).out, "is whole"));
  bad({"check", file("none.redd")}, "none.redd");
}

TEST_F(Safety, CheckTellsWhatASalvagedSeasonLost) {
  good({"log", "note", "kept"});
  std::string bytes = text_of(season());
  const std::size_t at = bytes.find("temperature_c\":8.4");
  ASSERT_NE(at, std::string::npos);
  bytes[at + 16] = '9';
  std::ofstream(season(), std::ios::binary | std::ios::trunc) << bytes;
  EXPECT_EQ(redd({"salvage", season().string(), file("new.redd"), "--without-copies"}).code, 1);
  const Ran checked = good({"check", file("new.redd")});
  EXPECT_TRUE(has(checked.out, "1 record was lost with an earlier damaged file")) << checked.out;
  EXPECT_FALSE(has(checked.out, "none missing")) << checked.out;
  const Ran shown = redd({"restore", file("new.redd")});
  EXPECT_TRUE(has(shown.out, "a note stands in the place")) << shown.out;
}

TEST_F(Safety, RestoreNeverCallsTheCopyCompleteWhenTheSeasonCanNotBeRead) {
  std::string bytes = text_of(season());
  const std::size_t at = bytes.find("temperature_c\":8.4");
  ASSERT_NE(at, std::string::npos);
  bytes.replace(at / 4096 * 4096, 4096, std::string(4096, '\xff'));
  std::ofstream(season(), std::ios::binary | std::ios::trunc) << bytes;
  const Ran shown = redd({"restore", "1"});
  EXPECT_EQ(shown.code, 1);
  EXPECT_TRUE(has(shown.out, "can't be listed")) << shown.out;
  EXPECT_FALSE(has(shown.out, "holds every record")) << shown.out;
  bad({"check"}, "could not be read to its end");
}

TEST_F(Safety, CopiesCountOnlyWhatIsKnown) {
  good({"copies", "--make"});
  std::string bytes = text_of(only_copy("by-hand"));
  bytes.resize(bytes.size() - 4096);
  std::ofstream(only_copy("by-hand"), std::ios::binary | std::ios::trunc) << bytes;
  const Ran listed = redd({"copies"});
  EXPECT_EQ(listed.code, 1);
  EXPECT_TRUE(has(listed.out, "–")) << listed.out;
  EXPECT_TRUE(has(listed.out, "DAMAGED")) << listed.out;
}

TEST_F(Safety, DeleteSeasonAsksForItsNameAndLeavesNothing) {
  good({"today", "--quick"});
  bad({"delete-season"}, "Test season");
  bad({"delete-season", "--name", "test"}, "Nothing was deleted");
  EXPECT_TRUE(fs::exists(season()));
  const Ran gone = good({"delete-season", "--name", "Test season"});
  EXPECT_TRUE(has(gone.out, "Not reached from here"));
  EXPECT_TRUE(fs::is_empty(folder / "data")) << "something of it is left";
  bad({"delete-season", "--name", "Test season"}, "nothing to delete");
}

TEST_F(Safety, ANumberThatTwoCopiesHaveIsNotGuessed) {
  fs::copy_file(only_copy(), folder / "data/copies/season-copy-0001-2031-02-14T145003Z-by-hand.redd");
  bad({"restore", "1", "--yes"}, "2031-02-14T145003Z");
}

TEST_F(Safety, RestoreMakesASeasonInAFolderThatIsNotThereYet) {
  const std::string copy = only_copy().string();
  good({"restore", copy, "--yes", "--data", file("new/place")});
  EXPECT_TRUE(has(good({"check", "--data", file("new/place")}).out, "is whole"));
}

TEST_F(Safety, UndoSinceIsNeverWrittenBeforeWhatItTakesBack) {
  const std::string moment = rfc3339_from_instant(server::system_now());
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  good({"log", "temperature", "9.3C"});
  good({"undo", "--logged-since", moment, "--as-of", moment, "--yes"});
  const auto rows = wire::parsed(good({"list", "--all", "--json"}).out);
  ASSERT_TRUE(rows.has_value());
  std::string logged, undone;
  for (const auto& row : (*rows)["records"]) {
    if (row["id"] == 3) logged = row["logged_at"];
    if (row["id"] == 4) undone = row["logged_at"];
  }
  ASSERT_NE(logged, "");
  EXPECT_GE(undone, logged);
}

TEST_F(Safety, UndoSinceLeavesASeasonWhoseFirstSetUpIsNotRecordOne) {
  good({"correct", "1", "--volume", "200L"});
  std::string bytes = text_of(season());
  const std::size_t at = bytes.find("\"volume_l\":210");
  ASSERT_NE(at, std::string::npos);
  bytes[at + 11] = '9';
  std::ofstream(season(), std::ios::binary | std::ios::trunc) << bytes;
  EXPECT_EQ(redd({"salvage", season().string(), file("new.redd"), "--without-copies"}).code, 1);
  good({"restore", file("new.redd"), "--yes"});
  good({"undo", "--logged-since", day(-1), "--yes"});
  EXPECT_TRUE(has(good({"list"}).out, "200 L")) << "the set-up that is left still counts";
}

TEST_F(Safety, RestoreNamesRecordsAsTheLogDoes) {
  use_kit();
  good({"copies", "--make"});
  good({"log", "reading", "nitrite", "--step", "0.25"});
  const auto rows = wire::parsed(good({"list", "--json"}).out);
  ASSERT_TRUE(rows.has_value());
  const std::string text = (*rows)["records"][0]["text"];
  const Ran shown = redd({"restore", "2"});
  EXPECT_TRUE(has(shown.out, text)) << text << " is not in " << shown.out << ": its kit is in the copy";
}

TEST_F(Safety, UndoSinceOfTheDemoMakesNoCopy) {
  const Ran ran = redd({"--demo", "undo", "--logged-since", "2031-05-01", "--yes"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_FALSE(has(ran.err, "no copies")) << ran.err;
  EXPECT_TRUE(fs::exists(folder / "data/demo.redd"));
  for (const auto& item : fs::directory_iterator(folder / "data/copies"))
    EXPECT_FALSE(item.path().filename().string().starts_with("demo")) << item.path();
}

TEST_F(Safety, UndoSinceTakesBackAndBringsBack) {
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));
  const std::string moment = rfc3339_from_instant(server::system_now());
  good({"log", "temperature", "9.3C"});
  good({"log", "note", "to go"});
  good({"undo", "4"});
  good({"correct", "2", "--temperature", "7.7C"});
  bad({"undo", "--logged-since", moment}, "--yes");
  const Ran done = good({"undo", "--logged-since", moment, "--yes"});
  EXPECT_TRUE(has(done.out, "4 records were logged")) << done.out;
  const auto rows = wire::parsed(good({"list", "--all", "--json"}).out);
  ASSERT_TRUE(rows.has_value());
  for (const auto& row : (*rows)["records"])
    if (const int id = row["id"]; id <= 6) EXPECT_EQ(row["status"] == "current", id <= 2) << row.dump();
  EXPECT_TRUE(has(good({"copies"}).out, "before an undo of many"));
  bad({"undo", "2", "--logged-since", moment}, "--logged-since", 2);
  EXPECT_TRUE(has(good({"undo", "--logged-since", day(1)}).out, "Nothing was logged"));
}

}  // namespace
}  // namespace redd::cli
