#include "tank/prior.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace redd::tank {
namespace {

std::vector<TankParameters> draws(std::size_t count, const TankPrior& tank = {}) {
  std::vector<TankParameters> all;
  for (std::uint32_t i = 0; i < count; ++i) {
    numerics::RandomStream random(5, 1, i);
    all.push_back(sample_parameters(tank, random));
  }
  return all;
}

double median(std::vector<double> values) {
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2), values.end());
  return values[values.size() / 2];
}

TEST(Prior, DrawsHaveTheMediansAndSpreadsOfTheTable) {
  const auto all = draws(4000);
  Ensemble e(all.size(), 200.0);
  for (std::size_t i = 0; i < all.size(); ++i) e.set(i, {}, all[i]);
  for (const Prior& prior : priors) {
    if (prior.parameter == Parameter::filter_capacity || prior.shape == PriorShape::beta) continue;
    const auto column = e.column(prior.parameter);
    std::vector<double> values(column.begin(), column.end());
    EXPECT_TRUE(std::all_of(values.begin(), values.end(), [&](double x) { return x >= prior.low && x <= prior.high; })) << prior.name;
    const double middle = median(values);
    if (prior.shape == PriorShape::lognormal) EXPECT_NEAR(std::log(middle / prior.middle), 0.0, 0.06) << prior.name;
    else EXPECT_NEAR(middle, prior.middle, 0.1 * prior.spread) << prior.name;
  }
}

TEST(Prior, HighGrowthGoesWithHighDecay) {
  const auto all = draws(4000);
  double sum_xy = 0.0, sum_xx = 0.0, sum_yy = 0.0;
  for (const auto& p : all) {
    const double x = std::log(p.ammonia_oxidiser_growth_per_day / 0.75), y = std::log(p.ammonia_oxidiser_decay_per_day / 0.10);
    sum_xy += x * y;
    sum_xx += x * x;
    sum_yy += y * y;
  }
  EXPECT_NEAR(sum_xy / std::sqrt(sum_xx * sum_yy), growth_decay_correlation, 0.05);
}

TEST(Prior, DensityFavoursTheMiddleAndRefusesWhatLiesOutside) {
  const TankPrior tank;
  TankParameters p;
  p.filter_capacity_mg_n_per_l_per_day = 1.2;
  const double middle = log_prior_density(tank, p);
  EXPECT_TRUE(std::isfinite(middle));
  TankParameters far = p;
  far.nitrite_oxidiser_growth_per_day *= 2.5;
  EXPECT_LT(log_prior_density(tank, far), middle - 2.0);
  far.nitrite_oxidiser_growth_per_day = 100.0;
  EXPECT_EQ(log_prior_density(tank, far), -std::numeric_limits<double>::infinity());
}

TEST(Prior, CapacityFollowsTheMediaAndTheVolume) {
  const auto one = draws(2000, {.volume_l = 200.0, .media_area_m2 = 1.0});
  const auto two = draws(2000, {.volume_l = 100.0, .media_area_m2 = 1.0});
  const auto capacity = [](const std::vector<TankParameters>& all) {
    std::vector<double> values;
    for (const auto& p : all) values.push_back(p.filter_capacity_mg_n_per_l_per_day);
    return median(values);
  };
  EXPECT_NEAR(capacity(two) / capacity(one), 2.0, 1e-9);
  EXPECT_NEAR(capacity(one), 1e3 * 0.49 / 200.0, 0.1);
}

TEST(Prior, IsTheSameForTheSameSeedAndSeededTanksBeginAhead) {
  Ensemble a(50, 200.0), b(50, 200.0), seeded(50, 200.0);
  sample_prior(a, {}, {}, 9);
  sample_prior(b, {}, {}, 9);
  sample_prior(seeded, {.seeded = true}, {}, 9);
  for (std::size_t i = 0; i < 50; ++i) {
    EXPECT_EQ(a.state(i).ammonia_oxidisers_mg_cod_per_l, b.state(i).ammonia_oxidisers_mg_cod_per_l);
    EXPECT_GT(seeded.state(i).ammonia_oxidisers_mg_cod_per_l, 1e-3);
  }
}

}  // namespace
}  // namespace redd::tank
