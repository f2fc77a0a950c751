#include "inference/growth_belief.h"

#include <gtest/gtest.h>

#include <cmath>

#include "inference/brood_days.h"
#include "support/fry_season.h"

namespace redd::inference {
namespace {

using redd::testing::fry_season;
using redd::testing::on_day;
using redd::testing::SmallSeason;
using redd::testing::weighed;

GrowthBelief growth_of(const SmallSeason& season, int day) {
  const auto view = season.look(day);
  auto growth = growth_belief(view.records, view.belief, view.zone, view.now);
  EXPECT_TRUE(growth.has_value());
  return *growth;
}

double width(const Estimate<Mass>& e) { return std::log(e.high.g() / e.low.g()); }

TEST(GrowthBelief, BeginsWithTheSpeciesFryAndGrowsFromThere) {
  const auto growth = growth_of(fry_season(), 60);
  EXPECT_NEAR(growth.now.mid.g(), 0.07, 0.005);
  EXPECT_TRUE(growth.begun_is_known);
  for (std::size_t i = 1; i < growth.days.size(); ++i) EXPECT_GE(growth.days[i].weight.mid, growth.days[i - 1].weight.mid);
  EXPECT_GT(width(growth.days.back().weight), width(growth.now)) << "doubt grows";
  EXPECT_EQ(growth.now.support, Support::assumed) << "nobody weighed any";
}

TEST(GrowthBelief, ASampleNarrowsAndMoves) {
  auto season = fry_season(90);
  const auto before = growth_of(season, 82);
  season.add(82, weighed(20, 20 * 0.2));
  const auto after = growth_of(season, 82);
  ASSERT_EQ(after.samples.size(), 1u);
  EXPECT_LT(width(after.now), 0.7 * width(before.now));
  EXPECT_NEAR(std::log(after.now.mid.g() / 0.2), 0.0, 0.15);
  EXPECT_LT(width(after.days.back().weight), width(before.days.back().weight));
}

TEST(GrowthBelief, MoreFishInASampleSayMore) {
  auto few = fry_season(90), many = fry_season(90);
  few.add(82, weighed(3, 3 * 0.2));
  many.add(82, weighed(60, 60 * 0.2));
  EXPECT_LT(width(growth_of(many, 82).now), width(growth_of(few, 82).now));
}

TEST(GrowthBelief, LengthsCountThroughTheConditionFactor) {
  auto season = fry_season(90);
  records::FishSample sample;
  sample.count = 4;
  sample.lengths_mm = {27, 28, 29, 30};
  season.add(80, sample);
  const auto growth = growth_of(season, 80);
  ASSERT_EQ(growth.samples.size(), 1u);
  EXPECT_TRUE(growth.samples[0].from_lengths);
  EXPECT_NEAR(growth.samples[0].mean.g(), 0.2, 0.03);
  EXPECT_FALSE(growth.samples[0].condition.has_value());
  sample.mass = Mass::from_g(0.8);
  auto both = fry_season(90);
  both.add(80, sample);
  const auto with_weight = growth_of(both, 80).samples[0];
  ASSERT_TRUE(with_weight.condition.has_value());
  EXPECT_NEAR(*with_weight.condition, 0.86, 0.03);
}

TEST(GrowthBelief, ASlipOfTheUnitIsSaidAndDoesNotRunAway) {
  auto season = fry_season(90);
  season.add(82, weighed(20, 20 * 5.0));  // 5 g a fish three weeks after swim-up
  const auto growth = growth_of(season, 82);
  EXPECT_GT(std::abs(growth.samples[0].surprise_sd), 3.0);
  bool said = false;
  for (const Sentence& note : growth.notes) said = said || note.pattern.find("weigh again") != std::string::npos;
  EXPECT_TRUE(said);
  EXPECT_LT(growth.now.mid.g(), 1.5);
}

TEST(GrowthBelief, ASampleOfAlevinsTeachesNoGrowth) {
  auto season = fry_season();
  season.add(40, weighed(20, 20 * 0.06));
  const auto growth = growth_of(season, 60);
  EXPECT_TRUE(growth.samples.empty());
  EXPECT_FALSE(growth.notes.empty());
}

TEST(GrowthBelief, SaysWhereAModelIsCarriedBeyondItsFish) {
  const auto growth = growth_of(fry_season(), 60);
  EXPECT_FALSE(growth.in_range[1]) << "Elliott's model is of fish over a gram, and of another species";
  EXPECT_GE(growth.notes.size(), 2u);
}

TEST(GrowthBelief, ConversionNeedsTwoSamplesAndFoodLoggedOnMostDays) {
  auto season = fry_season(100);
  season.add(80, weighed(20, 20 * 0.2));
  for (int day = 80; day < 100; ++day) season.add(day, redd::testing::grams(1.2), 9);
  season.add(100, weighed(20, 20 * 0.32));
  const auto growth = growth_of(season, 100);
  ASSERT_TRUE(growth.conversion.has_value());
  EXPECT_NEAR(*growth.conversion, 20 * 1.2 / (200 * 0.12), 0.01);
  auto sparse = fry_season(100);
  sparse.add(80, weighed(20, 20 * 0.2));
  sparse.add(90, redd::testing::grams(1.2));
  sparse.add(100, weighed(20, 20 * 0.32));
  EXPECT_FALSE(growth_of(sparse, 100).conversion.has_value());
}

TEST(GrowthBelief, IsNothingWithoutABroodAndAfterItsRelease) {
  SmallSeason empty;
  const auto view = empty.look(3);
  EXPECT_FALSE(growth_belief(view.records, view.belief, view.zone, view.now).has_value());
  auto gone = fry_season();
  gone.add(61, records::Release{200, "creek", {}, {}});
  const auto after = gone.look(62);
  EXPECT_FALSE(growth_belief(after.records, after.belief, after.zone, after.now).has_value());
}

// Rainbow trout of a published series at 8.5 C (data of Sadoul & Augustine, one of three control tanks): 0.13 g at first feeding, then 0.23 (day 14),
// 0.42 (28), 0.79 (42), 1.33 (56), 2.16 g (70). Two weighings must bring the last within nine chances in ten.
TEST(GrowthBelief, ForetellsAPublishedSeriesFromItsFirstWeighings) {
  SmallSeason season;
  auto& setup = std::get<records::SeasonSetup>(season.log()[0].entry.body);
  setup.species = "rainbow_trout";
  setup.target = Temperature::from_c(8.5);
  season.eggs(8, 400);
  for (int day = 8; day <= 90; day += 2) season.temperature(day, 8.5);
  season.add(60, records::Milestone{records::Milestone::Which::half_swim_up, true});
  season.add(60, records::Milestone{records::Milestone::Which::first_feed, true});
  season.add(74, weighed(30, 30 * 0.23));
  season.add(88, weighed(30, 30 * 0.42));
  const auto growth = growth_of(season, 88);
  for (const auto& [day, grams] : {std::pair(102, 0.79), std::pair(116, 1.33), std::pair(130, 2.16)}) {
    const auto weight = weight_on(growth, local_day({}, on_day(day))).weight;
    EXPECT_LE(weight.low.g(), grams) << day;
    EXPECT_GE(weight.high.g(), grams) << day;
  }
}

TEST(AliveNow, TakesTheNewestCountAndWhatDiedSince) {
  auto season = fry_season();
  season.add(61, records::Count{records::Count::What::dead_fry, 10});
  auto view = season.look(62);
  EXPECT_NEAR(alive_now(view.records, view.zone).count.mid, 190.0, 3.0);
  EXPECT_LT(alive_now(view.records, view.zone).count.low, 190.0);
  season.add(62, records::Count{records::Count::What::alive, 150});
  season.add(63, records::Count{records::Count::What::dead_fry, 5});
  season.add(63, records::Release{20, "creek", {}, {}});
  view = season.look(64);
  EXPECT_NEAR(alive_now(view.records, view.zone).count.mid, 125.0, 3.0);
}

TEST(SwumUpCount, MovesTheClockOfSwimUp) {
  SmallSeason season;
  season.temperature(7, 8);
  season.eggs(8, 400);
  const auto& before = season.look(50).belief.brood.forecast->stage(biology::Stage::swim_up);
  const double unseen = before.past_fraction.mid;
  season.add(50, records::Count{records::Count::What::swum_up, 120});
  const auto view = season.look(50);
  EXPECT_GT(view.belief.brood.forecast->stage(biology::Stage::swim_up).past_fraction.mid, std::min(unseen, 0.49));
  const auto count = swum_up_count(view.records, view.zone);
  ASSERT_TRUE(count.has_value());
  EXPECT_NEAR(count->fraction, 0.6, 1e-9);
  EXPECT_EQ(view.belief.brood.dead_count, 0) << "swum up is not dead";
  // The same seen again a week later does not make it later.
  season.add(57, records::Count{records::Count::What::swum_up, 190});
  EXPECT_EQ(season.look(57).belief.brood.seen.size(), view.belief.brood.seen.size());
}

}  // namespace
}  // namespace redd::inference
