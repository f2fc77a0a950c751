#pragma once
// The process model of the tank written a second time, plainly: the published table times rates as products of Monod terms, one tank, no
// shortcuts. Reference solutions come from this through a general solver, so that the fast path is checked against something else.

#include <array>
#include <cmath>
#include <algorithm>
#include <span>

#include "numerics/random.h"
#include "tank/conditions.h"
#include "tank/detail/rates.h"
#include "tank/ensemble.h"
#include "tank/floors.h"
#include "tank/jumps.h"

namespace redd::tests {

using Values = std::array<double, tank::integrated_count>;

inline double monod(double x, double half) { return x / (half + x); }

inline double between(double from, double to, double share) { return from + share * (to - from); }

/// Rates of change of the eleven quantities over one stretch.
class PlainTank {
 public:
  /// `at_start`: the values when the stretch begins (they set the ionic strength and what evaporation adds).
  PlainTank(const tank::TankParameters& p, const tank::Stretch& s, const Values& at_start)
      : p_(p), s_(s), start_(at_start),
        table_(tank::process_table(p.ammonia_oxidiser_yield_mg_cod_per_mg_n, p.nitrite_oxidiser_yield_mg_cod_per_mg_n)) {
    const double ionic = 1e-3 * at_start[8];
    screening_ = std::exp(s.debye_huckel * (std::sqrt(ionic) / (1.0 + std::sqrt(ionic)) - 0.3 * ionic));
    screening_3_ = std::pow(screening_, 3.0);
    const auto powers = [&](double theta) {
      return Ends{std::pow(theta, s.at_start.temperature_c - 20.0), std::pow(theta, s.at_end.temperature_c - 20.0)};
    };
    by_theta_a_ = powers(p.ammonia_oxidiser_growth_theta);
    by_theta_n_ = powers(p.nitrite_oxidiser_growth_theta);
    by_theta_decay_ = powers(p.decay_theta);
  }

  /// `time`: days since the stretch began. All that depends on temperature runs straight from start to end.
  void rates_of_change(double time, const double* y, double* dy) const {
    using enum tank::Process;
    const double share = time / s_.days;
    const auto now = [&](auto value_at) { return between(value_at(s_.at_start), value_at(s_.at_end), share); };
    tank::Moment<double> water{};
    water.k1 = screening_ * now([](auto& w) { return w.k1; });
    water.k2 = screening_3_ * now([](auto& w) { return w.k2; });
    water.kw = screening_ * now([](auto& w) { return w.kw; });
    const double ammonium_k = now([](auto& w) { return w.ammonium_k; }) / screening_;
    const double kla = p_.gas_transfer_per_day * now([](auto& w) { return w.gas_transfer_factor; });
    const double growth_a = p_.ammonia_oxidiser_activity * p_.ammonia_oxidiser_growth_per_day * between(by_theta_a_.start, by_theta_a_.end, share);
    const double growth_n = p_.nitrite_oxidiser_activity * p_.nitrite_oxidiser_growth_per_day * between(by_theta_n_.start, by_theta_n_.end, share);
    const double decay_factor = between(by_theta_decay_.start, by_theta_decay_.end, share);

    const double ammonia = y[1], nitrite = y[2], a = y[4], n = y[5], oxygen = y[7], alkalinity = y[8], carbon = y[9], shock = y[10];
    const double h = tank::hydrogen_for(alkalinity, carbon, water, screening_);
    const double acid = 1.0 / (1.0 + h / tank::kinetics::half_rate_hydrogen_mmol_per_l);
    const double free_ammonia = ammonia * ammonium_k / (ammonium_k + h);
    const double crowd_a = p_.filter_capacity_mg_n_per_l_per_day * p_.ammonia_oxidiser_yield_mg_cod_per_mg_n / p_.ammonia_oxidiser_growth_per_day;
    const double crowd_n = p_.filter_capacity_mg_n_per_l_per_day * p_.nitrite_oxidiser_yield_mg_cod_per_mg_n / p_.nitrite_oxidiser_growth_per_day;
    const double breath = oxygen * oxygen / (oxygen * oxygen + 0.05 * 0.05);
    std::array<double, tank::process_count> r{};
    const auto at = [&](tank::Process process) -> double& { return r[static_cast<std::size_t>(process)]; };
    at(ammonia_oxidation) = growth_a * (1.0 - shock) * monod(ammonia, p_.ammonia_half_saturation_mg_n_per_l) *
                            monod(oxygen, p_.ammonia_oxidiser_oxygen_half_saturation_mg_o2_per_l) *
                            monod(alkalinity, p_.alkalinity_half_saturation_meq_per_l) * acid * a / (1.0 + a / crowd_a);
    at(nitrite_oxidation) = growth_n * (1.0 - shock) * monod(nitrite, p_.nitrite_half_saturation_mg_n_per_l) *
                            monod(oxygen, p_.nitrite_oxidiser_oxygen_half_saturation_mg_o2_per_l) *
                            monod(alkalinity, p_.alkalinity_half_saturation_meq_per_l) * acid * n / (1.0 + n / crowd_n) /
                            (1.0 + free_ammonia / p_.free_ammonia_inhibition_mg_n_per_l);
    at(ammonia_oxidiser_decay) = p_.ammonia_oxidiser_decay_per_day * decay_factor * a * breath;
    at(nitrite_oxidiser_decay) = p_.nitrite_oxidiser_decay_per_day * decay_factor * n * breath;
    at(ammonification) = p_.ammonification_per_day * now([](auto& w) { return w.ammonification_factor; }) * y[0];
    at(nitrite_assimilation) = tank::stoichiometry::biomass_nitrogen * at(nitrite_oxidation) * 1e-6 / (1e-6 + ammonia * ammonia);
    at(excretion) = s_.excretion * p_.load_factor;
    at(breathing) = s_.oxygen_use * p_.load_factor * breath;
    at(oxygen_exchange) = kla * (now([](auto& w) { return w.oxygen_saturation; }) - oxygen);
    const double co2 = carbon * h * h / (h * h + water.k1 * h + water.k1 * water.k2);
    at(carbon_dioxide_exchange) = 0.91 * kla * (now([](auto& w) { return w.carbon_dioxide_saturation; }) - co2);
    at(recovery) = shock / p_.cold_shock_recovery_days;
    const double concentrating = (s_.concentrating - 1.0) / s_.days;
    for (std::size_t i = 0; i < tank::integrated_count; ++i) {
      dy[i] = i == 7 || i == 10 ? 0.0 : concentrating * start_[i];
      for (std::size_t q = 0; q < tank::process_count; ++q) dy[i] += table_[q][i] * r[q];
    }
    dy[0] += s_.organic * p_.load_factor;
    dy[1] += s_.ammonium_salt;
  }

 private:
  struct Ends {
    double start, end;
  };
  tank::TankParameters p_;
  tank::Stretch s_;
  Values start_;
  tank::ProcessTable table_;
  double screening_, screening_3_;
  Ends by_theta_a_, by_theta_n_, by_theta_decay_;
};

inline Values values_of(const tank::TankState& s) {
  return {s.organic_mg_n_per_l, s.total_ammonia_mg_n_per_l, s.nitrite_mg_n_per_l, s.nitrate_mg_n_per_l, s.ammonia_oxidisers_mg_cod_per_l,
          s.nitrite_oxidisers_mg_cod_per_l, s.debris_mg_cod_per_l, s.oxygen_mg_o2_per_l, s.alkalinity_meq_per_l,
          s.inorganic_carbon_mmol_per_l, s.cold_shock_fraction};
}

/// What happens to the values at the start of a stretch, apart from the equations.
inline void begin(Values& y, const tank::TankParameters& p, const tank::Stretch& s) {
  y[10] = 1.0 - (1.0 - y[10]) * std::max(0.0, 1.0 - p.cold_shock_sensitivity_fraction * s.sudden_cooling_c / 10.0);
}
/// A random tank, wide on purpose: half-saturations down to 0.01 mg/L, gas exchange up to 100 a day, crowded and empty filters.
struct RandomCase {
  tank::TankState state;
  tank::TankParameters parameters;
  tank::Forcing forcing;
  double volume_l;
};

inline RandomCase random_case(std::uint32_t number, int days) {
  numerics::RandomStream random(20240917, 1, number);
  const auto log_between = [&](double low, double high) { return std::exp(random.uniform_between(std::log(low), std::log(high))); };
  RandomCase c;
  auto& p = c.parameters;
  p.ammonia_oxidiser_growth_per_day = log_between(0.3, 2.0);
  p.ammonia_oxidiser_growth_theta = random.uniform_between(1.03, 1.12);
  p.ammonia_oxidiser_decay_per_day = log_between(0.03, 0.3);
  p.ammonia_oxidiser_yield_mg_cod_per_mg_n = log_between(0.11, 0.24);
  p.ammonia_half_saturation_mg_n_per_l = log_between(0.01, 3.0);
  p.ammonia_oxidiser_oxygen_half_saturation_mg_o2_per_l = log_between(0.1, 1.5);
  p.nitrite_oxidiser_growth_per_day = log_between(0.3, 2.0);
  p.nitrite_oxidiser_growth_theta = random.uniform_between(1.02, 1.10);
  p.nitrite_oxidiser_decay_per_day = log_between(0.03, 0.3);
  p.nitrite_oxidiser_yield_mg_cod_per_mg_n = log_between(0.03, 0.09);
  p.nitrite_half_saturation_mg_n_per_l = log_between(0.01, 3.0);
  p.nitrite_oxidiser_oxygen_half_saturation_mg_o2_per_l = log_between(0.3, 2.0);
  p.free_ammonia_inhibition_mg_n_per_l = log_between(0.05, 5.0);
  p.decay_theta = random.uniform_between(1.02, 1.12);
  p.alkalinity_half_saturation_meq_per_l = log_between(0.1, 2.0);
  p.ammonification_per_day = log_between(0.05, 5.0);
  p.filter_capacity_mg_n_per_l_per_day = log_between(0.3, 30.0);
  p.gas_transfer_per_day = random.chance(0.3) ? 100.0 : log_between(5.0, 100.0);
  p.cold_shock_sensitivity_fraction = random.uniform_between(0.0, 0.6);
  p.cold_shock_recovery_days = log_between(3.0, 30.0);
  p.load_factor = log_between(0.5, 2.0);
  auto& s = c.state;
  s.organic_mg_n_per_l = random.chance(0.5) ? 0.0 : log_between(0.01, 2.0);
  s.total_ammonia_mg_n_per_l = log_between(0.05, 8.0);
  s.nitrite_mg_n_per_l = random.chance(0.5) ? 0.0 : log_between(0.01, 5.0);
  s.nitrate_mg_n_per_l = random.chance(0.3) ? 0.0 : log_between(0.5, 30.0);
  s.ammonia_oxidisers_mg_cod_per_l = log_between(1e-5, 1.0);
  s.nitrite_oxidisers_mg_cod_per_l = log_between(1e-5, 0.5);
  s.oxygen_mg_o2_per_l = random.uniform_between(5.0, 9.0);
  s.alkalinity_meq_per_l = log_between(0.5, 5.0);
  s.inorganic_carbon_mmol_per_l = s.alkalinity_meq_per_l * random.uniform_between(1.0, 1.2);
  c.volume_l = log_between(60.0, 400.0);
  const double warm_c = random.uniform_between(18.0, 27.0), cold_c = random.uniform_between(6.0, 12.0);
  const int chill_day = static_cast<int>(random.uniform_between(0.3, 0.8) * days);
  const int chill_days = random.chance(0.3) ? 1 : 1 + static_cast<int>(random.uniform_between(2.0, 12.0));
  const double load = log_between(0.02, 1.0) * c.volume_l;
  const bool by_salt = random.chance(0.4);
  for (int d = 0; d < days; ++d) {
    tank::DayForcing f;
    const double through = std::min(1.0, std::max(0.0, static_cast<double>(d - chill_day + 1) / chill_days));
    f.temperature_c = warm_c + through * (cold_c - warm_c) + 0.3 * random.normal();
    (by_salt ? f.ammonium_salt_mg_n_per_day : f.excretion_mg_n_per_day) = load;
    f.organic_mg_n_per_day = 0.2 * load;
    f.oxygen_use_mg_o2_per_day = 5.0 * load;
    f.evaporation_l_per_day = 0.004 * c.volume_l;
    c.forcing.days.push_back(f);
  }
  return c;
}

/// Largest relative error over the eleven quantities, above the floors that advance() promises accuracy for.
inline double relative_error(const Values& got, const Values& reference) {
  using namespace tank::floors;
  const Values floors{nitrogen_mg_n_per_l, nitrogen_mg_n_per_l, nitrogen_mg_n_per_l, nitrogen_mg_n_per_l, biomass_mg_cod_per_l,
                      biomass_mg_cod_per_l, debris_mg_cod_per_l, oxygen_mg_o2_per_l, alkalinity_meq_per_l, carbon_mmol_per_l, shock_fraction};
  double worst = 0.0;
  for (std::size_t i = 0; i < got.size(); ++i)
    worst = std::max(worst, std::fabs(got[i] - reference[i]) / (std::fabs(reference[i]) + floors[i]));
  return worst;
}

}  // namespace redd::tests
