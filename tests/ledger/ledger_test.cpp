#include "ledger/ledger.h"

#include <gtest/gtest.h>

namespace redd::ledger {
namespace {

const Instant noon = *instant_from_rfc3339("2030-10-01T18:00:00Z");

records::SeasonSetup setup() {
  records::SeasonSetup season;
  season.name = "Invented";
  season.time_zone = "UTC";
  season.first_day = *date_from_iso("2030-09-02");
  season.volume = Volume::from_l(210);
  season.species = "brook_trout";
  season.target = Temperature::from_c(8);
  return season;
}

records::Entry keyed(records::Body body, const char* key) { return {noon, "Team Otter", {}, key, std::move(body)}; }

Ledger begun() {
  Ledger ledger([](const records::SeasonSetup&) { return Result<ZoneOffsets>(ZoneOffsets{}); });
  ledger.take({1, noon, keyed(setup(), "begin")});
  return ledger;
}

TEST(Ledger, KnowsAnEntryByItsKey) {
  Ledger ledger = begun();
  const auto note = keyed(records::Note{"seen"}, "k");
  const auto first = ledger.next(note, noon, 2);
  ASSERT_TRUE(first.has_value());
  EXPECT_FALSE(first->already_known);
  EXPECT_EQ(ledger.records().size(), 1u) << "next() keeps nothing";
  ledger.take(first->record);
  const auto again = ledger.next(note, noon, 3);
  ASSERT_TRUE(again.has_value());
  EXPECT_TRUE(again->already_known);
  EXPECT_EQ(again->record.id, 2);
  EXPECT_EQ(ledger.next(keyed(records::Note{"other"}, "k"), noon, 3).problems().front().code, "entry_key_reused");
}

TEST(Ledger, GoesBackToAMarkAsIfNothingHadCome) {
  Ledger ledger = begun();
  const auto mark = ledger.mark();
  ledger.take({2, noon, keyed(records::Note{"seen"}, "k")});
  ledger.back_to(mark);
  EXPECT_EQ(ledger.records().size(), 1u);
  EXPECT_FALSE(ledger.next(keyed(records::Note{"other"}, "k"), noon, 2)->already_known);
}

TEST(Ledger, RefusesWhatBreaksTheRules) {
  Ledger ledger = begun();
  EXPECT_EQ(ledger.next(keyed(setup(), "again"), noon, 2).problems().front().code, "second_season");
  EXPECT_EQ(ledger.next({noon, "Team Otter", 9, {}, records::Note{"x"}}, noon, 2).has_value(), false);
}

}  // namespace
}  // namespace redd::ledger
