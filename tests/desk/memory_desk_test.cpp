#include "desk/memory_desk.h"

#include <gtest/gtest.h>

#include "ledger/season_file.h"

namespace redd::desk {
namespace {

const Instant noon = *instant_from_rfc3339("2030-10-01T18:00:00Z");

records::SeasonSetup setup(const char* zone) {
  records::SeasonSetup season;
  season.name = "Invented";
  season.time_zone = zone;
  season.first_day = *date_from_iso("2030-09-02");
  season.volume = Volume::from_l(210);
  season.species = "brook_trout";
  season.target = Temperature::from_c(8);
  return season;
}
records::Entry entry(records::Body body) { return {noon, "Team Otter", {}, {}, std::move(body)}; }

class MemoryDeskTest : public ::testing::Test {
 protected:
  void begin() {
    desk.set_clock(noon);
    ASSERT_TRUE(desk.add(entry(setup("UTC-07:00")), noon).has_value());
  }
  MemoryDesk desk{{}, std::nullopt};
};

TEST_F(MemoryDeskTest, BeginsWithASetUpOnly) {
  EXPECT_EQ(desk.add(entry(records::Note{"x"}), noon).problems().front().code, "no_season");
  EXPECT_FALSE(desk.look().value()->season);
  begin();
  EXPECT_EQ(desk.look().value()->season->name, "Invented");
  EXPECT_EQ(offset_at(desk.look().value()->zone, noon), std::chrono::hours(-7));
}

TEST_F(MemoryDeskTest, TakesAZoneOnlyWhenItHasBeenTold) {
  const auto refused = desk.add(entry(setup("America/Denver")), noon);
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.problems().front().code, "unknown_time_zone");
  EXPECT_EQ(refused.problems().front().field, "/body/time_zone");
  EXPECT_TRUE(desk.added().empty());
  desk.know_zone({"America/Denver", {{Instant{}, std::chrono::hours(-6)}}});
  EXPECT_TRUE(desk.add(entry(setup("America/Denver")), noon).has_value());
}

TEST_F(MemoryDeskTest, RefusesASpeciesNobodyKnows) {
  auto season = setup("UTC");
  season.species = "unicorn_trout";
  EXPECT_EQ(desk.add(entry(season), noon).problems().front().field, "/body/species");
}

TEST_F(MemoryDeskTest, HandsOverWhatWasAddedOnce) {
  begin();
  ASSERT_TRUE(desk.add(entry(records::Note{"x"}), noon).has_value());
  const auto added = desk.added();
  ASSERT_EQ(added.size(), 2u);
  EXPECT_EQ(added[1].id, 2);
  EXPECT_TRUE(desk.added().empty());
}

TEST_F(MemoryDeskTest, KeepsAllOfABatchOrNone) {
  begin();
  (void)desk.added();
  const auto kept = desk.add_all({entry(records::Note{"x"}), entry(setup("UTC"))}, noon);
  ASSERT_FALSE(kept.has_value());
  EXPECT_TRUE(kept.problems().front().field.starts_with("/entries/1"));
  EXPECT_TRUE(desk.added().empty());
  EXPECT_EQ(desk.look().value()->records.size(), 1u);
}

TEST_F(MemoryDeskTest, TakesASavedSeasonInAndItsContinuation) {
  begin();
  ASSERT_TRUE(desk.add(entry(records::Note{"x"}), noon).has_value());
  const auto file = desk.look().value()->records;
  MemoryDesk other({}, std::nullopt);
  EXPECT_EQ(other.take_in(std::span(file).first(1)).value(), 1u);
  EXPECT_EQ(other.take_in(file).value(), 1u);
  EXPECT_EQ(other.take_in(file).value(), 0u);
  EXPECT_EQ(ledger::season_file(other.look().value()->records), ledger::season_file(file));
}

TEST_F(MemoryDeskTest, RestoresOnlyAnUnbrokenRow) {
  begin();
  auto kept = desk.added();
  MemoryDesk other({}, std::nullopt);
  EXPECT_EQ(other.restore(kept).value(), 1u);
  EXPECT_TRUE(other.added().empty());
  EXPECT_EQ(other.restore(kept).problems().front().code, "ids_not_in_order");
  EXPECT_EQ(other.look().value()->records.size(), 1u);
}

}  // namespace
}  // namespace redd::desk
