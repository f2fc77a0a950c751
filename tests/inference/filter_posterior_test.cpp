#include "inference/filter_posterior.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <thread>

#include "inference/filter_posterior_basis.h"
#include "inference/ripening_season.h"

namespace redd::inference {
namespace {

using records::Reading;
using namespace testing;

/// Few particles and short seasons: the tests ask for laws, not for digits.
SmcSettings small(std::uint64_t seed = 3) { return {.chains = 64, .chain_length = 6, .block = 32, .full_cost_data = 2, .seed = seed}; }
FilterSeason read_season(SeasonShape shape, std::uint64_t seed = 5) {
  const FilterSeason bare = bare_season(shape);
  return with_readings(bare, true_unknowns(SeasonModel(bare), seed), seed, false);
}

class Reversed final : public numerics::Workers {
 public:
  void run(std::size_t count, Item item, void* data) override {
    std::vector<std::thread> threads;
    for (std::size_t i = count; i-- > 0;) threads.emplace_back(item, data, i);
    for (std::thread& t : threads) t.join();
  }
};

void expect_sane(const FilterPosterior& posterior) {
  EXPECT_TRUE(posterior.complete());
  EXPECT_TRUE(std::isfinite(posterior.sampler().log_evidence()));
  EXPECT_GT(posterior.sampler().effective_share(), 0.1);
  for (const auto quantity : {tank::Quantity::total_ammonia, tank::Quantity::nitrite, tank::Quantity::nitrate, tank::Quantity::ammonia_oxidisers}) {
    const Estimate<double> e = posterior.estimate_of(quantity);
    EXPECT_TRUE(std::isfinite(e.low) && std::isfinite(e.high));
    EXPECT_GE(e.low, 0.0);
    EXPECT_LT(e.low, e.high);  // no collapse
  }
}
bool doubts_of(const FilterPosterior& posterior, FilterDoubt what) {
  return std::ranges::any_of(posterior.doubts(), [&](const DoubtedThing& d) { return d.what == what; });
}
SittingTest& test_of(FilterSeason& season, std::size_t sitting, Quantity quantity) {
  for (SittingTest& test : season.sittings[sitting].tests)
    if (test.test.quantity == quantity) return test;
  require(false, "test_of", "no such test");
  return season.sittings[0].tests[0];
}

TEST(FilterPosterior, WithoutReadingsIsThePriorAndSaysSo) {
  SeasonShape shape;
  shape.weeks = 0;
  const auto posterior = FilterPosterior::of(bare_season(shape), small());
  EXPECT_TRUE(posterior.complete());
  EXPECT_TRUE(doubts_of(posterior, FilterDoubt::no_readings));
  const auto z = posterior.sampler().unknown(0), w = posterior.sampler().weights();
  EXPECT_NEAR(numerics::weighted_mean(z, w), 0.0, 0.2);
  EXPECT_NEAR(numerics::weighted_sd(z, w), 1.0, 0.15);
}

TEST(FilterPosterior, LearnsFromReadings) {
  const FilterSeason season = read_season({.weeks = 7});
  const auto posterior = FilterPosterior::of(season, small());
  expect_sane(posterior);
  const auto w = posterior.sampler().weights();
  EXPECT_LT(numerics::weighted_sd(posterior.sampler().unknown(row_of(Unknown::ammonia_oxidisers_at_first)), w), 0.8);
  EXPECT_EQ(posterior.checks().size(), 7u * 5u);
}

/// Another road to the same answer: many draws of the prior, weighed by all readings at once. Good only for few readings.
TEST(FilterPosterior, AgreesWithPlainWeighingOfManyPriorDraws) {
  const FilterSeason season = read_season({.weeks = 2}, 9);
  const SeasonModel model(season);
  constexpr std::size_t block = 500, blocks = 30;
  const std::array rows{row_of(tank::Parameter::ammonia_oxidiser_growth), row_of(Unknown::ammonia_oxidisers_at_first), row_of(Unknown::first_alkalinity),
                        row_of(tank::Parameter::gas_transfer), row_of(Unknown::dose)};
  std::vector<std::vector<double>> values(rows.size());
  std::vector<double> log_weights;
  for (std::uint32_t b = 0; b < blocks; ++b) {
    numerics::ParticleTable z(model.dimension(), block);
    for (std::size_t i = 0; i < block; ++i) {
      numerics::RandomStream stream(31, 5, b, static_cast<std::uint32_t>(i));
      for (std::size_t row = 0; row < z.rows(); ++row) z(row, i) = stream.normal();
    }
    auto path = model.start(z);
    std::vector<double> sum(block, 0.0), one(block);
    for (std::size_t sitting = 0; sitting < 2; ++sitting) {
      model.score(path, z, sitting, one);
      for (std::size_t i = 0; i < block; ++i) sum[i] += one[i];
    }
    log_weights.insert(log_weights.end(), sum.begin(), sum.end());
    for (std::size_t k = 0; k < rows.size(); ++k) values[k].insert(values[k].end(), z.row(rows[k]).begin(), z.row(rows[k]).end());
  }
  const auto weights = numerics::normalised_weights(log_weights);
  ASSERT_GT(numerics::effective_sample_size(log_weights), 150.0);
  const double log_evidence = numerics::log_sum_exp(log_weights) - std::log(static_cast<double>(log_weights.size()));

  const auto posterior = FilterPosterior::of(season, {.chains = 128, .chain_length = 8, .seed = 4});
  const auto w = posterior.sampler().weights();
  EXPECT_NEAR(posterior.sampler().log_evidence(), log_evidence, 0.5);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const double sd = numerics::weighted_sd(values[k], weights);
    const auto z = posterior.sampler().unknown(rows[k]);
    // Both are samples of some two hundred: three standard errors of the difference.
    EXPECT_NEAR(numerics::weighted_mean(z, w), numerics::weighted_mean(values[k], weights), 0.3 * sd) << rows[k];
    EXPECT_NEAR(numerics::weighted_sd(z, w) / sd, 1.0, 0.25) << rows[k];
  }
}

TEST(FilterPosterior, TakesInALaterReadingAsIfItHadBeenThereFromTheStart) {
  const FilterSeason season = read_season({.weeks = 4});
  FilterSeason shorter = season;
  shorter.sittings.pop_back();
  const auto whole = FilterPosterior::of(season, small()), before = FilterPosterior::of(shorter, small()), later = before.updated(season);
  EXPECT_EQ(whole.sampler().unknown(2), later.sampler().unknown(2));
  EXPECT_EQ(whole.sampler().weights(), later.sampler().weights());
  EXPECT_EQ(whole.checks().size(), later.checks().size());
  // And a reading corrected at the last sitting starts from the sitting before.
  FilterSeason corrected = season;
  test_of(corrected, 3, Quantity::nitrite).readings[0].value = 1.0;
  EXPECT_EQ(whole.updated(corrected).sampler().weights(), FilterPosterior::of(corrected, small()).sampler().weights());
  // So does the day after the last sitting when it turns out colder: the last day's path leaned towards what was foreseen.
  FilterSeason colder = shorter;
  colder.forcing.days[static_cast<std::size_t>(shorter.sittings.back().at_day)].temperature_c -= 6.0;
  EXPECT_EQ(before.updated(colder).sampler().weights(), FilterPosterior::of(colder, small()).sampler().weights());
  // An early deed changed changes all.
  FilterSeason other = season;
  other.events.front().at_day += 0.5;
  EXPECT_EQ(whole.updated(other).sampler().weights(), FilterPosterior::of(other, small()).sampler().weights());
  EXPECT_NE(whole.sampler().weights(), whole.updated(other).sampler().weights());
}

TEST(FilterPosterior, DoubtsWhatARinseTook) {
  FilterSeason season = bare_season({.weeks = 3});
  season.events.push_back({12.0, FilterLost{0.33, rinse_log_odds_sd}});
  std::ranges::stable_sort(season.events, {}, &FilterEvent::at_day);
  const SeasonModel model(season);
  numerics::ParticleTable unknowns(model.dimension(), 3);
  const std::vector<double> hand{-1.645, 0.0, 1.645};
  std::ranges::copy(hand, unknowns.row(row_of(Unknown::filter_loss)).begin());
  SeasonModel::Path path = model.start(unknowns);
  model.go_to(path, unknowns, 12.0, false);
  const std::vector<double> before(path.ensemble.column(tank::Quantity::ammonia_oxidisers).begin(), path.ensemble.column(tank::Quantity::ammonia_oxidisers).end());
  model.go_to(path, unknowns, 12.0, true);
  const auto after = path.ensemble.column(tank::Quantity::ammonia_oxidisers);
  EXPECT_NEAR(1.0 - after[0] / before[0], 0.11, 0.005);
  EXPECT_NEAR(1.0 - after[1] / before[1], 0.33, 1e-9);
  EXPECT_NEAR(1.0 - after[2] / before[2], 0.67, 0.005);
}

TEST(SeasonModel, ToldInformationGrowsWithEverySittingAndKnowsNothingOfLaterStretches) {
  const FilterSeason season = read_season({.weeks = 7});
  const SeasonModel model(season);
  const numerics::ParticleTable centre = true_unknowns(model, 5);
  const auto early = model.information(centre, 1, 1.0), half = model.information(centre, 5, 0.5), late = model.information(centre, 5, 1.0);
  EXPECT_EQ(early.size(), model.active_dimension(1));
  EXPECT_EQ(late.size(), model.active_dimension(5));
  for (std::size_t i = 0; i < late.size(); ++i)
    for (std::size_t j = 0; j < late.size(); ++j) {
      EXPECT_DOUBLE_EQ(late(i, j), late(j, i));
      EXPECT_LE(late(i, j) * late(i, j), late(i, i) * late(j, j) * (1.0 + 1e-9));
      if (i == j) EXPECT_GE(late(i, i), half(i, i));
      if (i == j && i < early.size()) EXPECT_GE(half(i, i), early(i, i));
    }
  // The colour tests' own errors are told of by every reading: about 3 a reading times the square of what a standard deviation shifts.
  EXPECT_GT(late(model.bias_row("kit", season.sittings[0].tests[0].test.key), model.bias_row("kit", season.sittings[0].tests[0].test.key)), 0.05);
  EXPECT_LT(late(row_of(Unknown::seeding), row_of(Unknown::seeding)), 0.01);  // nothing was seeded; what is left is the integrator's tolerance
}

TEST(FilterPosterior, IsTheSameForAnyNumberOfThreads) {
  const FilterSeason season = read_season({.weeks = 3});
  Reversed threads;
  SmcSettings with_threads = small();
  with_threads.workers = &threads;
  const auto alone = FilterPosterior::of(season, small()), together = FilterPosterior::of(season, with_threads);
  for (std::size_t row = 0; row < season_unknown_count; ++row) EXPECT_EQ(alone.sampler().unknown(row), together.sampler().unknown(row));
  EXPECT_EQ(alone.sampler().weights(), together.sampler().weights());
}

TEST(FilterPosterior, StopsWhenToldAndSaysSo) {
  SmcSettings settings = small();
  int calls = 0;
  settings.keep_going = [&](double) { return ++calls < 5; };
  const auto posterior = FilterPosterior::of(read_season({.weeks = 6}), settings);
  EXPECT_FALSE(posterior.complete());
  EXPECT_TRUE(doubts_of(posterior, FilterDoubt::stopped_early));
}

TEST(Robust, OneWildReadingIsNamedAndDoesNotTakeOver) {
  FilterSeason season = read_season({.weeks = 6}, 6);
  const auto calm = FilterPosterior::of(season, small());
  test_of(season, 5, Quantity::nitrate).readings[0].value = test_of(season, 5, Quantity::nitrate).readings[0].value.value() > 15.0 ? 0.0 : 80.0;
  const auto startled = FilterPosterior::of(season, small());
  expect_sane(startled);
  EXPECT_TRUE(std::ranges::any_of(startled.checks(), [](const ReadingCheck& c) { return c.sitting == 5 && c.quantity == Quantity::nitrate && c.surprising; }));
  EXPECT_TRUE(doubts_of(startled, FilterDoubt::readings_disagree) || doubts_of(startled, FilterDoubt::surprising_reading));
  const Estimate<double> before = calm.estimate_of(tank::Quantity::nitrate), after = startled.estimate_of(tank::Quantity::nitrate);
  EXPECT_LT(after.low, before.high);
  EXPECT_GT(after.high, before.low);
}

TEST(Robust, AKitReadOnTheWrongBasisIsSuspected) {
  FilterSeason season = read_season({.weeks = 9}, 9);
  // The card prints nitrate as the ion; whoever entered the kit said nitrogen: every value counts 4.4-fold.
  for (FilterSitting& sitting : season.sittings)
    for (SittingTest& test : sitting.tests)
      if (test.test.quantity == Quantity::nitrate) test.test.unit = TestUnit::mg_n_per_l;
  const auto posterior = FilterPosterior::of(season, small());
  expect_sane(posterior);
  const auto kits = posterior.kit_checks();
  const auto nitrate = std::ranges::find(kits, Quantity::nitrate, &KitCheck::quantity);
  ASSERT_NE(nitrate, kits.end());
  EXPECT_GT(nitrate->error.mid, 1.2);
  // Asked outright, the readings choose the basis they were made on, and leave the right ones alone.
  const auto checks = basis_checks(season, small());
  ASSERT_EQ(checks.size(), 2u);
  for (const BasisCheck& check : checks) {
    EXPECT_EQ(check.likely_wrong, check.quantity == Quantity::nitrate) << check.log_evidence_gain;
    EXPECT_EQ(check.sentence.empty(), !check.likely_wrong);
  }
}

TEST(Robust, AGapOfThreeWeeksWidensAndStaysSane) {
  FilterSeason season = read_season({.weeks = 8});
  season.sittings.erase(season.sittings.begin() + 3, season.sittings.begin() + 6);
  expect_sane(FilterPosterior::of(season, small()));
}

TEST(Robust, ASeasonWithoutANitrateKitStaysSane) {
  SeasonShape shape{.weeks = 6};
  std::erase_if(shape.kit, [](const KitTest& t) { return t.quantity == Quantity::nitrate; });
  expect_sane(FilterPosterior::of(read_season(shape), small()));
}

TEST(Robust, StripsAloneStaySaneAndSayLess) {
  SeasonShape shape{.weeks = 6};
  shape.kit = {colours("no2", Quantity::nitrite, TestUnit::mg_no2_per_l, {0, 1, 5, 10}), colours("no3", Quantity::nitrate, TestUnit::mg_no3_per_l, {0, 25, 100, 250}),
               colours("ph", Quantity::ph, TestUnit::ph, {6, 7, 8, 9})};
  const auto strips = FilterPosterior::of(read_season(shape), small());
  expect_sane(strips);
  const auto kit = FilterPosterior::of(read_season({.weeks = 6}), small());
  const auto doubt_left = [](const FilterPosterior& p) {
    double sum = 0.0;
    for (std::size_t row = 0; row < season_unknown_count; ++row) sum += numerics::weighted_sd(p.sampler().unknown(row), p.sampler().weights());
    return sum;
  };
  EXPECT_GT(doubt_left(strips), doubt_left(kit));
}

TEST(Robust, ReadingsThatFitNoTestAndTestsOfOtherQuantitiesArePassedOver) {
  FilterSeason season = read_season({.weeks = 2});
  KitTest hardness = colours("gh", Quantity::hardness, TestUnit::german_degrees, {0, 5, 10});
  Reading ten;
  ten.value = 10.0;
  season.sittings[0].tests.push_back({hardness, "kit", {ten}, {99}});
  test_of(season, 1, Quantity::total_ammonia).readings[0].value = 0.33;  // no such step
  expect_sane(FilterPosterior::of(season, small()));
}

}  // namespace
}  // namespace redd::inference
