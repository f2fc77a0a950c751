#include "inference/observation_model.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "inference/card_reading.h"
#include "inference/ripening_season.h"
#include "numerics/normal.h"

namespace redd::inference {
namespace {

using records::Reading;
using Form = records::Reading::Form;
using namespace testing;

KitTest ammonia() { return colours("ammonia", Quantity::total_ammonia, TestUnit::mg_n_per_l, {0, 0.2, 0.4, 0.8, 1.6, 3.2}); }
Reading reading(Form form, std::optional<double> value, std::optional<double> upper = {}) {
  Reading r;
  r.form = form;
  r.value = value;
  r.upper_value = upper;
  return r;
}
double place_of(const KitTest& test, double canonical) {
  double place = canonical;
  places_on_card(test, std::span(&place, 1), std::span(&place, 1));
  return place;
}
double log_likelihood(const SittingTest& sitting, double canonical) {
  const double place = place_of(sitting.test, canonical);
  double result = 0.0;
  add_log_likelihood(sitting, std::span(&place, 1), std::span(&result, 1));
  return result;
}

TEST(LogLikelihood, OfARangeOverSeveralStepsIsEvenAcrossThem) {
  const SittingTest wide{ammonia(), "k", {reading(Form::between, 0.2, 1.6)}, {1}};
  EXPECT_NEAR(log_likelihood(wide, 0.4), log_likelihood(wide, 0.8), 0.05);
  EXPECT_GT(log_likelihood(wide, 0.8), log_likelihood(wide, 3.2) + 1.0);
}

TEST(PlaceOnCard, IsTheStepAndStraightBetweenAndBeyond) {
  EXPECT_DOUBLE_EQ(place_of(ammonia(), 0.4), 2.0);
  EXPECT_DOUBLE_EQ(place_of(ammonia(), 0.6), 2.5);
  EXPECT_DOUBLE_EQ(place_of(ammonia(), 0.0), 0.0);
  EXPECT_DOUBLE_EQ(place_of(ammonia(), 4.8), 6.0);
  const KitTest from_one = colours("ph", Quantity::ph, TestUnit::ph, {6.4, 6.8, 7.2});
  EXPECT_NEAR(place_of(from_one, 6.0), -1.0, 1e-12);
}

TEST(PlaceOnCard, KnowsWhatTheCardCounts) {
  KitTest as_ion = ammonia();
  as_ion.unit = TestUnit::mg_nh4_per_l;
  EXPECT_NEAR(place_of(as_ion, 0.4 / 1.28786), 2.0, 1e-3);  // 18.039 / 14.007
}

TEST(LogLikelihood, OfOneReadingIsThatOfTheCardWithRoomForASlip) {
  for (const Reading& r : {reading(Form::step, 0.0), reading(Form::step, 0.4), reading(Form::step, 3.2), reading(Form::between, 0.4, 0.8),
                           reading(Form::above_last, {})})
    for (const double value : {0.0, 0.13, 0.4, 0.77, 2.0, 5.0, 50.0}) {
      const SittingTest sitting{ammonia(), "k", {r}, {1}};
      const double expected = std::log(misread_probability / 8.0 + (1.0 - misread_probability) * reading_probability({ammonia(), r}, value));
      EXPECT_NEAR(log_likelihood(sitting, value), expected, 1e-6) << value;
    }
}

TEST(LogLikelihood, BelowTheFirstStepIsThatOfTheCardWhereThereIsRoomBelow) {
  const KitTest card = colours("ph", Quantity::ph, TestUnit::ph, {6.4, 6.8, 7.2});
  const Reading r = reading(Form::below_first, {});
  for (const double value : {5.6, 6.3, 6.9}) {
    const double expected = std::log(misread_probability / 8.0 + (1.0 - misread_probability) * reading_probability({card, r}, value));
    EXPECT_NEAR(log_likelihood({card, "k", {r}, {1}}, value), expected, 1e-6) << value;
  }
}

TEST(LogLikelihood, OfDropsAndMetersIsThatOfTheirIntervals) {
  KitTest drops;
  drops.quantity = Quantity::alkalinity;
  drops.method = Method::drop_count;
  drops.unit = TestUnit::meq_per_l;
  drops.per_drop = 0.2;
  const SittingTest seven{drops, "k", {reading(Form::drops, 7)}, {1}};
  EXPECT_GT(log_likelihood(seven, 1.3), log_likelihood(seven, 1.5));
  EXPECT_NEAR(log_likelihood(seven, 1.25), log_likelihood(seven, 1.35), 1e-9);
  KitTest meter;
  meter.quantity = Quantity::ph;
  meter.method = Method::meter;
  meter.accuracy = 0.1;
  const SittingTest seen{meter, "k", {reading(Form::number, 7.5)}, {1}};
  EXPECT_GT(log_likelihood(seen, 7.5), log_likelihood(seen, 7.55));
  EXPECT_GT(log_likelihood(seen, 9.0), -10.0);  // a slip is always possible
}

TEST(LogLikelihood, NeverIsAboveNothingNorFallsWithoutEnd) {
  const SittingTest three{ammonia(), "k", {reading(Form::step, 0.0), reading(Form::step, 0.2), reading(Form::step, 3.2)}, {1, 2, 3}};
  for (const double value : {0.0, 0.1, 1.0, 10.0, 1e6}) {
    EXPECT_LE(log_likelihood(three, value), 0.0);
    EXPECT_GT(log_likelihood(three, value), -25.0);
  }
}

TEST(LogLikelihood, OfTeamsCountsTheSharedVialOnce) {
  const auto curvature = [](std::size_t teams) {
    SittingTest sitting{ammonia(), "k", std::vector<Reading>(teams, reading(Form::between, 0.4, 0.8)), {}};
    return log_likelihood(sitting, 0.6) - log_likelihood(sitting, 0.8);
  };
  EXPECT_GT(curvature(2), 1.15 * curvature(1));
  EXPECT_LT(curvature(2), 2.0 * curvature(1));
  EXPECT_LT(curvature(8), 6.0 * curvature(1));
}

TEST(LogLikelihood, OfOneTeamIsNearlyThatOfTheSplitErrors) {
  // The five-point rule against a fine sum: 0.3 and 0.4 make 0.5.
  const KitTest test = ammonia();
  for (const double place : {0.2, 1.0, 2.3}) {
    double direct = 0.0, total = 0.0;
    for (double v = -5.0; v <= 5.0; v += 0.01) {
      direct += numerics::normal_density(v) * numerics::normal_probability_between((1.5 - place - 0.3 * v) / 0.4, (2.5 - place - 0.3 * v) / 0.4);
      total += numerics::normal_density(v);
    }
    EXPECT_NEAR(direct / total, numerics::normal_probability_between((1.5 - place) / 0.5, (2.5 - place) / 0.5), 1e-4);
  }
}

TEST(ReadingInformation, IsTheMeanSquareOfTheSlopeOfTheLogProbability) {
  // Steps are classes half a step wide to both sides, read with an error of half a step; the ends are open.
  const auto below = [](double border, double place) { return 0.5 * std::erfc((place - border) / reader_error_steps / std::sqrt(2.0)); };
  const auto plainly = [&](double place) {
    double sum = 0.0;
    for (int step = 0; step < 6; ++step) {
      const auto probability = [&](double at) { return (step == 5 ? 1.0 : below(step + 0.5, at)) - (step == 0 ? 0.0 : below(step - 0.5, at)); };
      const double slope = (probability(place + 1e-5) - probability(place - 1e-5)) / 2e-5, p = probability(place);
      if (p > 1e-9) sum += slope * slope / p;
    }
    return sum;
  };
  const SittingTest one{ammonia(), "kit", {reading(Form::step, 0.4)}, {}};
  const std::vector<double> places{-0.4, 0.0, 0.7, 2.5, 3.0, 4.9, 5.5};
  std::vector<double> information(places.size());
  reading_information(one, places, information);
  for (std::size_t i = 0; i < places.size(); ++i) EXPECT_NEAR(information[i], plainly(places[i]), 0.03) << places[i];
  // Two teams share the vial's error, so that they tell more than one and less than twice as much.
  const SittingTest two{ammonia(), "kit", {reading(Form::step, 0.4), reading(Form::step, 0.8)}, {}};
  std::vector<double> of_two(places.size());
  reading_information(two, places, of_two);
  for (std::size_t i = 0; i < places.size(); ++i) {
    EXPECT_GT(of_two[i], information[i]);
    EXPECT_LT(of_two[i], 2.0 * information[i]);
  }
  const SittingTest none{ammonia(), "kit", {reading(Form::step, 0.33)}, {}};  // no such step
  reading_information(none, places, information);
  EXPECT_EQ(information, std::vector<double>(places.size(), 0.0));
}

TEST(Expectation, KnowsWhichSideAReadingFallsOn) {
  const std::vector<double> places(100, 1.0), weights(100, 0.01);
  const auto high = expectation(ammonia(), reading(Form::step, 1.6), places, weights), low = expectation(ammonia(), reading(Form::step, 0.0), places, weights),
             usual = expectation(ammonia(), reading(Form::step, 0.2), places, weights);
  ASSERT_TRUE(high && low && usual);
  EXPECT_LT(high->surprise, 1e-4);
  EXPECT_GT(high->below, 0.999);
  EXPECT_LT(low->below, 0.2);
  EXPECT_GT(usual->surprise, 0.9);
  EXPECT_NEAR(usual->own_class, 0.6827, 1e-3);
  EXPECT_FALSE(expectation(ammonia(), reading(Form::step, 0.3), places, weights));
}

TEST(PossibleReadings, AreTheStepsOfTheCardAndSumToOne) {
  std::vector<double> places(50), weights(50, 0.02);
  std::iota(places.begin(), places.end(), 0.0);
  for (double& p : places) p *= 0.1;
  const auto possible = possible_readings(ammonia(), places, weights);
  ASSERT_EQ(possible.size(), 6u);
  double sum = 0.0;
  for (const PossibleReading& p : possible) sum += p.probability;
  EXPECT_NEAR(sum, 1.0, 1e-6);
}

TEST(SeenValues, CarryTheKitsOwnErrorAndStayAboveZero) {
  std::vector<double> seen(3);
  seen_values(ammonia(), std::vector{1.0, 0.0, -0.1}, std::vector{std::log(2.0), 1.0, 0.0}, seen);
  EXPECT_NEAR(seen[0], 2.0, 1e-12);
  EXPECT_EQ(seen[1], 0.0);
  EXPECT_EQ(seen[2], 0.0);
}

}  // namespace
}  // namespace redd::inference
