#include "planning/water_tanks.h"

#include <algorithm>
#include <cmath>

#include "numerics/random.h"
#include "numerics/resampling.h"
#include "tank/conditions.h"

namespace redd::planning {
namespace {

using inference::Belief;
using inference::FilterCase;
using inference::Quantity;
using inference::QuantityBelief;
using tank::Ensemble;
using TankQuantity = tank::Quantity;

constexpr std::uint32_t purpose_prior = 31, purpose_water = 32, purpose_new_water = 33;

/// The exponent that leaves the likelihoods with this many effective particles, by halving: sittings that no drawn tank fits must not leave one tank.
std::vector<double> softened_weights(std::vector<double> log_likelihood, double least_effective) {
  for (int halvings = 0; halvings < 12 && numerics::effective_sample_size(log_likelihood) < least_effective; ++halvings)
    for (double& l : log_likelihood) l *= 0.5;
  return numerics::normalised_weights(log_likelihood);
}

/// Tanks drawn from the prior, run through the season and weighed by its last sittings.
Ensemble told_by_last_sittings(const FilterCase& now, const TankDraws& draws) {
  constexpr std::size_t tried_for_one = 3, sittings_heard = 3;
  const std::size_t tried = tried_for_one * draws.count;
  const inference::SeasonModel model(now.season);
  numerics::ParticleTable unknowns(model.dimension(), tried);
  for (std::size_t i = 0; i < tried; ++i) {
    numerics::RandomStream stream(draws.seed, purpose_prior, static_cast<std::uint32_t>(i));
    for (std::size_t row = 0; row < unknowns.rows(); ++row) unknowns(row, i) = stream.normal();
  }
  auto path = model.start(unknowns);
  std::vector<double> log_likelihood(tried, 0.0), one(tried);
  const std::size_t sittings = now.season.sittings.size();
  for (std::size_t s = sittings - std::min(sittings, sittings_heard); s < sittings; ++s) {
    model.score(path, unknowns, s, one);
    for (std::size_t i = 0; i < tried; ++i) log_likelihood[i] += one[i];
  }
  model.go_to(path, unknowns, std::max(now.now_day, path.at_day), true);
  const auto weights = softened_weights(std::move(log_likelihood), 0.5 * static_cast<double>(draws.count));
  numerics::RandomStream pick(draws.seed, purpose_prior, 0xffffffffu);
  std::vector<std::uint32_t> kept;
  const bool any = std::ranges::any_of(weights, [](double w) { return w > 0.0; });
  for (const std::size_t i : numerics::systematic_resample(any ? weights : std::vector<double>(tried, 1.0), pick.uniform(), draws.count)) kept.push_back(static_cast<std::uint32_t>(i));
  path.ensemble.select(kept);
  return std::move(path.ensemble);
}

/// `count` of the posterior's tanks, evenly; beginning at a place of its own for each seed.
Ensemble picked(const Ensemble& all, const TankDraws& draws) {
  Ensemble tanks = all;
  std::vector<std::uint32_t> kept;
  for (std::size_t i = 0; i < draws.count; ++i) kept.push_back(static_cast<std::uint32_t>((i + draws.seed) % all.size()));
  tanks.select(kept);
  return tanks;
}

/// Highest load of the days since a reading, mg N/L a day: how fast what was read can have moved.
double recent_load_mg_n_per_l_per_day(const FilterCase& now, double age_days) {
  double most = 0.0;
  const auto& days = now.season.forcing.days;
  for (auto d = static_cast<std::size_t>(std::max(0.0, now.now_day - age_days)); d < days.size() && static_cast<double>(d) <= now.now_day; ++d)
    most = std::max(most, (days[d].excretion_mg_n_per_day + days[d].organic_mg_n_per_day) / now.season.volume_l);
  return most;
}

/// Holds a column to its reading: what lies outside what the reading and the load since allow is drawn anew from the reading.
void hold_to_reading(std::span<double> column, const QuantityBelief* read, double room, numerics::RandomStream random) {
  if (!read || inference::is_stale(*read)) return;
  Estimate<double> e = read->value;
  if (read->open_above) e.high = std::max(e.high, 2.0 * e.low);
  for (double& value : column) {
    const double z = random.normal(), grown = random.uniform() * room;
    if (value >= e.low - room && value <= e.high + room) continue;
    value = drawn_from(e, z) + (value > e.high ? grown : 0.0);
  }
}

void hold_to_readings(Ensemble& tanks, const Belief& belief, const FilterCase& now, std::uint64_t seed) {
  const auto stream = [&](std::uint32_t item) { return numerics::RandomStream(seed, purpose_water, item); };
  const auto room = [&](const QuantityBelief* read, double per_n) {
    return read ? per_n * read->age_days * 1.5 * recent_load_mg_n_per_l_per_day(now, read->age_days) : 0.0;
  };
  constexpr double nitrogen = 1.0, alkalinity = 2.0 / 14.0;
  for (const auto& [quantity, column, per_n] : {std::tuple(Quantity::total_ammonia, TankQuantity::total_ammonia, nitrogen), {Quantity::nitrite, TankQuantity::nitrite, nitrogen},
                                                {Quantity::nitrate, TankQuantity::nitrate, nitrogen}, {Quantity::alkalinity, TankQuantity::alkalinity, alkalinity}}) {
    const auto* read = belief.find(quantity);
    hold_to_reading(tanks.column(column), read, room(read, per_n), stream(static_cast<std::uint32_t>(quantity)));
  }
}

/// The model's carbon is that of water in balance with outdoor air at its alkalinity; what a tank's pH differs by is carried beside it.
void settle_ph(WaterTanks& w, const Belief& belief, const FilterCase& now, std::uint64_t seed) {
  const double temperature_c = tank::temperature_c_at(now.season.forcing, w.at_day);
  const auto alkalinity = w.tanks.column(TankQuantity::alkalinity);
  const auto carbon = w.tanks.column(TankQuantity::inorganic_carbon);
  for (std::size_t i = 0; i < w.size(); ++i) carbon[i] = tank::air_balanced_carbon_mmol_per_l(Temperature::from_c(temperature_c), std::max(alkalinity[i], 0.01));
  std::vector<double> modelled(w.size());
  tank::ph_of(w.tanks, temperature_c, modelled);
  w.ph_offset.assign(w.size(), 0.0);
  const auto* read = belief.find(Quantity::ph);
  w.ph_read = read != nullptr;
  Estimate<double> ph = read ? read->value : Estimate<double>{6.5, 7.5, 8.5, Support::assumed};
  if (!read) w.assumed.push_back({"pH has never been tested: anything from 6.5 to 8.5 is reckoned with."});
  if (read && inference::is_stale(*read)) {
    ph.low -= 0.2;  // Assumed: what a tank's pH wanders in weeks without a test
    ph.high += 0.2;
  }
  numerics::RandomStream random(seed, purpose_water, 100);
  for (std::size_t i = 0; i < w.size(); ++i) w.ph_offset[i] = drawn_from(ph, random.normal()) - modelled[i];
}

void settle_hardness(WaterTanks& w, const Belief& belief, std::uint64_t seed) {
  const auto* read = belief.find(Quantity::hardness);
  std::optional<Estimate<double>> gh;
  if (read) gh = read->value;
  else if (belief.source && belief.source->hardness) gh = Estimate<double>{0.8 * belief.source->hardness->meq_per_l(), belief.source->hardness->meq_per_l(), 1.2 * belief.source->hardness->meq_per_l(), Support::assumed};
  w.hardness_known = gh.has_value();
  if (!gh) w.assumed.push_back({"GH has never been tested and is not followed."});
  numerics::RandomStream random(seed, purpose_water, 101);
  for (double& value : w.tanks.column(TankQuantity::hardness)) value = gh ? drawn_from(*gh, random.normal()) : 0.0;
}

}  // namespace

double drawn_from(const Estimate<double>& e, double normal) {
  constexpr double half_90_in_sd = 1.645;
  return std::max(0.0, e.mid + normal / half_90_in_sd * (normal < 0.0 ? e.mid - e.low : e.high - e.mid));
}

WaterTanks water_tanks(const Belief& belief, const FilterCase& now, const FilterOutlook* filter, const Evaporation& evaporation, const TankDraws& draws) {
  const bool posterior = filter && filter->tanks && filter->tanks->size() > 0 && filter->complete && !filter->lost_track;
  WaterTanks w{posterior ? picked(*filter->tanks, draws) : told_by_last_sittings(now, draws)};
  w.basis = posterior ? WaterTanks::Basis::posterior : WaterTanks::Basis::readings;
  w.at_day = now.now_day;
  hold_to_readings(w.tanks, belief, now, draws.seed);
  settle_ph(w, belief, now, draws.seed);
  settle_hardness(w, belief, draws.seed);
  numerics::RandomStream random(draws.seed, purpose_water, 102);
  constexpr double temperature_sd_c = 0.4;  // Assumed: a school's thermometer and the controller's swing
  for (std::size_t i = 0; i < w.size(); ++i) {
    w.temperature_offset_c.push_back(random.normal(0.0, temperature_sd_c));
    w.vacuum_share.push_back(random.uniform_between(vacuum_low_fraction, vacuum_high_fraction));
    w.evaporation_l_per_day.push_back(drawn_from(evaporation.l_per_day, random.normal()));
  }
  return w;
}

std::vector<NewWaterDraw> new_water_draws(const NewWater& water, std::size_t count, std::uint64_t seed) {
  std::vector<NewWaterDraw> all(count);
  for (std::size_t i = 0; i < count; ++i) {
    numerics::RandomStream random(seed, purpose_new_water, static_cast<std::uint32_t>(i));
    all[i].total_ammonia_mg_n_per_l = drawn_from(water.total_ammonia_mg_n_per_l, random.normal());
    all[i].nitrite_mg_n_per_l = drawn_from(water.nitrite_mg_n_per_l, random.normal());
    all[i].nitrate_mg_n_per_l = drawn_from(water.nitrate_mg_n_per_l, random.normal());
    all[i].alkalinity_meq_per_l = drawn_from(water.alkalinity_meq_per_l, random.normal());
    const double z = random.normal();
    all[i].hardness_meq_per_l = water.hardness_meq_per_l ? drawn_from(*water.hardness_meq_per_l, z) : 0.0;
  }
  return all;
}

}  // namespace redd::planning
