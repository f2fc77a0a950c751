#pragma once
// One linearly implicit step of the process model. The derivative of the model has so much structure that the linear system of
// every stage comes down to two equations, for the growth of the two groups of bacteria: all else follows by substitution.
// Internal linkage, see rates.h.

#include "numerics/rosenbrock.h"
#include "tank/detail/rates.h"

namespace redd::tank {
namespace {

/// The derivative of the rates at one water, and the 2 x 2 system of a step of length g / gamma.
template <class Real>
struct Linearised {
  // derivative of the two growth rates
  Real a_ammonia, a_oxygen, a_alkalinity, a_carbon, a_own, a_shock;
  Real n_ammonia, n_nitrite, n_oxygen, n_alkalinity, n_carbon, n_own, n_shock;
  Real decay_a, decay_n;                       // derivative of decay by biomass
  Real co2_carbon, co2_alkalinity;             // derivative of carbon dioxide
  // shares that substitution leaves: value = share * (what drives it)
  Real share_decay_a, share_decay_n, share_organic, share_oxygen, share_carbon, share_recovery;
  // inverse of the 2 x 2 system, times g
  Real inverse_aa, inverse_an, inverse_na, inverse_nn;
  double g;
};

template <class Real>
inline void take_derivative(const Water<Real>& w, const Day<Real>& day, const Moment<Real>& now, Linearised<Real>& l) {
  using namespace kinetics;
  const Real h = hydrogen_for(w.alkalinity, w.carbon, now, day.inverse_hydrogen_activity);
  // pH by alkalinity and carbon: alkalinity = carbon * charge(h) + own(h)
  const Real k1k2 = now.k1 * now.k2;
  const Real inverse_all = 1.0 / (h * h + now.k1 * h + k1k2);
  const Real charge_share = (now.k1 * h + 2.0 * k1k2) * inverse_all;
  const Real slope = (now.k1 - charge_share * (2.0 * h + now.k1)) * inverse_all;
  const Real h_by_alkalinity = 1.0 / (w.carbon * slope - now.kw / (h * h) - day.inverse_hydrogen_activity);
  const Real h_by_carbon = -charge_share * h_by_alkalinity;
  const Real co2_share = h * h * inverse_all;
  const Real co2_by_h = w.carbon * h * charge_share * inverse_all;
  l.co2_carbon = co2_share + co2_by_h * h_by_carbon;
  l.co2_alkalinity = co2_by_h * h_by_alkalinity;

  const Real acid = 1.0 / (1.0 + h * (1.0 / half_rate_hydrogen_mmol_per_l));
  const Real u_ammonia = 1.0 / (day.half_ammonia + w.ammonia), u_nitrite = 1.0 / (day.half_nitrite + w.nitrite);
  const Real u_oxygen_a = 1.0 / (day.half_oxygen_a + w.oxygen), u_oxygen_n = 1.0 / (day.half_oxygen_n + w.oxygen);
  const Real u_alkalinity = 1.0 / (day.half_alkalinity + w.alkalinity);
  const Real crowd_a = 1.0 / (1.0 + w.a * day.inverse_crowd_a), crowd_n = 1.0 / (1.0 + w.n * day.inverse_crowd_n);
  const Real u_free = 1.0 / (now.ammonium_k + h);
  const Real free_share = now.ammonium_k * u_free;
  const Real u_inhibition = 1.0 / (day.inhibition + w.ammonia * free_share);
  const Real inhibition = day.inhibition * u_inhibition;
  const Real alkalinity_term = w.alkalinity * u_alkalinity;
  const Real awake = 1.0 - w.shock;

  const Real full_a = now.growth_a * acid * crowd_a;
  const Real terms_a = w.ammonia * u_ammonia * w.oxygen * u_oxygen_a;
  const Real rate_by_awake_a = full_a * w.a * terms_a * alkalinity_term;
  const Real rate_a = rate_by_awake_a * awake;
  const Real living_a = full_a * w.a * awake;
  const Real a_by_h = -rate_a * acid * (1.0 / half_rate_hydrogen_mmol_per_l);
  l.a_ammonia = living_a * w.oxygen * u_oxygen_a * alkalinity_term * day.half_ammonia * u_ammonia * u_ammonia;
  l.a_oxygen = living_a * w.ammonia * u_ammonia * alkalinity_term * day.half_oxygen_a * u_oxygen_a * u_oxygen_a;
  l.a_alkalinity = living_a * terms_a * day.half_alkalinity * u_alkalinity * u_alkalinity + a_by_h * h_by_alkalinity;
  l.a_carbon = a_by_h * h_by_carbon;
  l.a_own = full_a * crowd_a * awake * terms_a * alkalinity_term;
  l.a_shock = -rate_by_awake_a;

  const Real full_n = now.growth_n * acid * crowd_n * inhibition;
  const Real terms_n = w.nitrite * u_nitrite * w.oxygen * u_oxygen_n;
  const Real rate_by_awake_n = full_n * w.n * terms_n * alkalinity_term;
  const Real rate_n = rate_by_awake_n * awake;
  const Real living_n = full_n * w.n * awake;
  const Real n_by_h = rate_n * (w.ammonia * free_share * u_free * u_inhibition - acid * (1.0 / half_rate_hydrogen_mmol_per_l));
  l.n_ammonia = -rate_n * free_share * u_inhibition;
  l.n_nitrite = living_n * w.oxygen * u_oxygen_n * alkalinity_term * day.half_nitrite * u_nitrite * u_nitrite;
  l.n_oxygen = living_n * w.nitrite * u_nitrite * alkalinity_term * day.half_oxygen_n * u_oxygen_n * u_oxygen_n;
  l.n_alkalinity = living_n * terms_n * day.half_alkalinity * u_alkalinity * u_alkalinity + n_by_h * h_by_alkalinity;
  l.n_carbon = n_by_h * h_by_carbon;
  l.n_own = full_n * crowd_n * awake * terms_n * alkalinity_term;
  l.n_shock = -rate_by_awake_n;

  // The small oxygen and ammonia guards are left out of the derivative: they matter only where almost nothing is left.
  const Real oxygen_2 = w.oxygen * w.oxygen;
  const Real breath = oxygen_2 / (oxygen_2 + least_oxygen_mg_o2_per_l * least_oxygen_mg_o2_per_l);
  l.decay_a = now.decay_a * breath;
  l.decay_n = now.decay_n * breath;
}

template <class Real>
inline void prepare(const Day<Real>& day, const Moment<Real>& now, double g, Linearised<Real>& l) {
  using namespace stoichiometry;
  constexpr double recycled = biomass_nitrogen * (1.0 - inert_share);
  l.g = g;
  l.share_decay_a = g / (1.0 + g * l.decay_a);
  l.share_decay_n = g / (1.0 + g * l.decay_n);
  l.share_organic = g / (1.0 + g * now.ammonification);
  l.share_recovery = g / (1.0 + g * day.inverse_recovery);
  l.share_oxygen = 1.0 / (1.0 + g * now.gas_transfer);
  l.share_carbon = 1.0 / (1.0 + g * now.carbon_transfer * l.co2_carbon);

  // Each quantity's change by one unit of growth of either group, all else following.
  const Real died_a = l.share_decay_a * l.decay_a, died_n = l.share_decay_n * l.decay_n;
  const Real organic = l.share_organic * now.ammonification * recycled;
  const Real ammonia_a = -day.inverse_yield_a - biomass_nitrogen + organic * died_a;
  const Real ammonia_n = -biomass_nitrogen + organic * died_n;
  const Real oxygen_a = (1.0 - ammonia_to_nitrite_mg_o2_per_mg_n * day.inverse_yield_a - (1.0 - inert_share) * died_a) * l.share_oxygen;
  const Real oxygen_n = (1.0 - nitrite_to_nitrate_mg_o2_per_mg_n * day.inverse_yield_n - (1.0 - inert_share) * died_n) * l.share_oxygen;
  const Real alkalinity_a = charge * (organic * died_a - 2.0 * day.inverse_yield_a - biomass_nitrogen);
  const Real alkalinity_n = charge * (organic * died_n - biomass_nitrogen);
  const Real exchange = g * now.carbon_transfer * l.co2_alkalinity;
  const Real carbon_a = (biomass_carbon * ((1.0 - inert_share) * died_a - 1.0) - exchange * alkalinity_a) * l.share_carbon;
  const Real carbon_n = (biomass_carbon * ((1.0 - inert_share) * died_n - 1.0) - exchange * alkalinity_n) * l.share_carbon;

  const Real aa = l.a_ammonia * ammonia_a + l.a_oxygen * oxygen_a + l.a_alkalinity * alkalinity_a + l.a_carbon * carbon_a +
                  l.a_own * (1.0 - died_a);
  const Real an = l.a_ammonia * ammonia_n + l.a_oxygen * oxygen_n + l.a_alkalinity * alkalinity_n + l.a_carbon * carbon_n;
  const Real na = l.n_ammonia * ammonia_a + l.n_nitrite * day.inverse_yield_a + l.n_oxygen * oxygen_a + l.n_alkalinity * alkalinity_a +
                  l.n_carbon * carbon_a;
  const Real nn = l.n_ammonia * ammonia_n - l.n_nitrite * day.inverse_yield_n + l.n_oxygen * oxygen_n + l.n_alkalinity * alkalinity_n +
                  l.n_carbon * carbon_n + l.n_own * (1.0 - died_n);
  const Real m_aa = 1.0 - g * aa, m_nn = 1.0 - g * nn;
  const Real scale = g / (m_aa * m_nn - g * g * an * na);
  l.inverse_aa = m_nn * scale;
  l.inverse_nn = m_aa * scale;
  l.inverse_an = g * an * scale;
  l.inverse_na = g * na * scale;
}

/// The extents of a stage: k = g (rho + J k), with `passed` the stage's share of the inflow.
template <class Real>
inline Extents<Real> solved(const Extents<Real>& rho, const Passed& passed, const Day<Real>& day, const Moment<Real>& now, const Linearised<Real>& l) {
  using namespace stoichiometry;
  constexpr double recycled = biomass_nitrogen * (1.0 - inert_share);
  const double time = passed.time;
  const Real fed = day.inflow.organic * time + day.ramp_organic * passed.ramp;
  const Real risen = day.ramp_ammonia * passed.ramp;
  Extents<Real> k;
  k.assimilation = l.g * rho.assimilation;
  k.breathing = l.g * rho.breathing;
  k.recovery = l.share_recovery * rho.recovery;
  // What happens without any growth.
  const Real inflow_a = day.inflow.a * time, inflow_n = day.inflow.n * time;
  const Real died_a = l.share_decay_a * (rho.decay_a + l.decay_a * inflow_a), died_n = l.share_decay_n * (rho.decay_n + l.decay_n * inflow_n);
  const Real died = died_a + died_n;
  const Real ammonified = l.share_organic * (rho.ammonification + now.ammonification * (recycled * died + fed));
  const Real ammonia = ammonified + k.assimilation + day.inflow.ammonia * time + risen;
  const Real oxygen = (l.g * rho.oxygen - k.breathing - (1.0 - inert_share) * died + ammonia_to_nitrite_mg_o2_per_mg_n * k.assimilation) *
                      l.share_oxygen;
  const Real alkalinity = charge * (ammonified + 2.0 * k.assimilation + risen) + day.inflow.alkalinity * time;
  const Real carbon = (breath_carbon * k.breathing + biomass_carbon * (1.0 - inert_share) * died + day.inflow.carbon * time +
                       l.g * (rho.carbon - now.carbon_transfer * l.co2_alkalinity * alkalinity)) * l.share_carbon;
  const Real drive_a = rho.a + l.a_ammonia * ammonia + l.a_oxygen * oxygen + l.a_alkalinity * alkalinity + l.a_carbon * carbon +
                       l.a_own * (inflow_a - died_a) - l.a_shock * k.recovery;
  const Real drive_n = rho.n + l.n_ammonia * ammonia + l.n_nitrite * (day.inflow.nitrite * time - k.assimilation) + l.n_oxygen * oxygen +
                       l.n_alkalinity * alkalinity + l.n_carbon * carbon + l.n_own * (inflow_n - died_n) - l.n_shock * k.recovery;
  k.a = l.inverse_aa * drive_a + l.inverse_an * drive_n;
  k.n = l.inverse_na * drive_a + l.inverse_nn * drive_n;
  // And what follows from it.
  k.decay_a = died_a + l.share_decay_a * l.decay_a * k.a;
  k.decay_n = died_n + l.share_decay_n * l.decay_n * k.n;
  const Real all_died = k.decay_a + k.decay_n;
  k.ammonification = l.share_organic * (rho.ammonification + now.ammonification * (recycled * all_died + fed));
  const Real oxygen_taken = k.a + k.n - ammonia_to_nitrite_mg_o2_per_mg_n * (k.a * day.inverse_yield_a - k.assimilation) -
                            nitrite_to_nitrate_mg_o2_per_mg_n * k.n * day.inverse_yield_n - k.breathing - (1.0 - inert_share) * all_died;
  k.oxygen = (oxygen_taken + l.g * rho.oxygen) * l.share_oxygen - oxygen_taken;
  const Real alkalinity_all = charge * (k.ammonification + 2.0 * (k.assimilation - k.a * day.inverse_yield_a) -
                                        biomass_nitrogen * (k.a + k.n) + risen) + day.inflow.alkalinity * time;
  const Real carbon_taken = breath_carbon * k.breathing + biomass_carbon * ((1.0 - inert_share) * all_died - k.a - k.n) + day.inflow.carbon * time;
  k.carbon = (carbon_taken + l.g * (rho.carbon - now.carbon_transfer * l.co2_alkalinity * alkalinity_all)) * l.share_carbon - carbon_taken;
  return k;
}

template <class Real>
inline void add(Extents<Real>& to, double factor, const Extents<Real>& x) {
  to.a += factor * x.a;
  to.n += factor * x.n;
  to.decay_a += factor * x.decay_a;
  to.decay_n += factor * x.decay_n;
  to.ammonification += factor * x.ammonification;
  to.assimilation += factor * x.assimilation;
  to.breathing += factor * x.breathing;
  to.oxygen += factor * x.oxygen;
  to.carbon += factor * x.carbon;
  to.recovery += factor * x.recovery;
}

template <class Real>
struct StepOutcome {
  Water<Real> water;   ///< after the step
  Water<Real> error;   ///< estimate of its error
};

/// Where in the step, as a share of it, stage `s` looks; and how much of the rates' own change with time it takes in.
/// Both follow from the other coefficients: time is one more quantity whose derivative is one.
struct StageTimes {
  double look[6];
  double slope[6];
};
constexpr StageTimes stage_times(const numerics::RosenbrockMethod& m) {
  StageTimes t{};
  double k[6]{};  // of the quantity "time", in steps
  for (int s = 0; s < m.stages; ++s) {
    double inflow = 1.0;
    for (int j = 0; j < s; ++j) {
      t.look[s] += m.a[s][j] * k[j];
      inflow += m.c[s][j] * k[j];
    }
    if (!m.new_evaluation[s]) t.look[s] = t.look[s - 1];
    k[s] = m.gamma * inflow;
    t.slope[s] = k[s];
  }
  return t;
}

template <class Real>
inline Moment<Real> moment_between(const Moment<Real>& from, const Moment<Real>& change, double share) {
  return {from.growth_a + share * change.growth_a, from.growth_n + share * change.growth_n, from.decay_a + share * change.decay_a,
          from.decay_n + share * change.decay_n, from.ammonification + share * change.ammonification,
          from.gas_transfer + share * change.gas_transfer, from.carbon_transfer + share * change.carbon_transfer,
          from.k1 + share * change.k1, from.k2 + share * change.k2, from.kw + share * change.kw,
          from.ammonium_k + share * change.ammonium_k, from.oxygen_saturation + share * change.oxygen_saturation,
          from.carbon_dioxide_saturation + share * change.carbon_dioxide_saturation};
}

/// What a step needs to know of its place in the day.
template <class Real>
struct Place {
  const Day<Real>& day;
  const Moment<Real>& now;       ///< at the start of the step
  const Moment<Real>& at_start;  ///< of the day
  const Moment<Real>& change;    ///< over the day
  double share;                  ///< of the day that is over
  double share_per_day;
  bool steady;                   ///< nothing but loads changes over the day
  double from_middle;            ///< days from the middle of the day to the start of the step
};

/// Stages of a method, unrolled by the compiler: each is a constant of its own.
template <const numerics::RosenbrockMethod& method, int stage, class Real>
inline void take_stages(const Water<Real>& w, const Place<Real>& place, double step, const Linearised<Real>& l, const Extents<Real>& slope,
                        Extents<Real>& rates, Extents<Real>* k, Passed* passed) {
  if constexpr (stage < method.stages) {
    constexpr StageTimes times = stage_times(method);
    if constexpr (stage > 0 && method.new_evaluation[stage]) {
      const Real zero = w.ammonia * 0.0;
      Extents<Real> moved{zero, zero, zero, zero, zero, zero, zero, zero, zero, zero};
      Passed moved_passed{0.0, 0.0};
#pragma GCC unroll 6
      for (int j = 0; j < stage; ++j) {
        if (method.a[stage][j] == 0.0) continue;
        add(moved, method.a[stage][j], k[j]);
        moved_passed.time += method.a[stage][j] * passed[j].time;
        moved_passed.ramp += method.a[stage][j] * passed[j].ramp;
      }
      const Water<Real> there = water_after(w, moved, moved_passed, place.day);
      rates = place.steady ? process_rates(there, place.day, place.now)
                           : process_rates(there, place.day, moment_between(place.at_start, place.change,
                                                                            place.share + times.look[stage] * step * place.share_per_day));
    }
    Extents<Real> rho = rates;
    double inflow = 1.0, rising = place.from_middle + (times.look[stage] + times.slope[stage]) * step;
    const double per_step = 1.0 / step;
#pragma GCC unroll 6
    for (int j = 0; j < stage; ++j) {
      add(rho, method.c[stage][j] * per_step, k[j]);
      inflow += method.c[stage][j] * per_step * passed[j].time;
      rising += method.c[stage][j] * per_step * passed[j].ramp;
    }
    if (!place.steady) add(rho, times.slope[stage] * step, slope);
    passed[stage] = {l.g * inflow, l.g * rising};
    k[stage] = solved(rho, passed[stage], place.day, place.now, l);
    take_stages<method, stage + 1>(w, place, step, l, slope, rates, k, passed);
  }
}

template <const numerics::RosenbrockMethod& method, class Real>
inline StepOutcome<Real> implicit_step(const Water<Real>& w, const Place<Real>& place, double step, const Extents<Real>& rates_now,
                                       const Extents<Real>& slope, Linearised<Real>& l) {
  prepare(place.day, place.now, step * method.gamma, l);
  Extents<Real> rates = rates_now;
  Extents<Real> k[method.stages];
  Passed passed[method.stages];
  take_stages<method, 0>(w, place, step, l, slope, rates, k, passed);
  const Real zero = w.ammonia * 0.0;
  Extents<Real> total{zero, zero, zero, zero, zero, zero, zero, zero, zero, zero};
  Extents<Real> off = total;
  Passed total_passed{0.0, 0.0}, off_passed{0.0, 0.0};
#pragma GCC unroll 6
  for (int s = 0; s < method.stages; ++s) {
    if (method.m[s] != 0.0) add(total, method.m[s], k[s]);
    total_passed.time += method.m[s] * passed[s].time;
    total_passed.ramp += method.m[s] * passed[s].ramp;
    if (method.e[s] != 0.0) add(off, method.e[s], k[s]);
    off_passed.time += method.e[s] * passed[s].time;
    off_passed.ramp += method.e[s] * passed[s].ramp;
  }
  const Water<Real> none{zero, zero, zero, zero, zero, zero, zero, zero, zero, zero, zero};
  return {water_after(w, total, total_passed, place.day), water_after(none, off, off_passed, place.day)};
}

/// A first-order step that cannot go below zero and keeps every balance: each process is slowed by the neediest of what it draws on.
/// Source  The idea of one factor for all terms of a process is that of [bruggeman2007].
template <class Real>
inline Water<Real> cautious_step(const Water<Real>& w, const Day<Real>& day, const Moment<Real>& now, double from_middle, double step) {
  const Extents<Real> r = process_rates(w, day, now);
  const Real tiny = w.ammonia * 0.0 + 1e-30;
  using namespace stoichiometry;
  const Real none = w.ammonia * 0.0;
  // Fraction of each quantity that the processes together would draw off in the step.
  const Real outgassed_o = largest_of(-r.oxygen, none), outgassed_c = largest_of(-r.carbon, none);
  const Real on_ammonia = step * (r.a * (day.inverse_yield_a + biomass_nitrogen) + r.n * biomass_nitrogen) / (w.ammonia + tiny);
  const Real on_nitrite = step * (r.n * day.inverse_yield_n + r.assimilation) / (w.nitrite + tiny);
  const Real decay = r.decay_a + r.decay_n;
  const Real on_oxygen = step * (r.breathing + (1.0 - inert_share) * decay + outgassed_o +
                                 ammonia_to_nitrite_mg_o2_per_mg_n * r.a * day.inverse_yield_a +
                                 nitrite_to_nitrate_mg_o2_per_mg_n * r.n * day.inverse_yield_n) / (w.oxygen + tiny);
  const Real on_alkalinity = step * charge * (2.0 * r.a * day.inverse_yield_a + biomass_nitrogen * (r.a + r.n)) / (w.alkalinity + tiny);
  const Real on_carbon = step * (biomass_carbon * (r.a + r.n) + outgassed_c) / (w.carbon + tiny);
  const Real shared = largest_of(on_oxygen, largest_of(on_alkalinity, on_carbon));
  Extents<Real> x;
  x.a = step * r.a / (1.0 + largest_of(shared, on_ammonia));
  x.n = step * r.n / (1.0 + largest_of(largest_of(shared, on_ammonia), on_nitrite));
  x.assimilation = where_positive(x.n, r.assimilation * x.n / (r.n + tiny), none);
  x.decay_a = step * r.decay_a / (1.0 + largest_of(step * now.decay_a + none, on_oxygen));
  x.decay_n = step * r.decay_n / (1.0 + largest_of(step * now.decay_n + none, on_oxygen));
  x.breathing = step * r.breathing / (1.0 + on_oxygen);
  x.ammonification = step * r.ammonification / (1.0 + step * now.ammonification);
  x.oxygen = step * (r.oxygen + outgassed_o) / (1.0 + step * now.gas_transfer) - step * outgassed_o / (1.0 + largest_of(on_oxygen, step * now.gas_transfer));
  x.carbon = step * (r.carbon + outgassed_c) / (1.0 + step * now.carbon_transfer) - step * outgassed_c / (1.0 + largest_of(on_carbon, step * now.carbon_transfer));
  x.recovery = step * r.recovery / (1.0 + step * day.inverse_recovery);
  return water_after(w, x, {step, step * (from_middle + 0.5 * step)}, day);
}

}  // namespace
}  // namespace redd::tank
