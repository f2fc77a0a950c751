#pragma once
// How fast each process of processes.h runs in a given water, for one number or four lanes of numbers. All of it is rational in
// the quantities but for two square roots (pH), so a step costs a few divisions and no transcendental function.
// Internal linkage: each file that includes this compiles its own copy for its own vector unit.

#include "numerics/lanes.h"
#include "tank/processes.h"

namespace redd::tank {
namespace {

using numerics::Lanes;

[[maybe_unused, gnu::always_inline]] inline double square_root(double x) { return __builtin_sqrt(x); }
[[maybe_unused, gnu::always_inline]] inline double largest_of(double a, double b) { return a > b ? a : b; }
[[maybe_unused, gnu::always_inline]] inline double where_positive(double x, double then, double otherwise) { return x > 0.0 ? then : otherwise; }
using numerics::largest_of;
using numerics::square_root;
using numerics::where_positive;

/// The integrated quantities of one tank or of four.
template <class Real>
struct Water {
  Real organic, ammonia, nitrite, nitrate, a, n, debris, oxygen, alkalinity, carbon, shock;
};

/// How much of each process has happened (or happens each day).
template <class Real>
struct Extents {
  Real a, n, decay_a, decay_n, ammonification, assimilation, breathing, oxygen, carbon, recovery;
};

/// What changes with temperature: straight from one value to another over a day.
template <class Real>
struct Moment {
  Real growth_a, growth_n, decay_a, decay_n, ammonification;   // 1/day, crowding apart
  Real gas_transfer, carbon_transfer;                          // 1/day
  Real k1, k2, kw, ammonium_k;                                 // mmol/L
  Real oxygen_saturation, carbon_dioxide_saturation;           // mg/L, mmol/L
};

/// What stays the same over a day, for one tank or four.
template <class Real>
struct Day {
  Real half_ammonia, half_nitrite, half_oxygen_a, half_oxygen_n, half_alkalinity, inhibition;
  Real inverse_crowd_a, inverse_crowd_n;                       // 1 / the biomass that halves the rate of each mg
  Real inverse_recovery, inverse_yield_a, inverse_yield_n;
  Real inverse_hydrogen_activity;
  Real oxygen_use;                                             // by animals, mg/L/day
  Water<Real> inflow;                                          // steady, per litre and day: loads, and what evaporation concentrates
  Real ramp_ammonia, ramp_organic;                             // how loads of animals rise, per litre and day squared, around the middle of the stretch
};

/// Time that has passed for the steady inflow, and for the rising part of it: the integral of the time from the stretch's middle, days squared.
struct Passed {
  double time, ramp;
};

/// Hydrogen ion activity, mmol/L, from alkalinity and inorganic carbon.
///
/// Shape   the balance of bicarbonate, carbonate and hydroxide solved in closed form, then once more with the hydrogen ion's own charge;
///         no iteration. Within 0.005 pH of the full solution between pH 5.5 and 9.5 (9.0 where alkalinity is below 0.2 meq/L; tests/tank).
template <class Real>
[[gnu::always_inline]] inline Real hydrogen_for(const Real& alkalinity, const Real& carbon, const Moment<Real>& now, const Real& inverse_activity) {
  // A h^2 + (K1 (A - C) - Kw) h - K1 (K2 (2 C - A) + Kw (1 + K2/h)) = 0, the last term by the first answer. More alkalinity
  // than carbonate can carry (above pH 10.5) is left to hydroxide alone, so that h stays above zero.
  const Real four_over_k1 = 4.0 / now.k1;
  const Real water = now.kw / now.k1;
  const Real none = alkalinity * 0.0;
  const Real least = none + 1e-6;
  const Real first = largest_of(alkalinity, least);
  const Real b = carbon - first + water;
  const Real rough = now.k1 * (b + square_root(b * b + four_over_k1 * first * (now.k2 * largest_of(2.0 * carbon - first, none) + now.kw))) /
                     (2.0 * first);
  // Where alkalinity is almost gone the hydrogen ion itself balances part of the bicarbonate.
  const Real h = 2.0 * rough / (1.0 + square_root(1.0 + 4.0 * rough / first));
  const Real second = first + h * inverse_activity;
  const Real d = carbon - second + water;
  return now.k1 * (d + square_root(d * d + four_over_k1 * second * (now.k2 * largest_of(2.0 * carbon - second, none) + now.kw * (1.0 + now.k2 / h)))) /
         (2.0 * second);
}

/// Rate of each process, per day and litre.
template <class Real>
inline Extents<Real> process_rates(const Water<Real>& w, const Day<Real>& day, const Moment<Real>& now) {
  using namespace kinetics;
  constexpr double least_o = least_oxygen_mg_o2_per_l * least_oxygen_mg_o2_per_l;
  constexpr double least_n = least_ammonia_mg_n_per_l * least_ammonia_mg_n_per_l;
  const Real h = hydrogen_for(w.alkalinity, w.carbon, now, day.inverse_hydrogen_activity);
  // Products of Monod terms share one division each.
  const Real shared = w.alkalinity * (1.0 - w.shock) * w.oxygen;
  const Real shared_below = (day.half_alkalinity + w.alkalinity) * (1.0 + h * (1.0 / half_rate_hydrogen_mmol_per_l));
  const Real free_share = day.inhibition * (now.ammonium_k + h);  // inhibition term K/(K + un-ionized ammonia), cleared of fractions
  Extents<Real> r;
  r.a = now.growth_a * w.a * w.ammonia * shared /
        ((day.half_ammonia + w.ammonia) * (day.half_oxygen_a + w.oxygen) * (1.0 + w.a * day.inverse_crowd_a) * shared_below);
  r.n = now.growth_n * w.n * w.nitrite * shared * free_share /
        ((day.half_nitrite + w.nitrite) * (day.half_oxygen_n + w.oxygen) * (1.0 + w.n * day.inverse_crowd_n) * shared_below *
         (free_share + w.ammonia * now.ammonium_k));
  const Real oxygen_2 = w.oxygen * w.oxygen, ammonia_2 = w.ammonia * w.ammonia;
  const Real inverse = 1.0 / ((least_o + oxygen_2) * (least_n + ammonia_2));
  const Real breath = oxygen_2 * (least_n + ammonia_2) * inverse;
  r.decay_a = now.decay_a * w.a * breath;
  r.decay_n = now.decay_n * w.n * breath;
  r.assimilation = stoichiometry::biomass_nitrogen * least_n * (least_o + oxygen_2) * inverse * r.n;
  r.breathing = day.oxygen_use * breath;
  r.ammonification = now.ammonification * w.organic;
  r.oxygen = now.gas_transfer * (now.oxygen_saturation - w.oxygen);
  r.carbon = now.carbon_transfer * (now.carbon_dioxide_saturation - w.carbon * h * h / (h * h + now.k1 * h + now.k1 * now.k2));
  r.recovery = day.inverse_recovery * w.shock;
  return r;
}

/// The water after these extents and inflow: process_table() line by line.
template <class Real>
inline Water<Real> water_after(const Water<Real>& w, const Extents<Real>& x, const Passed& passed, const Day<Real>& day) {
  using namespace stoichiometry;
  constexpr double recycled = biomass_nitrogen * (1.0 - inert_share);
  const Real decay = x.decay_a + x.decay_n;
  const Real oxidised_a = x.a * day.inverse_yield_a, oxidised_n = x.n * day.inverse_yield_n;
  const Real assimilated = biomass_nitrogen * (x.a + x.n);
  const double time = passed.time;
  Water<Real> y;
  y.organic = w.organic + (recycled * decay - x.ammonification + day.inflow.organic * time + day.ramp_organic * passed.ramp);
  y.ammonia = w.ammonia + (x.ammonification + x.assimilation - oxidised_a - assimilated + day.inflow.ammonia * time + day.ramp_ammonia * passed.ramp);
  y.nitrite = w.nitrite + (oxidised_a - oxidised_n - x.assimilation + day.inflow.nitrite * time);
  y.nitrate = w.nitrate + (oxidised_n + day.inflow.nitrate * time);
  y.a = w.a + (x.a - x.decay_a + day.inflow.a * time);
  y.n = w.n + (x.n - x.decay_n + day.inflow.n * time);
  y.debris = w.debris + (inert_share * decay + day.inflow.debris * time);
  y.oxygen = w.oxygen + (x.oxygen - x.breathing - (1.0 - inert_share) * decay + x.a + x.n +
                         ammonia_to_nitrite_mg_o2_per_mg_n * (x.assimilation - oxidised_a) - nitrite_to_nitrate_mg_o2_per_mg_n * oxidised_n);
  y.alkalinity = w.alkalinity + (charge * (x.ammonification + 2.0 * (x.assimilation - oxidised_a) - assimilated) + day.inflow.alkalinity * time + charge * day.ramp_ammonia * passed.ramp);
  y.carbon = w.carbon + (x.carbon + breath_carbon * x.breathing + biomass_carbon * ((1.0 - inert_share) * decay - x.a - x.n) + day.inflow.carbon * time);
  y.shock = w.shock - x.recovery;
  return y;
}

}  // namespace
}  // namespace redd::tank
