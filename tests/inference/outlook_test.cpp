#include "inference/outlook.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "inference/outlook_measures.h"
#include "inference/ripening_season.h"

namespace redd::inference {
namespace {

using namespace testing;

/// Five weeks read, chill in the eighth, eggs in the tenth; worked out once for all tests.
struct Known {
  FilterSeason season;
  FilterPosterior posterior;
  OutlookQuestion question;
};
const Known& known() {
  static const Known instance = [] {
    SeasonShape shape{.weeks = 5, .warm_weeks = 8, .eggs_from_week = 10};
    const FilterSeason bare = bare_season(shape);
    FilterSeason season = with_readings(bare, true_unknowns(SeasonModel(bare), 8), 8, false);
    auto posterior = FilterPosterior::of(season, {.chains = 64, .chain_length = 6, .block = 32, .full_cost_data = 2, .seed = 2});
    OutlookQuestion question;
    question.now_day = 35;
    question.until_day = 84;
    question.draws = 128;
    question.every_days = 7;
    return Known{std::move(season), std::move(posterior), question};
  }();
  return instance;
}

TEST(Outlook, IsCompleteAndOrdered) {
  const auto& [season, posterior, question] = known();
  const Outlook o = outlook(posterior, season, question);
  ASSERT_TRUE(o.sound);
  EXPECT_EQ(o.bands.size(), 85u);
  EXPECT_EQ(o.ready_on.size(), 8u);
  for (const DayBands& day : o.bands)
    for (const Band& b : {day.total_ammonia_mg_n_per_l, day.nitrite_mg_n_per_l, day.nitrate_mg_n_per_l, day.ph, day.alkalinity_meq_per_l}) {
      EXPECT_GE(b.low_90, 0.0);
      EXPECT_TRUE(b.low_90 <= b.low_50 && b.low_50 <= b.mid && b.mid <= b.high_50 && b.high_50 <= b.high_90);
    }
  for (const ReadyOnDay& r : o.ready_on) {
    EXPECT_TRUE(r.probability >= 0.0 && r.probability <= 1.0);
    EXPECT_GT(r.standard_error, 0.0);  // a simulation never knows for certain
  }
  EXPECT_GT(o.capacity_now_mg_n_per_l_per_day.mid, o.capacity_at_target_mg_n_per_l_per_day.mid);  // cold is slower
  EXPECT_GT(o.coming_load_mg_n_per_l_per_day, 0.0);
  EXPECT_EQ(o.next_readings.size(), 5u);
  for (const PredictedReading& next : o.next_readings) {
    double sum = 0.0;
    for (const PossibleReading& p : next.possible) sum += p.probability;
    EXPECT_NEAR(sum, 1.0, 0.02) << next.test.test.key;
  }
}

TEST(Outlook, IsTheSameTwiceAndChangesOnlyWithItsSeed) {
  const auto& [season, posterior, question] = known();
  const Outlook one = outlook(posterior, season, question), two = outlook(posterior, season, question);
  EXPECT_EQ(one.ready_on.back().probability, two.ready_on.back().probability);
  EXPECT_EQ(one.bands.back().nitrite_mg_n_per_l.mid, two.bands.back().nitrite_mg_n_per_l.mid);
}

TEST(Outlook, RefusesAPlanWithAnotherPast) {
  const auto& [season, posterior, question] = known();
  FilterSeason other = season;
  other.events[1].at_day += 1.0;
  EXPECT_FALSE(outlook(posterior, other, question).sound);
  EXPECT_TRUE(ready_on_day(posterior, other, question, 70).empty());
  EXPECT_TRUE(measure_effects(posterior, other, question, 70).effects.empty());
}

TEST(Readiness, IsHarderWithABiggerDoseAStricterLimitAndInTheCold) {
  const auto& [season, posterior, question] = known();
  const auto chance = [&](const ReadyDefinition& ready) {
    OutlookQuestion q = question;
    q.ready = ready;
    const auto passed = ready_on_day(posterior, season, q, 49);
    return static_cast<double>(std::ranges::count(passed, true)) / static_cast<double>(passed.size());
  };
  const double usual = chance({.test_dose_mg_n_per_l = 0.5});
  EXPECT_GE(usual, chance({.test_dose_mg_n_per_l = 3.0}));
  EXPECT_GE(usual, chance({.test_dose_mg_n_per_l = 0.5, .nitrite_limit_mg_n_per_l = 0.01}));
  EXPECT_GE(usual, chance({.test_dose_mg_n_per_l = 0.5, .temperature_c = 5.0}));
  EXPECT_EQ(chance({.test_dose_mg_n_per_l = 0.0, .total_ammonia_limit_mg_n_per_l = 1e9, .nitrite_limit_mg_n_per_l = 1e9}), 1.0);
}

TEST(Measures, KeepToTheirLimits) {
  const auto& [season, posterior, question] = known();
  const MeasureLimits limits;
  for (const Measure& m : possible_measures(posterior, season, question, 77, limits)) {
    EXPECT_FALSE(m.what.empty());
    for (const tank::DayForcing& day : m.plan.forcing.days) EXPECT_LE(day.temperature_c, limits.warmest_c);
    if (m.kind == MeasureKind::ammonia_dose) EXPECT_LE(m.amount, limits.most_total_ammonia_mg_n_per_l);
    // The past is as it was (the last day leans towards what comes after), and eggs meet cold water all the same.
    EXPECT_EQ(fingerprint(m.plan, 3), fingerprint(season, 3));
    EXPECT_NEAR(m.plan.forcing.days[77].temperature_c, season.forcing.days[77].temperature_c, 1e-9);
  }
  MeasureLimits with_eggs;
  with_eggs.animals_present = true;
  for (const Measure& m : possible_measures(posterior, season, question, 77, with_eggs))
    EXPECT_TRUE(m.kind == MeasureKind::more_alkalinity || m.kind == MeasureKind::seeded_media);
}

TEST(Measures, WarmthAndFoodAreTriedTogetherToo) {
  const auto& [season, posterior, question] = known();
  // A tank that was never warmed and is not fed.
  FilterSeason cold = season;
  for (auto& day : cold.forcing.days)
    if (day.temperature_c > 12.0) day.temperature_c = 12.0;
  std::erase_if(cold.events, [&](const FilterEvent& e) { return e.at_day > question.now_day; });
  const MeasureLimits limits;
  const auto measures = possible_measures(posterior, cold, question, 77, limits);
  const auto both = std::ranges::find(measures, MeasureKind::warm_and_fed, &Measure::kind), fed = std::ranges::find(measures, MeasureKind::weekly_ammonia, &Measure::kind);
  ASSERT_NE(both, measures.end());
  ASSERT_NE(fed, measures.end());
  EXPECT_EQ(both->plan.forcing.days[40].temperature_c, limits.warmest_c);
  EXPECT_EQ(both->plan.events.size(), fed->plan.events.size());
  EXPECT_GT(both->plan.events.size(), cold.events.size());
  EXPECT_LE(both->amount, fed->amount) << "warm water bears less ammonia";
  EXPECT_EQ(parts_of(both->what).size(), 2u);
}

TEST(Measures, SayWhatTheyChangeAgainstThePlan) {
  const auto& [season, posterior, question] = known();
  const MeasureComparison c = measure_effects(posterior, season, question, 70);
  EXPECT_FALSE(c.effects.empty());
  for (std::size_t i = 0; i < c.effects.size(); ++i) {
    EXPECT_NEAR(c.effects[i].ready_probability - c.planned_probability, c.effects[i].change, 1e-12);
    if (i > 0) EXPECT_GE(c.effects[i - 1].change, c.effects[i].change);
    if (c.effects[i].measure.kind == MeasureKind::seeded_media) EXPECT_GE(c.effects[i].change, 0.0);
  }
}

}  // namespace
}  // namespace redd::inference
