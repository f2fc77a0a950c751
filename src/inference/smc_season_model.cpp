#include "inference/smc_season_model.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

#include "tank/conditions.h"

namespace redd::inference {
namespace {

using numerics::ParticleTable;
using tank::Ensemble;
using tank::Parameter;
using TankQuantity = tank::Quantity;
using records::Quantity;

/// Value of a prior at a standard normal number; beyond its range the range's end.
double value_at(const tank::Prior& prior, double z, double middle, double spread) {
  switch (prior.shape) {
    case tank::PriorShape::lognormal: return std::clamp(middle * std::exp(spread * z), prior.low, prior.high);
    case tank::PriorShape::normal: return std::clamp(middle + spread * z, prior.low, prior.high);
    case tank::PriorShape::beta: {
      // A normal value through the logistic curve, with the beta distribution's own mean and spread of its logit (digamma and trigamma
      // to first order): within 0.01 of the beta's quantiles for the one such row.
      const double a = middle * spread, b = (1.0 - middle) * spread;
      const double mean = std::log(a - 0.5) - std::log(b - 0.5), sd = std::sqrt(1.0 / (a - 0.5) + 1.0 / (b - 0.5));
      return std::clamp(1.0 / (1.0 + std::exp(-mean - sd * z)), prior.low, prior.high);
    }
  }
  return middle;
}

/// Rates of each particle from the table of priors.
void fill_parameters(Ensemble& ensemble, const ParticleTable& z, double media_area_m2) {
  constexpr double lean = tank::growth_decay_correlation;
  const double rest = std::sqrt(1.0 - lean * lean);
  for (const tank::Prior& prior : tank::priors) {
    double middle = prior.middle, spread = prior.spread;
    if (prior.parameter == Parameter::filter_capacity) {
      middle = tank::capacity_g_n_per_m2_per_day * 1000.0 * media_area_m2 / ensemble.volume_l();
      spread = tank::capacity_log_sd;
    }
    const auto own = z.row(row_of(prior.parameter));
    const auto column = ensemble.column(prior.parameter);
    std::span<const double> growth;
    if (prior.parameter == Parameter::ammonia_oxidiser_decay) growth = z.row(row_of(Parameter::ammonia_oxidiser_growth));
    if (prior.parameter == Parameter::nitrite_oxidiser_decay) growth = z.row(row_of(Parameter::nitrite_oxidiser_growth));
    for (std::size_t i = 0; i < column.size(); ++i)
      column[i] = value_at(prior, growth.empty() ? own[i] : lean * growth[i] + rest * own[i], middle, spread);
  }
  for (const Parameter activity : {Parameter::ammonia_oxidiser_activity, Parameter::nitrite_oxidiser_activity})
    std::ranges::fill(ensemble.column(activity), 1.0);
}

void fill_first_state(Ensemble& ensemble, const ParticleTable& z, const tank::TankState& first) {
  const auto at = [&](Unknown u) { return z.row(row_of(u)); };
  for (std::size_t i = 0; i < ensemble.size(); ++i) {
    tank::TankState state = first;
    state.ammonia_oxidisers_mg_cod_per_l =
        std::pow(10.0, tank::inoculum_log10_mean + tank::inoculum_log10_sd * at(Unknown::ammonia_oxidisers_at_first)[i]);
    state.nitrite_oxidisers_mg_cod_per_l = state.ammonia_oxidisers_mg_cod_per_l * tank::nitrite_oxidiser_ratio_median *
                                           std::exp(tank::nitrite_oxidiser_ratio_log_sd * at(Unknown::nitrite_oxidisers_at_first)[i]);
    const double buffer = std::exp(0.1 * at(Unknown::first_alkalinity)[i]);  // Assumed: a supply's alkalinity is told to 10 %
    state.alkalinity_meq_per_l *= buffer;
    state.inorganic_carbon_mmol_per_l *= buffer;
    state.nitrate_mg_n_per_l *= std::exp(0.3 * at(Unknown::first_nitrate)[i]);  // Assumed: and its nitrate to 30 %
    ensemble.set(i, state, ensemble.parameters(i));
  }
}

class Fingerprint {
 public:
  void add(std::uint64_t word) {
    for (int byte = 0; byte < 8; ++byte) {
      value_ ^= (word >> (8 * byte)) & 0xff;
      value_ *= 0x100000001b3ull;  // FNV-1a, 64 bits
    }
  }
  void add(double number) { add(std::bit_cast<std::uint64_t>(number)); }
  void add(const std::string& text) {
    add(static_cast<std::uint64_t>(text.size()));
    for (const char c : text) add(static_cast<std::uint64_t>(static_cast<unsigned char>(c)));
  }
  void add(const std::vector<double>& numbers) {
    add(static_cast<std::uint64_t>(numbers.size()));
    for (const double n : numbers) add(n);
  }
  std::uint64_t value() const { return value_; }

 private:
  std::uint64_t value_ = 0xcbf29ce484222325ull;
};

void add_source(Fingerprint& print, const tank::SourceWater& s) {
  for (const double n : {s.total_ammonia_mg_n_per_l, s.chloramine_mg_per_l, s.nitrite_mg_n_per_l, s.nitrate_mg_n_per_l, s.organic_mg_n_per_l,
                         s.alkalinity_meq_per_l, s.inorganic_carbon_mmol_per_l, s.oxygen_mg_o2_per_l, s.hardness_meq_per_l})
    print.add(n);
}

void add_event(Fingerprint& print, const FilterEvent& event) {
  print.add(event.at_day);
  print.add(static_cast<std::uint64_t>(event.what.index()));
  if (const auto* changed = std::get_if<WaterChanged>(&event.what)) {
    print.add(changed->volume_l);
    add_source(print, changed->source);
  } else if (const auto* added = std::get_if<WaterAdded>(&event.what)) {
    print.add(added->volume_l);
    add_source(print, added->source);
  } else if (const auto* dose = std::get_if<tank::Dose>(&event.what)) {
    for (const double n : {dose->ammonium_chloride_mg_n, dose->ammonia_solution_mg_n, dose->nitrite_mg_n, dose->nitrate_mg_n, dose->bicarbonate_meq,
                           dose->hardness_meq, dose->organic_mg_n})
      print.add(n);
  } else if (const auto* lost = std::get_if<FilterLost>(&event.what)) {
    print.add(lost->lost_fraction);
    print.add(lost->log_odds_sd);
  } else if (const auto* seeded = std::get_if<FilterSeeded>(&event.what)) {
    print.add(seeded->share_fraction);
  }
}

void add_test(Fingerprint& print, const SittingTest& test) {
  print.add(test.kit);
  print.add(test.test.key);
  print.add(static_cast<std::uint64_t>(test.test.quantity) * 64 + static_cast<std::uint64_t>(test.test.method) * 16 + static_cast<std::uint64_t>(test.test.unit));
  print.add(test.test.steps);
  print.add(test.test.per_drop.value_or(-1.0));
  print.add(test.test.accuracy.value_or(-1.0));
  for (const records::Reading& reading : test.readings) {
    print.add(static_cast<std::uint64_t>(reading.form));
    print.add(reading.value.value_or(-1.0));
    print.add(reading.upper_value.value_or(-1.0));
  }
}

}  // namespace

std::uint64_t fingerprint(const FilterSeason& season, std::size_t sitting) {
  Fingerprint print;
  print.add(season.volume_l);
  print.add(season.media_area_m2);
  print.add(season.activity_spread);
  const tank::TankState& f = season.first_water;
  for (const double n : {f.organic_mg_n_per_l, f.total_ammonia_mg_n_per_l, f.nitrite_mg_n_per_l, f.nitrate_mg_n_per_l, f.debris_mg_cod_per_l,
                         f.oxygen_mg_o2_per_l, f.alkalinity_meq_per_l, f.inorganic_carbon_mmol_per_l, f.hardness_meq_per_l})
    print.add(n);
  const double until = sitting < season.sittings.size() ? season.sittings[sitting].at_day : std::numeric_limits<double>::infinity();
  print.add(season.forcing.first_day);
  for (std::size_t i = 0; i < season.forcing.days.size() && season.forcing.first_day + static_cast<double>(i) < until; ++i) {
    const tank::DayForcing& d = season.forcing.days[i];
    for (const double n : {d.temperature_c, d.excretion_mg_n_per_day, d.ammonium_salt_mg_n_per_day, d.organic_mg_n_per_day, d.oxygen_use_mg_o2_per_day,
                           d.evaporation_l_per_day, d.air_co2_uatm, d.air_pressure_mmhg})
      print.add(n);
  }
  if (std::isfinite(until)) print.add(tank::temperature_c_at(season.forcing, until));  // the day's path leans towards the next day's mean
  for (const FilterEvent& event : season.events)
    if (event.at_day < until) add_event(print, event);
  for (std::size_t s = 0; s <= sitting && s < season.sittings.size(); ++s) {
    print.add(season.sittings[s].at_day);
    for (const SittingTest& test : season.sittings[s].tests) add_test(print, test);
  }
  return print.value();
}

SeasonModel::SeasonModel(FilterSeason season, tank::Tolerance tolerance) : season_(std::move(season)), tolerance_(tolerance) { lay_out_rows(); }

/// Rows in the order in which the season reaches them, so that a later sitting never moves an earlier row.
void SeasonModel::lay_out_rows() {
  std::size_t rows = season_unknown_count;
  for (const FilterSitting& sitting : season_.sittings) {
    while (static_cast<double>(activity_rows_.size()) * activity_stretch_days < sitting.at_day) {
      activity_rows_.push_back(rows);
      rows += 2;
    }
    for (const SittingTest& test : sitting.tests) {
      const bool known = std::ranges::any_of(kit_rows_, [&](const KitRow& k) { return k.kit == test.kit && k.test == test.test.key; });
      if (!known) kit_rows_.push_back({test.kit, test.test.key, rows++});
    }
    active_.push_back(rows);
  }
  dimension_ = rows;
}

std::size_t SeasonModel::bias_row(const std::string& kit, const std::string& test) const {
  for (const KitRow& k : kit_rows_)
    if (k.kit == kit && k.test == test) return k.row;
  return dimension_;
}

std::size_t SeasonModel::activity_row(double day) const {
  const double stretch = std::floor(std::max(day, 0.0) / activity_stretch_days);
  return stretch < static_cast<double>(activity_rows_.size()) ? activity_rows_[static_cast<std::size_t>(stretch)] : dimension_;
}

SeasonModel::Path SeasonModel::start(const ParticleTable& unknowns) const {
  Path path{Ensemble(unknowns.columns(), season_.volume_l)};
  fill_parameters(path.ensemble, unknowns, season_.media_area_m2);
  fill_first_state(path.ensemble, unknowns, season_.first_water);
  return path;
}

void SeasonModel::set_activity(Path& path, const ParticleTable& unknowns, double day) const {
  const std::size_t row = activity_row(day);
  for (const auto& [parameter, offset] : {std::pair{Parameter::ammonia_oxidiser_activity, 0u}, std::pair{Parameter::nitrite_oxidiser_activity, 1u}}) {
    const auto column = path.ensemble.column(parameter);
    if (row >= unknowns.rows()) {
      std::ranges::fill(column, 1.0);
      continue;
    }
    const auto z = unknowns.row(row + offset);
    for (std::size_t i = 0; i < column.size(); ++i) column[i] = std::exp(season_.activity_spread * z[i]);
  }
}

void SeasonModel::go_to(Path& path, const ParticleTable& unknowns, double day, bool through_events_at_end) const {
  for (;;) {
    const bool event_next = path.next_event < season_.events.size() &&
                            (through_events_at_end ? season_.events[path.next_event].at_day <= day : season_.events[path.next_event].at_day < day);
    const double until = event_next ? std::max(season_.events[path.next_event].at_day, path.at_day) : day;
    while (path.at_day < until) {
      const double stretch_end = (std::floor(path.at_day / activity_stretch_days) + 1.0) * activity_stretch_days;
      const double to = std::min(until, stretch_end);
      set_activity(path, unknowns, path.at_day);
      tank::advance(path.ensemble, season_.forcing, path.at_day, to, tolerance_);
      path.at_day = to;
    }
    if (!event_next) return;
    happen(path, unknowns, season_.events[path.next_event]);
    ++path.next_event;
  }
}

void SeasonModel::happen(Path& path, const ParticleTable& unknowns, const FilterEvent& event) const {
  Ensemble& ensemble = path.ensemble;
  if (const auto* changed = std::get_if<WaterChanged>(&event.what)) {
    tank::change_water(ensemble, changed->volume_l, changed->source);
  } else if (const auto* added = std::get_if<WaterAdded>(&event.what)) {
    tank::add_water(ensemble, added->volume_l, added->source);
  } else if (const auto* dose = std::get_if<tank::Dose>(&event.what)) {
    // Assumed: a school weighs or drops a dose to 10 %, and errs the same way each time.
    std::vector<double> factors(ensemble.size());
    for (std::size_t i = 0; i < factors.size(); ++i) factors[i] = std::exp(0.1 * unknowns(row_of(Unknown::dose), i));
    tank::add_dose(ensemble, *dose, factors);
  } else if (const auto* lost = std::get_if<FilterLost>(&event.what)) {
    std::vector<double> fractions(ensemble.size(), lost->lost_fraction);
    if (lost->log_odds_sd > 0.0 && lost->lost_fraction > 0.0 && lost->lost_fraction < 1.0)
      for (std::size_t i = 0; i < fractions.size(); ++i) {
        const double odds = lost->lost_fraction / (1.0 - lost->lost_fraction) * std::exp(lost->log_odds_sd * unknowns(row_of(Unknown::filter_loss), i));
        fractions[i] = odds / (1.0 + odds);
      }
    tank::lose_filter(ensemble, fractions);
  } else if (const auto* seeded = std::get_if<FilterSeeded>(&event.what)) {
    // Of a filter that holds a tenth of what it could at most. Assumed: how alive it is, is known to a factor of e.
    const auto ammonia = ensemble.column(TankQuantity::ammonia_oxidisers), nitrite = ensemble.column(TankQuantity::nitrite_oxidisers);
    for (std::size_t i = 0; i < ensemble.size(); ++i) {
      const tank::TankParameters p = ensemble.parameters(i);
      const double fed_mg_n_per_l_per_day = 0.1 * p.filter_capacity_mg_n_per_l_per_day * seeded->share_fraction * std::exp(unknowns(row_of(Unknown::seeding), i));
      ammonia[i] += p.ammonia_oxidiser_yield_mg_cod_per_mg_n * fed_mg_n_per_l_per_day / p.ammonia_oxidiser_decay_per_day;
      nitrite[i] += p.nitrite_oxidiser_yield_mg_cod_per_mg_n * fed_mg_n_per_l_per_day / p.nitrite_oxidiser_decay_per_day;
    }
  }
}

WaterColumns SeasonModel::columns(const Path& path) const {
  const auto copy = [&](TankQuantity quantity) {
    const auto column = path.ensemble.column(quantity);
    return std::vector<double>(column.begin(), column.end());
  };
  WaterColumns water{copy(TankQuantity::total_ammonia), copy(TankQuantity::nitrite), copy(TankQuantity::nitrate), std::vector<double>(path.ensemble.size()),
                     copy(TankQuantity::alkalinity), copy(TankQuantity::oxygen)};
  tank::ph_of(path.ensemble, tank::temperature_c_at(season_.forcing, path.at_day), water.ph);
  return water;
}

std::vector<double> SeasonModel::places(const SittingTest& test, const WaterColumns& columns, const ParticleTable& unknowns) const {
  std::vector<double> seen;
  switch (test.test.quantity) {
    case Quantity::total_ammonia: seen = columns.total_ammonia_mg_n_per_l; break;
    case Quantity::nitrite: seen = columns.nitrite_mg_n_per_l; break;
    case Quantity::nitrate:
      // Nitrate tests turn nitrate into nitrite and colour that: what nitrite there is counts too, about mole for mole.
      // Assumed: known to a factor of 1.6.
      seen = columns.nitrate_mg_n_per_l;
      for (std::size_t i = 0; i < seen.size(); ++i)
        seen[i] += columns.nitrite_mg_n_per_l[i] * std::exp(0.5 * unknowns(row_of(Unknown::nitrite_in_nitrate_test), i));
      break;
    case Quantity::ph: seen = columns.ph; break;
    case Quantity::alkalinity: seen = columns.alkalinity_meq_per_l; break;
    case Quantity::oxygen: seen = columns.oxygen_mg_o2_per_l; break;
    case Quantity::hardness:
    case Quantity::chlorine:
    case Quantity::chloride: return {};
  }
  std::vector<double> bias(seen.size(), 0.0);
  const std::size_t row = bias_row(test.kit, test.test.key);
  if (row < unknowns.rows())
    for (std::size_t i = 0; i < bias.size(); ++i) bias[i] = bias_sd(test.test) * unknowns(row, i);
  seen_values(test.test, seen, bias, seen);
  places_on_card(test.test, seen, seen);
  return seen;
}

void SeasonModel::score(Path& path, const ParticleTable& unknowns, std::size_t sitting, std::span<double> log_likelihood) const {
  const FilterSitting& now = season_.sittings[sitting];
  go_to(path, unknowns, now.at_day, false);
  std::ranges::fill(log_likelihood, 0.0);
  const WaterColumns water = columns(path);
  for (const SittingTest& test : now.tests) {
    const std::vector<double> at = places(test, water, unknowns);
    if (!at.empty()) add_log_likelihood(test, at, log_likelihood);
  }
  for (std::size_t i = 0; i < log_likelihood.size(); ++i)
    if (!std::isfinite(water.total_ammonia_mg_n_per_l[i] + water.nitrite_mg_n_per_l[i] + water.nitrate_mg_n_per_l[i] + water.ph[i]))
      log_likelihood[i] = -std::numeric_limits<double>::infinity();
}

numerics::SquareMatrix SeasonModel::information(const ParticleTable& centre, std::size_t sitting, double part) const {
  // Assumed: a quarter of a prior standard deviation; wide enough to average over the steps of the integrator's tolerance.
  constexpr double aside = 0.25;
  const std::size_t unknown_count = active_[sitting];
  numerics::SquareMatrix information(unknown_count);
  ParticleTable around(dimension_, unknown_count + 1);  // column 0 the centre, column k + 1 unknown k moved aside
  for (std::size_t row = 0; row < dimension_; ++row) std::ranges::fill(around.row(row), centre(row, 0));
  for (std::size_t k = 0; k < unknown_count; ++k) around(k, k + 1) += centre(k, 0) > 0.0 ? -aside : aside;
  Path path = start(around);
  std::vector<double> slope(unknown_count);
  for (std::size_t s = 0; s <= sitting; ++s) {
    go_to(path, around, season_.sittings[s].at_day, false);
    const WaterColumns water = columns(path);
    for (const SittingTest& test : season_.sittings[s].tests) {
      const std::vector<double> at = places(test, water, around);
      if (at.empty()) continue;
      double weight = 0.0;
      reading_information(test, {at.data(), 1}, {&weight, 1});
      if (s == sitting) weight *= part;
      if (!(weight > 0.0)) continue;
      for (std::size_t k = 0; k < unknown_count; ++k) {
        slope[k] = (at[k + 1] - at[0]) / (around(k, k + 1) - around(k, 0));
        if (!std::isfinite(slope[k])) slope[k] = 0.0;
      }
      for (std::size_t k = 0; k < unknown_count; ++k)
        if (slope[k] != 0.0)
          for (std::size_t j = 0; j <= k; ++j) information(k, j) += weight * slope[k] * slope[j];
    }
  }
  for (std::size_t k = 0; k < unknown_count; ++k)
    for (std::size_t j = 0; j < k; ++j) information(j, k) = information(k, j);
  return information;
}

}  // namespace redd::inference
