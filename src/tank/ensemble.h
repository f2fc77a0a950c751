#pragma once
// Many possible tanks at once (particles), moved forward together. Start at Ensemble and advance(); what keepers do to the water
// between readings is in jumps.h, where parameters come from in prior.h, the model itself in processes.h.
//
//   Ensemble particles(2000, volume_l);
//   particles.set(i, state, parameters);                       // or write whole columns
//   advance(particles, forcing, 0.0, 7.0);                     // a week
//   change_water(particles, 40.0, source);                     // jumps.h
//   const auto nitrite = particles.column(Quantity::nitrite);  // one number a particle, mg N/L

#include <cstdint>
#include <span>
#include <vector>

#include "numerics/workers.h"
#include "tank/forcing.h"
#include "tank/state.h"

namespace redd::tank {

/// Particles of one tank. Volume and temperature are the tank's and shared; all else has one value a particle.
///
/// Shape   each column is contiguous, size() long. Four neighbours (eight in single precision) share their time steps, so the answer depends on the order of
///         particles, within the tolerance; it never depends on the number of threads.
class Ensemble {
 public:
  explicit Ensemble(std::size_t size, double volume_l);

  std::size_t size() const { return size_; }
  std::span<double> column(Quantity quantity);
  std::span<const double> column(Quantity quantity) const;
  std::span<double> column(Parameter parameter);
  std::span<const double> column(Parameter parameter) const;

  TankState state(std::size_t particle) const;
  TankParameters parameters(std::size_t particle) const;
  void set(std::size_t particle, const TankState& state, const TankParameters& parameters);

  /// Particle i becomes a copy of the present particle ancestors[i] (state, parameters and step size).
  /// The new ensemble has ancestors.size() particles.
  void select(std::span<const std::uint32_t> ancestors);
  /// Particle `to` becomes a copy of particle `from` of another ensemble of the same tank.
  void copy_particle(std::size_t to, const Ensemble& source, std::size_t from);

  double volume_l() const { return volume_l_; }
  void set_volume_l(double volume_l) { volume_l_ = volume_l; }
  /// Temperature at the end of the latest advance(); NaN before the first.
  double temperature_c() const { return temperature_c_; }
  void set_temperature_c(double temperature_c) { temperature_c_ = temperature_c; }

  /// For advance(): columns with padding to whole blocks of lanes, and the step each particle last used.
  double* padded(Quantity quantity) { return values_.data() + static_cast<std::size_t>(quantity) * stride_; }
  const double* padded(Parameter parameter) const {
    return values_.data() + (quantity_count + static_cast<std::size_t>(parameter)) * stride_;
  }
  double* step_days() { return values_.data() + (quantity_count + parameter_count) * stride_; }
  std::size_t stride() const { return stride_; }

 private:
  std::size_t size_;
  std::size_t stride_;
  double volume_l_;
  double temperature_c_;
  std::vector<double> values_;  // column after column: quantities, parameters, last step
};

/// How exact advance() is: error allowed in one step, relative to the value plus a floor of each quantity (floors.h in detail/).
/// At the default the whole path stays within 1e-4 of the exact one (docs/decisions, integrator).
struct Tolerance {
  double relative = 4e-7;
  /// Days in a row that hardly differ are taken in one piece of up to a week, so that quiet weeks cost few steps (conditions.cpp says
  /// what "hardly" is). What loads bring in all stays the same.
  bool join_days = false;
  /// The floors, times this: with 50 the step no longer cares about ammonia below 0.05 mg N/L, which no card shows.
  double floor_factor = 1.0;
  /// Eight particles at a time in single precision: half the work. For relative tolerances of a thousandth and more.
  bool single_precision = false;

  /// For many particles whose doubt is far larger anyway: typically 1e-4, now and then 1e-3, for a third of the work.
  static constexpr Tolerance for_inference() { return {.relative = 3e-5}; }
};

/// What happened on the way; `sound` false means a particle holds a value that is not a number and must not be believed.
struct AdvanceReport {
  std::int64_t steps = 0;            ///< accepted steps of blocks of four particles
  std::int64_t rejected = 0;
  std::int64_t cautious = 0;         ///< first-order positive steps taken where the step had become tiny
  bool sound = true;
};

/// Moves every particle from one time to another, days.
///
/// In      to_day >= from_day. No jump lies between them: split there.
/// Out     states never negative; nitrogen kept to rounding.
/// Shape   allocates little; some microseconds a particle and day at the default, less than one for_inference() (docs/decisions, integrator).
/// Errors  none thrown; see AdvanceReport.
AdvanceReport advance(Ensemble& ensemble, const Forcing& forcing, double from_day, double to_day, numerics::Workers& workers,
                      Tolerance tolerance = {});
/// The same on the caller's thread.
AdvanceReport advance(Ensemble& ensemble, const Forcing& forcing, double from_day, double to_day, Tolerance tolerance = {});

/// One tank, as an ensemble of one.
struct OneTank {
  TankState state;
  TankParameters parameters;
  double volume_l = 200.0;
};
AdvanceReport advance(OneTank& tank, const Forcing& forcing, double from_day, double to_day, Tolerance tolerance = {});

/// pH of each particle, from alkalinity and inorganic carbon; within 0.005 of chemistry::carbonate_from_dic() (pH 5.5-9.5).
///
/// Shape   `ph` is size() long.
void ph_of(const Ensemble& ensemble, double temperature_c, std::span<double> ph);
Ph ph_of(const TankState& state, Temperature temperature);

/// All nitrogen of a tank, mg N per litre, biomass and debris included: kept by advance() up to what the forcing brings.
double total_nitrogen_mg_n_per_l(const TankState& state);

/// Ammonia that the filter could turn over now, mg N/L/day: the rate of each step with substrate and oxygen in plenty,
/// the lesser of both steps, at this temperature.
///
/// Shape   one value a particle.
void capacity_of(const Ensemble& ensemble, double temperature_c, std::span<double> capacity_mg_n_per_l_per_day);

}  // namespace redd::tank
