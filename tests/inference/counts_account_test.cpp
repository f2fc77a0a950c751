#include "inference/counts_account.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::inference {
namespace {

using redd::testing::SmallSeason;
using records::Count;
using What = records::Count::What;
using How = records::Count::How;

Date date_of(int day) { return *date_from_iso("2031-01-06") + std::chrono::days(day); }
AliveAccount account_of(const SmallSeason& season) { return alive_account(season.log(), {}); }
bool holds(const Estimate<double>& e, double value) { return e.low <= value && value <= e.high; }

TEST(AliveAccount, IsTheBookWhenNobodyCounted) {
  SmallSeason season;
  season.eggs(8);
  season.add(9, Count{What::dead_eggs, 3});
  season.add(20, Count{What::dead_alevins, 5});
  season.add(40, Count{What::dead_fry, 2});
  season.add(50, records::Release{90, "Brook"});
  const auto account = account_of(season);
  EXPECT_EQ(account.received, 200);
  EXPECT_EQ(account.dead_eggs, 3);
  EXPECT_EQ(account.dead_alevins, 5);
  EXPECT_EQ(account.dead_fry, 2);
  EXPECT_EQ(account.left_by_book(), 100);
  EXPECT_NEAR(account.alive.mid, 100, 1e-9);
  EXPECT_EQ(account.alive.support, Support::inferred);
  EXPECT_LT(account.alive.low, 96);
  EXPECT_GT(account.alive.high, 104);
  EXPECT_TRUE(account.contradictions.empty());
  EXPECT_NEAR(account.alive_on(date_of(8)), 200, 1e-9);
  EXPECT_NEAR(account.alive_on(date_of(25)), 192, 1e-9);
  EXPECT_EQ(account.alive_on(date_of(7)), 0);
}

TEST(AliveAccount, MayHaveLostMoreThanWereFound) {
  SmallSeason few, many;
  few.eggs(8), many.eggs(8);
  few.add(20, Count{What::dead_alevins, 2});
  many.add(20, Count{What::dead_alevins, 60});
  const auto doubt = [](const AliveAccount& a) { return a.alive.mid - a.alive.low; };
  EXPECT_GT(doubt(account_of(many)), doubt(account_of(few)) + 10);
}

TEST(AliveAccount, ACountNarrowsIt) {
  SmallSeason season;
  season.eggs(8);
  season.add(20, Count{What::dead_alevins, 20});
  const auto before = account_of(season);
  season.add(30, Count{What::alive, 177});
  const auto after = account_of(season);
  EXPECT_LT(after.alive.high - after.alive.low, before.alive.high - before.alive.low);
  EXPECT_GT(after.alive.mid, 176.9);
  EXPECT_LT(after.alive.mid, 180);
  EXPECT_EQ(after.counts.back().fit, CountTaken::Fit::fits);
  EXPECT_EQ(after.alive.support, Support::measured);
}

TEST(AliveAccount, TakesOfADayArePooledAndTheirDifferenceIsKept) {
  const auto with = [](std::vector<int> takes) {
    SmallSeason season;
    season.eggs(8);
    for (const int take : takes) season.add(30, Count{What::alive, take});
    return account_of(season).counts.back();
  };
  const auto one = with({180}), three = with({180, 181, 179}), apart = with({165, 195, 180});
  EXPECT_EQ(three.takes, 3);
  EXPECT_NEAR(three.animals.mid, 180, 0.1);
  EXPECT_LT(three.animals.high - three.animals.low, one.animals.high - one.animals.low);
  EXPECT_GT(apart.animals.high - apart.animals.low, 2 * (three.animals.high - three.animals.low));
}

TEST(AliveAccount, ASampleIsScaledUpAndWeighsLittle) {
  SmallSeason season;
  season.eggs(8);
  season.add(30, Count{What::alive, 45, How::sampled, 0.25});
  const auto account = account_of(season);
  EXPECT_NEAR(account.counts.back().animals.mid, 180, 1e-9);
  EXPECT_LT(account.counts.back().animals.low, 140);
  EXPECT_GT(account.alive.mid, 198) << "a quarter looked at can't move the hatchery's number far";
}

TEST(AliveAccount, SaysThatAnimalsAreMissing) {
  SmallSeason season;
  season.eggs(8);
  season.add(20, Count{What::dead_alevins, 4});
  const auto counted = season.add(30, Count{What::alive, 150});
  season.add(31, Count{What::dead_fry, 2});
  const auto account = account_of(season);
  ASSERT_EQ(account.missing.size(), 1u);
  EXPECT_EQ(account.missing[0].records, std::vector<records::RecordId>{counted});
  EXPECT_EQ(account.counts.back().fit, CountTaken::Fit::fewer);
  EXPECT_TRUE(holds(account.alive, 148));
  EXPECT_LT(account.alive.high, 160);
}

TEST(AliveAccount, SaysThatMoreWereCountedThanCanBeLeft) {
  SmallSeason season;
  season.eggs(8);
  season.add(20, Count{What::dead_alevins, 60});
  season.add(30, Count{What::alive, 195});
  const auto account = account_of(season);
  ASSERT_EQ(account.contradictions.size(), 1u);
  EXPECT_FALSE(account.contradictions[0].records.empty());
  EXPECT_TRUE(holds(account.alive, 140) && holds(account.alive, 195)) << "until it is cleared up either may be right";
}

TEST(AliveAccount, SaysThatMoreDiedThanCame) {
  SmallSeason season;
  season.eggs(8);
  const auto first = season.add(20, Count{What::dead_eggs, 150});
  season.add(22, Count{What::dead_alevins, 80});
  const auto account = account_of(season);
  ASSERT_EQ(account.contradictions.size(), 1u);
  EXPECT_NE(std::ranges::find(account.contradictions[0].records, first), account.contradictions[0].records.end());
  EXPECT_EQ(account.alive.low, 0);
  EXPECT_EQ(account.alive.mid, 0);
}

TEST(AliveAccount, HatchedMeansAllSoFar) {
  SmallSeason season;
  season.eggs(8);
  season.add(20, Count{What::hatched, 60, How::estimated});
  season.add(21, Count{What::hatched, 110, How::estimated});
  EXPECT_TRUE(account_of(season).contradictions.empty());
  season.add(22, Count{What::dead_eggs, 80});
  season.add(22, Count{What::hatched, 170});
  EXPECT_EQ(account_of(season).contradictions.size(), 1u);
}

TEST(AliveAccount, ACountOnTheDayOfAReleaseIsTakenBeforeOrAfterAsItFits) {
  for (const int counted : {196, 96}) {
    SmallSeason season;
    season.eggs(8);
    season.add(60, Count{What::alive, counted});
    season.add(60, records::Release{100, "Brook"});
    const auto account = account_of(season);
    EXPECT_TRUE(account.missing.empty()) << counted;
    EXPECT_TRUE(account.contradictions.empty()) << counted;
    EXPECT_NEAR(account.alive.mid, 98, 3) << counted;
  }
}

TEST(AliveAccount, AllReleasedLeavesNone) {
  SmallSeason season;
  season.eggs(8);
  season.add(30, Count{What::alive, 150});
  season.add(60, records::Release{150, "Brook"});
  EXPECT_LT(account_of(season).alive.mid, 5);
  EXPECT_EQ(season.look(61).belief.brood.animals, Animals::released) << "the count says that only these were left, whatever the book";
}

TEST(AliveAccount, IsEmptyWithoutReceipt) {
  const auto account = account_of(SmallSeason());
  EXPECT_EQ(account.received, 0);
  EXPECT_EQ(account.alive.high, 0);
}

}  // namespace
}  // namespace redd::inference
