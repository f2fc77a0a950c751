#include "tank/prior.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numbers>

namespace redd::tank {
namespace {

using Row = std::array<double, parameter_count>;

/// The table's row, with what this tank says in place of what the table cannot know.
Prior prior_for(Prior prior, const TankPrior& tank) {
  if (prior.parameter == Parameter::filter_capacity) {
    prior.middle = 1e3 * capacity_g_n_per_m2_per_day * tank.media_area_m2 / tank.volume_l;
    prior.spread = capacity_log_sd;
  }
  if (prior.parameter == Parameter::gas_transfer) prior.middle = tank.gas_transfer_per_day;
  return prior;
}

double drawn(const Prior& prior, double z, numerics::RandomStream& random) {
  switch (prior.shape) {
    case PriorShape::lognormal: return prior.middle * std::exp(prior.spread * z);
    case PriorShape::normal: return prior.middle + prior.spread * z;
    case PriorShape::beta: break;
  }
  return random.beta(prior.middle * prior.spread, (1.0 - prior.middle) * prior.spread);
}

bool within(const Prior& prior, double value) { return value >= prior.low && value <= prior.high; }

/// Standard normal coordinate of a lognormal or normal value.
double coordinate(const Prior& prior, double value) {
  return prior.shape == PriorShape::lognormal ? std::log(value / prior.middle) / prior.spread : (value - prior.middle) / prior.spread;
}

/// Decay is drawn given the growth of its own group.
bool follows_growth(Parameter parameter) {
  return parameter == Parameter::ammonia_oxidiser_decay || parameter == Parameter::nitrite_oxidiser_decay;
}
constexpr std::size_t growth_of_decay = 2;  // growth stands two rows above its decay
static_assert(static_cast<std::size_t>(Parameter::ammonia_oxidiser_decay) - growth_of_decay ==
              static_cast<std::size_t>(Parameter::ammonia_oxidiser_growth));
static_assert(static_cast<std::size_t>(Parameter::nitrite_oxidiser_decay) - growth_of_decay ==
              static_cast<std::size_t>(Parameter::nitrite_oxidiser_growth));

constexpr bool in_order() {
  for (std::size_t i = 0; i < prior_count; ++i)
    if (static_cast<std::size_t>(priors[i].parameter) != i) return false;
  return true;
}
static_assert(in_order());

/// sqrt(1 - correlation^2), for the part of decay that growth does not tell.
inline double independent_share() { return std::sqrt(1.0 - growth_decay_correlation * growth_decay_correlation); }

}  // namespace

TankParameters sample_parameters(const TankPrior& tank, numerics::RandomStream& random) {
  Row row{};
  std::array<double, prior_count> z{};
  for (std::size_t i = 0; i < prior_count; ++i) {
    const Prior prior = prior_for(priors[i], tank);
    do {
      z[i] = random.normal();
      if (follows_growth(prior.parameter)) z[i] = growth_decay_correlation * z[i - growth_of_decay] + independent_share() * z[i];
      row[i] = drawn(prior, z[i], random);
    } while (!within(prior, row[i]));
  }
  row[prior_count] = row[prior_count + 1] = 1.0;
  return std::bit_cast<TankParameters>(row);
}

double log_prior_density(const TankPrior& tank, const TankParameters& parameters) {
  const Row row = std::bit_cast<Row>(parameters);
  std::array<double, prior_count> z{};
  double sum = 0.0;
  for (std::size_t i = 0; i < prior_count; ++i) {
    const Prior prior = prior_for(priors[i], tank);
    if (!within(prior, row[i])) return -std::numeric_limits<double>::infinity();
    if (prior.shape == PriorShape::beta) {
      sum += (prior.middle * prior.spread - 1.0) * std::log(row[i]) + ((1.0 - prior.middle) * prior.spread - 1.0) * std::log1p(-row[i]);
      continue;
    }
    z[i] = coordinate(prior, row[i]);
    const double own = follows_growth(prior.parameter) ? (z[i] - growth_decay_correlation * z[i - growth_of_decay]) / independent_share() : z[i];
    sum -= 0.5 * own * own;
    if (prior.shape == PriorShape::lognormal) sum -= std::log(row[i]);
  }
  return sum;
}

void sample_inoculum(const TankPrior& tank, const TankParameters& p, TankState& state, numerics::RandomStream& random) {
  const double ratio = nitrite_oxidiser_ratio_median * std::exp(nitrite_oxidiser_ratio_log_sd * random.normal());
  const double unseeded = std::exp(std::numbers::ln10 * (inoculum_log10_mean + inoculum_log10_sd * random.normal()));
  const double share = std::exp(random.uniform_between(std::log(seeded_share_low), std::log(seeded_share_high)));
  if (tank.seeded) {
    // A share of what would hold the other filter's feed: growth makes good decay.
    const double removal = share * tank.seeded_removal_mg_n_per_l_per_day;
    state.ammonia_oxidisers_mg_cod_per_l = p.ammonia_oxidiser_yield_mg_cod_per_mg_n * removal / p.ammonia_oxidiser_decay_per_day;
    state.nitrite_oxidisers_mg_cod_per_l = p.nitrite_oxidiser_yield_mg_cod_per_mg_n * removal / p.nitrite_oxidiser_decay_per_day;
  } else {
    state.ammonia_oxidisers_mg_cod_per_l = unseeded;
    state.nitrite_oxidisers_mg_cod_per_l = unseeded * ratio;
  }
}

void sample_prior(Ensemble& ensemble, const TankPrior& tank, const TankState& water, std::uint64_t seed, std::uint32_t purpose) {
  for (std::size_t i = 0; i < ensemble.size(); ++i) {
    numerics::RandomStream random(seed, purpose, static_cast<std::uint32_t>(i));
    const TankParameters parameters = sample_parameters(tank, random);
    TankState state = water;
    sample_inoculum(tank, parameters, state, random);
    ensemble.set(i, state, parameters);
  }
}

}  // namespace redd::tank
