#pragma once
// Four or eight particles through several days, with error control. Internal linkage, see rates.h.

#include "tank/detail/implicit_step.h"
#include "tank/detail/kernel.h"
#include "tank/floors.h"

namespace redd::tank {
namespace {

using numerics::count_of;
using numerics::in_all;
using numerics::size_of_each;
using numerics::smallest_of;

inline constexpr const numerics::RosenbrockMethod& method = numerics::ros4;

/// Shortest step, days: 0.01 seconds. Below it the cautious step takes over.
inline constexpr double least_step_days = 1e-7;

template <class Real>
inline Water<Real> load_water(const BlockJob& job, std::size_t first) {
  const double* at = job.quantities + first;
  const auto column = [&](Quantity q) __attribute__((always_inline)) {
    Real x;
    numerics::load_into(at + static_cast<std::size_t>(q) * job.stride, x);
    return x;
  };
  using enum Quantity;
  return {column(organic_nitrogen), column(total_ammonia), column(nitrite), column(nitrate), column(ammonia_oxidisers), column(nitrite_oxidisers),
          column(debris), column(oxygen), column(alkalinity), column(inorganic_carbon), column(cold_shock)};
}

template <class Real>
inline void store_water(const Water<Real>& w, const BlockJob& job, std::size_t first) {
  double* at = job.quantities + first;
  const auto put = [&](Quantity q, const Real& x) __attribute__((always_inline)) { numerics::store(x, at + static_cast<std::size_t>(q) * job.stride); };
  using enum Quantity;
  put(organic_nitrogen, w.organic);
  put(total_ammonia, w.ammonia);
  put(nitrite, w.nitrite);
  put(nitrate, w.nitrate);
  put(ammonia_oxidisers, w.a);
  put(nitrite_oxidisers, w.n);
  put(debris, w.debris);
  put(oxygen, w.oxygen);
  put(alkalinity, w.alkalinity);
  put(inorganic_carbon, w.carbon);
  put(cold_shock, w.shock);
}

/// What of a day depends on the particle but not on the day.
template <class Real>
struct Fixed {
  Real growth_a, growth_n, log_theta_a, log_theta_n, log_theta_decay, decay_a, decay_n;
  Real ammonification, gas_transfer, sensitivity, load;
};

template <class Real>
inline void take_parameters(const BlockJob& job, std::size_t first, Fixed<Real>& fixed, Day<Real>& day) {
  const double* at = job.parameters + first;
  const auto column = [&](Parameter p) __attribute__((always_inline)) {
    Real x;
    numerics::load_into(at + static_cast<std::size_t>(p) * job.stride, x);
    return x;
  };
  using enum Parameter;
  const Real growth_a = column(ammonia_oxidiser_growth), growth_n = column(nitrite_oxidiser_growth);
  fixed.growth_a = growth_a * column(ammonia_oxidiser_activity);
  fixed.growth_n = growth_n * column(nitrite_oxidiser_activity);
  fixed.log_theta_a = numerics::logarithm_near_one(column(ammonia_oxidiser_growth_theta));
  fixed.log_theta_n = numerics::logarithm_near_one(column(nitrite_oxidiser_growth_theta));
  fixed.log_theta_decay = numerics::logarithm_near_one(column(decay_theta));
  fixed.decay_a = column(ammonia_oxidiser_decay);
  fixed.decay_n = column(nitrite_oxidiser_decay);
  fixed.ammonification = column(ammonification);
  fixed.gas_transfer = column(gas_transfer);
  fixed.sensitivity = column(cold_shock_sensitivity);
  fixed.load = column(load_factor);
  day.half_ammonia = column(ammonia_half_saturation);
  day.half_nitrite = column(nitrite_half_saturation);
  day.half_oxygen_a = column(ammonia_oxidiser_oxygen_half_saturation);
  day.half_oxygen_n = column(nitrite_oxidiser_oxygen_half_saturation);
  day.half_alkalinity = column(alkalinity_half_saturation);
  day.inhibition = column(free_ammonia_inhibition);
  day.inverse_recovery = 1.0 / column(cold_shock_recovery);
  day.inverse_yield_a = 1.0 / column(ammonia_oxidiser_yield);
  day.inverse_yield_n = 1.0 / column(nitrite_oxidiser_yield);
  // The filled filter turns over its capacity: growth x biomass / yield / (1 + biomass / crowd) -> capacity.
  const Real inverse_capacity = 1.0 / column(filter_capacity);
  day.inverse_crowd_a = growth_a * day.inverse_yield_a * inverse_capacity;
  day.inverse_crowd_n = growth_n * day.inverse_yield_n * inverse_capacity;
}

template <class Real>
inline Moment<Real> moment_at(const WaterConstants& water, const Fixed<Real>& fixed, const Real& screening) {
  const double above = water.temperature_c - kinetics::reference_temperature_c;
  const Real decay_factor = numerics::exponential(fixed.log_theta_decay * above);
  const Real gas = fixed.gas_transfer * water.gas_transfer_factor;
  return {fixed.growth_a * numerics::exponential(fixed.log_theta_a * above),
          fixed.growth_n * numerics::exponential(fixed.log_theta_n * above),
          fixed.decay_a * decay_factor,
          fixed.decay_n * decay_factor,
          fixed.ammonification * water.ammonification_factor,
          gas,
          kinetics::carbon_dioxide_over_oxygen * gas,
          water.k1 * screening,
          water.k2 * screening * screening * screening,
          water.kw * screening,
          water.ammonium_k / screening,
          in_all<Real>(water.oxygen_saturation),
          in_all<Real>(water.carbon_dioxide_saturation)};
}

template <class Real>
inline Moment<Real> difference(const Moment<Real>& to, const Moment<Real>& from) {
  return {to.growth_a - from.growth_a, to.growth_n - from.growth_n, to.decay_a - from.decay_a, to.decay_n - from.decay_n,
          to.ammonification - from.ammonification, to.gas_transfer - from.gas_transfer, to.carbon_transfer - from.carbon_transfer,
          to.k1 - from.k1, to.k2 - from.k2, to.kw - from.kw, to.ammonium_k - from.ammonium_k,
          to.oxygen_saturation - from.oxygen_saturation, to.carbon_dioxide_saturation - from.carbon_dioxide_saturation};
}

/// Loads, and what evaporation concentrates: as steady inflow that in sum makes exactly the factor.
template <class Real>
inline void set_inflow(const Stretch& stretch, const Fixed<Real>& fixed, const Water<Real>& w, Day<Real>& day) {
  const double concentrating = (stretch.concentrating - 1.0) / stretch.days;
  const Real excretion = stretch.excretion * fixed.load;
  const Real none = in_all<Real>(0.0);
  day.oxygen_use = stretch.oxygen_use * fixed.load;
  day.ramp_ammonia = stretch.excretion_ramp * fixed.load;
  day.ramp_organic = stretch.organic_ramp * fixed.load;
  day.inflow = {concentrating * w.organic + stretch.organic * fixed.load,
                concentrating * w.ammonia + excretion + stretch.ammonium_salt,
                concentrating * w.nitrite,
                concentrating * w.nitrate,
                concentrating * w.a,
                concentrating * w.n,
                concentrating * w.debris,
                none,
                concentrating * w.alkalinity + stoichiometry::charge * excretion,
                concentrating * w.carbon,
                none};
}

/// Largest error over what is allowed, of all quantities and lanes; and whether anything went below zero.
template <class Real>
inline double error_ratio(const Water<Real>& before, const StepOutcome<Real>& after, double relative, double floor_factor) {
  Real worst = in_all<Real>(0.0);
  Real lowest = in_all<Real>(0.0);
  Real trap = in_all<Real>(0.0);
  const auto look = [&](const Real& was, const Real& is, const Real& off, double floor) __attribute__((always_inline)) {
    const Real ratio = size_of_each(off) / (largest_of(was, is) + floor);
    worst = largest_of(worst, ratio);
    trap += ratio - ratio;  // zero, or not a number where the ratio is not finite, and then it stays so
    lowest = smallest_of(lowest, is);
  };
  const auto& [w, e] = after;
  look(before.organic, w.organic, e.organic, floor_factor * floors::nitrogen_mg_n_per_l);
  look(before.ammonia, w.ammonia, e.ammonia, floor_factor * floors::nitrogen_mg_n_per_l);
  look(before.nitrite, w.nitrite, e.nitrite, floor_factor * floors::nitrogen_mg_n_per_l);
  look(before.nitrate, w.nitrate, e.nitrate, floor_factor * floors::nitrogen_mg_n_per_l);
  look(before.a, w.a, e.a, floors::biomass_mg_cod_per_l);
  look(before.n, w.n, e.n, floors::biomass_mg_cod_per_l);
  look(before.debris, w.debris, e.debris, floor_factor * floors::debris_mg_cod_per_l);
  look(before.oxygen, w.oxygen, e.oxygen * floors::gas_leniency, floor_factor * floors::oxygen_mg_o2_per_l);
  look(before.alkalinity, w.alkalinity, e.alkalinity, floor_factor * floors::alkalinity_meq_per_l);
  look(before.carbon, w.carbon, e.carbon * floors::gas_leniency, floor_factor * floors::carbon_mmol_per_l);
  look(before.shock, w.shock, e.shock, floor_factor * floors::shock_fraction);
  const double ratio = numerics::largest_lane(worst + trap) / relative;
  // What is below zero by less than rounding of its neighbours is cleared by the caller; anything more refuses the step.
  constexpr double rounding = count_of<Real> == numerics::float_lane_count ? 1e-6 : 1e-15;
  return numerics::smallest_lane(lowest) < -rounding && ratio < 8.0 ? 8.0 : ratio;
}

template <class Real>
inline void clear_rounding(Water<Real>& w) {
  for (Real* x : {&w.organic, &w.ammonia, &w.nitrite, &w.nitrate, &w.a, &w.n, &w.debris, &w.oxygen, &w.alkalinity, &w.carbon, &w.shock})
    *x = largest_of(*x, in_all<Real>(0.0));
}

template <class Real>
inline bool all_finite(const Water<Real>& w) {
  const Real sum = w.organic + w.ammonia + w.nitrite + w.nitrate + w.a + w.n + w.debris + w.oxygen + w.alkalinity + w.carbon + w.shock;
  const Real zero = sum - sum;
  return numerics::largest_lane(zero) == 0.0;
}

/// x^(-1/4), within 0.1 %: the step controller needs no more.
inline double inverse_fourth_root(double x) { return 1.0 / __builtin_sqrt(__builtin_sqrt(x)); }

/// Step to try where `left` days of a stretch are to go. A long last step leaves the gases, whose errors count little, further off than a
/// reading of pH forgives; a quarter of a day more and they have settled.
inline double step_of(double step, double left) {
  constexpr double long_days = 1.01, settling_days = 0.25;
  if (step < left) return step > 0.5 * left ? 0.5 * left : step;
  return left > long_days ? left - settling_days : left;
}

/// One stretch. `step` is the step to try, and on return the step to try next.
template <class Real>
inline void carry_through(Water<Real>& w, const Day<Real>& day, const Moment<Real>& at_start, const Moment<Real>& change, double length,
                          bool steady, double relative, double floor_factor, double& step, BlockReport& report) {
  Linearised<Real> linearised;
  double done = 0.0;
  while (done < length) {
    const double share = done / length;
    const Moment<Real> now = steady ? at_start : moment_between(at_start, change, share);
    const Place<Real> place{day, now, at_start, change, share, 1.0 / length, steady, done - 0.5 * length};
    const Extents<Real> rates = process_rates(w, day, now);
    Extents<Real> slope = rates;
    if (!steady) {  // how the rates change by themselves: conditions are straight in time, so a difference is all but exact
      constexpr double look_ahead = 1.0 / 64.0;
      const Extents<Real> later = process_rates(w, day, moment_between(now, change, look_ahead));
      const double per = 1.0 / (look_ahead * length);
      const Real none = in_all<Real>(0.0);
      slope = {none, none, none, none, none, none, none, none, none, none};
      add(slope, per, later);
      add(slope, -per, rates);
    }
    take_derivative(w, day, now, linearised);
    for (;;) {
      const double left = length - done;
      const double h = step_of(step, left);
      if (h < least_step_days && h < left) {
        const double tiny = left < least_step_days ? left : least_step_days;
        w = cautious_step(w, day, now, done - 0.5 * length, tiny);
        if (!all_finite(w)) {
          report.sound = false;
          return;
        }
        clear_rounding(w);
        done += tiny;
        step = 2.0 * least_step_days;
        ++report.cautious;
        break;
      }
      const StepOutcome<Real> outcome = implicit_step<method>(w, place, h, rates, slope, linearised);
      const double error = error_ratio(w, outcome, relative, floor_factor);
      if (error <= 1.0) {
        w = outcome.water;
        clear_rounding(w);
        done = h == left ? length : done + h;
        const double factor = error < 1e-4 ? 5.0 : 0.9 * inverse_fourth_root(error);
        const double next = h * (factor > 5.0 ? 5.0 : factor < 0.3 ? 0.3 : factor);
        step = h < step && next < step ? step : next;  // a step cut short by the end of the day says nothing against the longer one
        ++report.steps;
        break;
      }
      ++report.rejected;
      const double factor = error < 1e8 ? 0.9 * inverse_fourth_root(error) : 0.05;  // also when it is not a number
      step = h * (factor < 0.05 ? 0.05 : factor);
      if (!(step > 1e-12)) {
        report.sound = false;
        return;
      }
    }
  }
}

template <class Real>
inline BlockReport advance_block(const BlockJob& job, std::size_t block) {
  const std::size_t first = block * count_of<Real>;
  Fixed<Real> fixed;
  Day<Real> day;
  take_parameters<Real>(job, first, fixed, day);
  Water<Real> w = load_water<Real>(job, first);
  BlockReport report;
  double step = job.step_days[first];
  for (std::size_t i = 0; i < count_of<Real>; ++i)
    if (job.step_days[first + i] < step) step = job.step_days[first + i];
  for (std::size_t s = 0; s < job.stretch_count && report.sound; ++s) {
    const Stretch& stretch = job.stretches[s];
    if (stretch.sudden_cooling_c > 0.0) {
      const Real kept = 1.0 - fixed.sensitivity * (0.1 * stretch.sudden_cooling_c);
      w.shock = 1.0 - (1.0 - w.shock) * largest_of(kept, in_all<Real>(0.0));
    }
    // Ions screen each other; ionic strength from the alkalinity at the start of the stretch (Davies, as in chemistry/activity.h).
    const Real ionic = 1e-3 * w.alkalinity;
    const Real root = numerics::square_root(ionic);
    const Real screening = numerics::exponential(stretch.debye_huckel * (root / (1.0 + root) - 0.3 * ionic));
    day.inverse_hydrogen_activity = screening;
    set_inflow(stretch, fixed, w, day);
    const Moment<Real> at_start = moment_at(stretch.at_start, fixed, screening);
    const Moment<Real> change = stretch.steady ? at_start : difference(moment_at(stretch.at_end, fixed, screening), at_start);
    carry_through(w, day, at_start, change, stretch.days, stretch.steady, job.relative_tolerance, job.floor_factor, step, report);
    report.sound = report.sound && all_finite(w);
  }
  store_water(w, job, first);
  numerics::store(in_all<Real>(step), job.step_days + first);
  return report;
}

}  // namespace
}  // namespace redd::tank
