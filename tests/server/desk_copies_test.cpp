// Copies that the season's desk makes by itself: with the first entry of a day, before many, whatever the clock does.
#include <fstream>

#include "logbook/check.h"
#include "logbook/copies.h"
#include "server/fixture.h"
#include "wire/codec.h"

namespace redd::server {
namespace {

class DeskCopies : public AppTest {
 protected:
  std::vector<logbook::Copy> copies() const { return logbook::copies_of(folder / "season.redd").value(); }
  records::Entry note(const std::string& text) { return {now, "Team Otter", {}, {}, records::Note{text}}; }
  void log_note() { ASSERT_TRUE(desk->add(note("x"), now).has_value()); }
};

TEST_F(DeskCopies, OneADay) {
  set_up();
  ASSERT_EQ(copies().size(), 1u);
  log_note();
  log_note();
  EXPECT_EQ(copies().size(), 1u);
  now += std::chrono::days(1);
  log_note();
  ASSERT_EQ(copies().size(), 2u);
  const auto check = logbook::check_file(copies().front().file);
  ASSERT_TRUE(check.has_value());
  EXPECT_TRUE(check->whole());
  EXPECT_EQ(check->rows, 5) << "the entry that began the day is in it";
}

TEST_F(DeskCopies, BeforeManyEntriesAtOnce) {
  set_up();
  ASSERT_TRUE(desk->add_all(std::vector<records::Entry>(19, note("few")), now).has_value());
  EXPECT_EQ(copies().size(), 1u);
  ASSERT_TRUE(desk->add_all(std::vector<records::Entry>(20, note("many")), now).has_value());
  ASSERT_EQ(copies().size(), 1u) << "the newest of a day stands for the day";
  EXPECT_EQ(copies().front().why, logbook::Why::before_import);
  EXPECT_EQ(logbook::check_file(copies().front().file)->rows, 21);
}

TEST_F(DeskCopies, GoOnWhenTheClockJumpsOrTheMachineSleeps) {
  set_up();
  const Instant start = now;
  now = start + std::chrono::days(31);
  log_note();
  EXPECT_EQ(copies().size(), 2u);
  // Set right again: every entry is kept, and the days that follow have their copies.
  now = start + std::chrono::days(1);
  log_note();
  now = start + std::chrono::days(2);
  log_note();
  EXPECT_EQ(copies().size(), 4u);
  EXPECT_EQ(copies().front().made_at, now);
  const auto look = desk->look();
  ASSERT_TRUE(look.has_value());
  EXPECT_EQ((*look)->records.size(), 5u);
  EXPECT_EQ(doubts_of(**look, now).size(), 1u) << "that the newest entry lies ahead is told";
}

TEST_F(DeskCopies, AClockThatRanAheadHoldsNothingInTheFutureOnceItsEntriesAreUndone) {
  set_up();
  const Instant right = now;
  now += std::chrono::days(31);
  log_note();
  now = right + std::chrono::hours(1);
  auto look = desk->look();
  ASSERT_TRUE(look.has_value());
  EXPECT_EQ(*desk->moment(**look, std::nullopt), right + std::chrono::days(31)) << "nothing that was logged is hidden";
  const records::Entry undo{now, "keeper", {}, {}, records::Undo{3}};
  ASSERT_TRUE(desk->add(undo, *desk->moment(**look, std::nullopt)).has_value());
  look = desk->look();
  EXPECT_EQ(*desk->moment(**look, std::nullopt), now);
  EXPECT_TRUE(doubts_of(**look, now).empty());
  log_note();
  EXPECT_EQ((*desk->look())->records.back().logged_at, now);
}

TEST_F(DeskCopies, ATroubleIsToldAndGoesAway) {
  set_up();
  now += std::chrono::days(1);
  std::filesystem::remove_all(folder / "copies");
  std::ofstream(folder / "copies") << "in the way";
  log_note();
  auto look = desk->look();
  ASSERT_TRUE(look.has_value());
  EXPECT_EQ((*look)->records.size(), 3u);
  ASSERT_EQ(doubts_of(**look, now).size(), 1u);
  EXPECT_TRUE(doubts_of(**look, now).front().starts_with("No copy of the season could be made"));
  std::filesystem::remove(folder / "copies");
  log_note();
  look = desk->look();
  EXPECT_TRUE(doubts_of(**look, now).empty());
  EXPECT_EQ(copies().size(), 1u);
}

TEST_F(DeskCopies, OfADamagedSeasonAreToldOf) {
  set_up();
  desk.reset();
  std::string bytes;
  {
    std::ifstream in(folder / "season.redd", std::ios::binary);
    bytes.assign(std::istreambuf_iterator<char>(in), {});
  }
  const std::size_t at = bytes.find("Own card");
  ASSERT_NE(at, std::string::npos);
  bytes[at] = 'K';
  std::ofstream(folder / "season.redd", std::ios::binary | std::ios::trunc) << bytes;
  open();
  now += std::chrono::days(1);
  log_note();
  const auto look = desk->look();
  ASSERT_TRUE(look.has_value());
  ASSERT_EQ((*look)->of_copies.size(), 1u);
  EXPECT_NE((*look)->of_copies.front().find("records of the season are damaged"), std::string::npos);
}

TEST_F(DeskCopies, ASeasonThatHadNoneGetsOneWhenItIsOpened) {
  set_up();
  desk.reset();
  std::filesystem::remove_all(folder / "copies");
  open();
  EXPECT_EQ(copies().size(), 1u);
}

TEST_F(DeskCopies, NoneOfTheDemo) {
  const auto demo = SeasonDesk::open_demo(folder / "demo.redd", [this] { return now; });
  ASSERT_TRUE(demo.has_value());
  const auto look = (*demo)->look();
  ASSERT_TRUE(look.has_value());
  ASSERT_TRUE((*demo)->add({(*look)->records.back().logged_at, "Team Otter", {}, {}, records::Note{"x"}}, (*look)->records.back().logged_at).has_value());
  EXPECT_TRUE(logbook::copies_of(folder / "demo.redd").value().empty());
  EXPECT_EQ((*demo)->keep_copy(logbook::Why::by_hand).problems().front().code, "demo_season");
}

}  // namespace
}  // namespace redd::server
