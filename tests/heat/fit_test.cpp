// The log of an invented tank, made by the trajectory and read by a sensor with noise and steps.
#include "heat/fit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "heat/tanks.h"
#include "heat/trajectory.h"
#include "numerics/random.h"

namespace redd::heat {
namespace {

constexpr double sd_of_90 = 1.0 / 1.6448536269514722;

struct Truth {
  double ua_w_per_k, chiller_factor, own_w;
};

struct Sensor {
  double noise_c = 0.1, step_c = 0.1;
  double drift_c = 0.0;          ///< sd of a disturbance that hangs together
  double drift_memory = 0.0;     ///< from one reading to the next
};

const Chiller plate = chiller_known_at(Power::from_w(250), Temperature::from_c(8), Temperature::from_c(21));

HeatPrior prior_about(double ua_w_per_k = 11.0, double own_w = 15.0) {
  return {.conductance = {w_per_k(ua_w_per_k / 1.5), w_per_k(ua_w_per_k), w_per_k(ua_w_per_k * 1.5), Support::assumed},
          .own_heat = {w(own_w * 0.7), w(own_w), w(own_w * 1.3), Support::assumed}};
}

/// Half-hourly readings: the water starts warm and is pulled down to 8 C in a room with nights set back.
std::vector<HeatReading> log_of(const Truth& truth, int days, const Sensor& sensor, numerics::RandomStream& random, bool chiller = true) {
  TankHeat tank = bare_tank(truth.ua_w_per_k, truth.own_w);
  Equipment equipment;
  if (chiller) equipment.chiller = plate, equipment.chiller->rated = truth.chiller_factor * plate.rated;
  std::vector<Temperature> rooms;
  for (int i = 0; i < 48 * days; ++i) rooms.push_back(c(i % 48 > 15 && i % 48 < 34 ? 21.5 : 18.0));
  const auto run = trajectory(tank, equipment, {c(chiller ? 19 : 8)}, rooms, std::array{c(8)}, TemperatureChange::from_c(1), 0, Hours(0.5));
  std::vector<HeatReading> log;
  double drift_c = 0.0;
  for (std::size_t i = 0; i < run.duty.size(); ++i) {
    drift_c = sensor.drift_memory * drift_c + sensor.drift_c * std::sqrt(1 - sensor.drift_memory * sensor.drift_memory) * random.normal();
    const double read_c = run.water[i].c() + drift_c + random.normal(0.0, sensor.noise_c);
    log.push_back({Hours(0.5 * static_cast<double>(i)), c(std::round(read_c / sensor.step_c) * sensor.step_c), rooms[i], run.duty[i]});
  }
  return log;
}

Truth drawn(numerics::RandomStream& random) {
  return {11.0 * std::exp(std::log(1.5) * sd_of_90 * random.normal()), std::exp(std::log(2.0) * 0.5 * sd_of_90 * random.normal()),
          std::max(0.5, 15.0 + 0.3 * 15.0 * sd_of_90 * random.normal())};
}

struct Coverage {
  int conductance = 0, chiller = 0, own = 0;
};

Coverage coverage(int logs, int days, const Sensor& sensor, std::uint32_t purpose) {
  Coverage inside;
  for (int i = 0; i < logs; ++i) {
    numerics::RandomStream random(20310209, purpose, static_cast<std::uint32_t>(i));
    const Truth truth = drawn(random);
    const auto fit = fit_heat(bare_tank().capacity, plate, prior_about(), log_of(truth, days, sensor, random));
    EXPECT_TRUE(fit);
    inside.conductance += fit->conductance.low.w_per_k() <= truth.ua_w_per_k && truth.ua_w_per_k <= fit->conductance.high.w_per_k();
    inside.chiller += fit->chiller_factor.low <= truth.chiller_factor && truth.chiller_factor <= fit->chiller_factor.high;
    inside.own += fit->own_heat.low.w() <= truth.own_w && truth.own_w <= fit->own_heat.high.w();
  }
  return inside;
}

TEST(FitHeat, NinetyPercentIntervalsCoverNinetyPercentOfTwoHundredLogs) {
  const Coverage inside = coverage(200, 2, {.noise_c = 0.15}, 1);
  RecordProperty("conductance", inside.conductance);
  RecordProperty("chiller", inside.chiller);
  RecordProperty("own", inside.own);
  // 180 of 200 expected, standard deviation 4.2; three of them.
  for (const int count : {inside.conductance, inside.chiller, inside.own}) {
    EXPECT_GE(count, 167);
    EXPECT_LE(count, 193);
  }
}

TEST(FitHeat, DisturbancesThatHangTogetherDoNotMakeItOverconfident) {
  const Coverage inside = coverage(60, 2, {.noise_c = 0.05, .drift_c = 0.15, .drift_memory = 0.8}, 2);
  RecordProperty("conductance", inside.conductance);
  RecordProperty("chiller", inside.chiller);
  EXPECT_GE(inside.conductance, 47);  // 54 expected, standard deviation 2.3
  EXPECT_GE(inside.chiller, 47);
}

TEST(FitHeat, RecoversTheTruthOfALongLogClosely) {
  numerics::RandomStream random(7);
  const Truth truth{8.5, 0.85, 13.0};
  const auto fit = fit_heat(bare_tank().capacity, plate, prior_about(), log_of(truth, 10, {}, random));
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->conductance.mid.w_per_k(), 8.5, 0.4);
  EXPECT_NEAR(fit->chiller_factor.mid, 0.85, 0.04);
  EXPECT_LT(fit->conductance.high.w_per_k() / fit->conductance.low.w_per_k(), 1.2);  // 2.25 before
  EXPECT_TRUE(fit->follows_model);
  EXPECT_NEAR(fit->residual_sd_c, 0.104, 0.02);  // noise 0.1 and steps of 0.1
  EXPECT_EQ(fit->conductance.support, Support::inferred);
  EXPECT_EQ(fit->readings_used, 480);
}

TEST(FitHeat, ALogThatSaysNothingGivesThePriorBack) {
  // Water in balance with its room: nothing tells the conductance.
  std::vector<HeatReading> log;
  for (int i = 0; i < 20; ++i) log.push_back({Hours(0.5 * i), c(21.0), c(21.0), 0.0});
  HeatPrior prior = prior_about(11.0, 0.0);
  const auto fit = fit_heat(bare_tank().capacity, plate, prior, log);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->conductance.low.w_per_k(), 11.0 / 1.5, 0.25);
  EXPECT_NEAR(fit->conductance.high.w_per_k(), 11.0 * 1.5, 0.5);
  EXPECT_NEAR(fit->chiller_factor.low, 0.7, 0.02);
  EXPECT_EQ(fit->chiller_factor.support, Support::assumed);
}

TEST(FitHeat, WithoutAChillerTheWarmUpTellsTheConductance) {
  numerics::RandomStream random(9);
  const auto fit = fit_heat(bare_tank().capacity, std::nullopt, prior_about(), log_of({13.0, 1.0, 15.0}, 2, {}, random, false));
  ASSERT_TRUE(fit);
  EXPECT_LE(fit->conductance.low.w_per_k(), 13.0);
  EXPECT_GE(fit->conductance.high.w_per_k(), 13.0);
  EXPECT_LT(fit->conductance.high.w_per_k() / fit->conductance.low.w_per_k(), 1.5);
}

TEST(FitHeat, LearnsFromASetPointAloneWhileTheChillerSurelyRuns) {
  numerics::RandomStream random(11);
  auto log = log_of({11.0, 0.8, 15.0}, 3, {}, random);
  for (HeatReading& reading : log) reading.chiller_share = std::nullopt;
  EXPECT_FALSE(fit_heat(bare_tank().capacity, plate, prior_about(), log));
  log = with_chiller_from_set_point(std::move(log), {c(8)});
  EXPECT_EQ(log.front().chiller_share, 1.0);
  EXPECT_FALSE(log.back().chiller_share);
  const auto fit = fit_heat(bare_tank().capacity, plate, prior_about(), log);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->chiller_factor.mid, 0.8, 0.08);
  EXPECT_LT(fit->chiller_factor.high / fit->chiller_factor.low, 1.5);  // 2 before
}

TEST(FitHeat, WorldsAgreeWithTheIntervals) {
  numerics::RandomStream random(13);
  const auto fit = fit_heat(bare_tank().capacity, plate, prior_about(), log_of({9.0, 1.0, 15.0}, 2, {}, random));
  ASSERT_EQ(fit->worlds.size(), 200u);
  const auto inside = std::ranges::count_if(fit->worlds, [&](const HeatWorld& each) {
    return each.conductance >= fit->conductance.low && each.conductance <= fit->conductance.high;
  });
  EXPECT_NEAR(static_cast<double>(inside), 180.0, 12.0);
  const HeatDoubt doubt = doubt_of(*fit);
  EXPECT_LT(doubt.conductance.low, 1.0);
  EXPECT_GT(doubt.chiller.high, 1.0);
}

TEST(FitHeat, AnOpenedLidCostsAStretchAndAStrangeLogIsSaidSo) {
  numerics::RandomStream random(15);
  auto log = log_of({11.0, 1.0, 15.0}, 6, {}, random);
  for (std::size_t i = 60; i < log.size(); ++i) log[i].at += Hours(5);  // a gap: a new stretch
  const auto fit = fit_heat(bare_tank().capacity, plate, prior_about(), log);
  ASSERT_TRUE(fit);
  EXPECT_GE(fit->stretches, 6);
  EXPECT_NEAR(fit->conductance.mid.w_per_k(), 11.0, 1.0);
  for (std::size_t i = 0; i < log.size(); ++i) log[i].water = c(10 + 4 * std::sin(static_cast<double>(i)));
  EXPECT_FALSE(fit_heat(bare_tank().capacity, plate, prior_about(), log)->follows_model);
}

TEST(FitHeat, RefusesWhatIsNoLog) {
  numerics::RandomStream random(17);
  const auto good = log_of({11.0, 1.0, 15.0}, 1, {}, random);
  const auto problem = [](std::vector<HeatReading> log) {
    const auto fit = fit_heat(bare_tank().capacity, plate, prior_about(), log);
    return fit ? std::string() : fit.problems().front().code;
  };
  EXPECT_EQ(problem({}), "too_few_readings");
  EXPECT_EQ(problem({good.begin(), good.begin() + 4}), "too_few_readings");
  auto log = good;
  std::swap(log[3], log[4]);
  EXPECT_EQ(problem(log), "not_rising");
  log = good;
  log[5].chiller_share = 1.5;
  EXPECT_EQ(problem(log), "out_of_range");
  log = good;
  log[5].water = c(std::nan(""));
  EXPECT_EQ(problem(log), "not_a_number");
}

}  // namespace
}  // namespace redd::heat
