#include "heat/trajectory.h"

#include <algorithm>
#include <cmath>

#include "quantities/result.h"

namespace redd::heat {
namespace {

constexpr int most_segments = 500;
constexpr Hours longest_segment{0.25};  // the chiller's capacity is taken as straight in temperature within it

bool runs(Working works, bool wanted) { return works == Working::stuck_on || (works == Working::normal && wanted); }

/// The two temperatures between which nothing switches, for the present state of the machines.
struct Switching {
  Temperature set_point;
  TemperatureChange half_band;
  Temperature chiller_starts() const { return set_point + half_band; }
  Temperature chiller_stops() const { return set_point - half_band; }
  Temperature heater_starts() const { return set_point - 2.0 * half_band; }
  Temperature heater_stops() const { return set_point - half_band; }

  void decide(WaterState& state) const {
    if (state.water >= chiller_starts()) state.chiller_on = true;
    if (state.water <= chiller_stops()) state.chiller_on = false;
    if (state.water <= heater_starts()) state.heater_on = true;
    if (state.water >= heater_stops()) state.heater_on = false;
  }
  /// Temperature at which one of the machines would next switch if the water moved that way.
  Temperature next(const WaterState& state, bool rising) const {
    constexpr auto far = TemperatureChange::from_c(1e6);
    if (rising) {
      const Temperature chiller = state.chiller_on ? set_point + far : chiller_starts();
      return std::min(chiller, state.heater_on ? heater_stops() : set_point + far);
    }
    const Temperature chiller = state.chiller_on ? chiller_stops() : set_point - far;
    return std::max(chiller, state.heater_on ? set_point - far : heater_starts());
  }
};

/// What acts on the water while nothing switches.
struct Segment {
  Power own, heater, cooling, electric;
  double cooling_slope_w_per_k;
  Relaxation drift;
};

Segment segment(const TankHeat& tank, const Equipment& equipment, const WaterState& state, Temperature room, int hour) {
  const bool cools = equipment.chiller && runs(equipment.chiller_works, state.chiller_on);
  const bool heats = runs(equipment.heater_works, state.heater_on);
  const Power zero = Power::from_w(0.0);
  const Power own = own_heat(tank, hour), heater = heats ? equipment.heater : zero;
  const Power cooling = cools ? cooling_power(*equipment.chiller, state.water, room) : zero;
  const double slope_w_per_k = cools ? equipment.chiller->water_slope_per_c * cooling.w() : 0.0;
  // UA (room - T) + P - Q0 - Q1 (T - T0), written from the present temperature so that nothing large cancels.
  const Power net = tank.conductance * (room - state.water) + own + heater - cooling;
  return {own, heater, cooling, (cools ? electric_power(*equipment.chiller, state.water, room) : zero) + heater, slope_w_per_k,
          relaxation(tank.capacity, tank.conductance + Conductance::from_w_per_k(slope_w_per_k), state.water, net)};
}

/// One step; adds to the run's sums and returns the share of it the chiller ran.
double advance(Trajectory& run, WaterState& state, const TankHeat& tank, const Equipment& equipment, const Switching& switching, Temperature room,
               int hour, Hours step) {
  Hours left = step, cooled{0.0};
  for (int n = 0; left.count() > 0.0; ++n) {
    switching.decide(state);
    const Segment now = segment(tank, equipment, state, room, hour);
    const bool too_quick = n >= most_segments;
    Hours span = too_quick ? left : std::min(left, longest_segment);
    const Temperature before = state.water;
    if (too_quick) {  // held where it is: whatever comes in is taken out
      const Energy in = (tank.conductance * (room - before) + now.own) * span;
      run.gained = run.gained + in;
      (in.j() > 0.0 ? run.removed : run.from_heater) = (in.j() > 0.0 ? run.removed : run.from_heater) + (in.j() > 0.0 ? in : -1.0 * in);
      run.electric = run.electric + 0.5 * (now.electric * span);
      return (cooled + 0.5 * span) / step;
    }
    const bool rising = now.drift.settles_at > before;
    const Temperature stop = switching.next(state, rising);
    bool switches = false;
    if (const auto until = now.drift.time_to(before, stop); until && *until <= span) {
      span = *until;
      switches = true;
    }
    const Temperature mean = now.drift.mean_over(before, span);
    // Landing exactly on the switching temperature, so that rounding cannot miss it.
    state.water = switches ? stop : now.drift.after(before, span);
    run.gained = run.gained + (tank.conductance * (room - mean) + now.own) * span;
    run.removed = run.removed + (now.cooling + Power::from_w(now.cooling_slope_w_per_k * (mean - before).c())) * span;
    run.from_heater = run.from_heater + now.heater * span;
    run.electric = run.electric + now.electric * span;
    if (now.cooling.w() > 0.0) cooled += span;
    run.coldest = std::min(run.coldest, state.water);
    run.warmest = std::max(run.warmest, state.water);
    left -= span;
  }
  return std::clamp(cooled / step, 0.0, 1.0);
}

std::optional<Hours> first_crossing(const Trajectory& run, double sign, Temperature limit) {
  const auto beyond = [&](Temperature t) { return sign * (t - limit).c() >= 0.0; };
  for (std::size_t i = 0; i < run.water.size(); ++i) {
    if (!beyond(run.water[i])) continue;
    if (i == 0) return Hours(0.0);
    const double share = (limit - run.water[i - 1]).c() / (run.water[i] - run.water[i - 1]).c();
    return (static_cast<double>(i - 1) + share) * run.step;
  }
  return std::nullopt;
}

}  // namespace

Trajectory trajectory(const TankHeat& tank, const Equipment& equipment, const WaterState& start, std::span<const Temperature> rooms,
                      std::span<const Temperature> set_points, TemperatureChange band, int first_hour, Hours step,
                      std::span<const WaterChangeAt> changes) {
  require(set_points.size() == 1 || set_points.size() == rooms.size(), "trajectory", "one set-point, or one for each step");
  require(band.c() > 0.0 && step.count() > 0.0, "trajectory", "band and step must be above zero");
  const Energy none = Energy::from_j(0.0);
  Trajectory run{{start.water}, {}, step, start.water, start.water, none, none, none, none, none, start};
  run.water.reserve(rooms.size() + 1);
  run.duty.reserve(rooms.size());
  WaterState state = start;
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    for (const WaterChangeAt& change : changes) {
      if (change.step != i) continue;
      const Temperature mixed = state.water + change.fraction * (change.source - state.water);
      run.from_changes = run.from_changes + tank.capacity * (mixed - state.water);
      state.water = mixed;
      run.coldest = std::min(run.coldest, mixed);
      run.warmest = std::max(run.warmest, mixed);
    }
    const Switching switching{set_points[set_points.size() == 1 ? 0 : i], 0.5 * band};
    const int hour = (first_hour + static_cast<int>(static_cast<double>(i) * step.count())) % 24;
    run.duty.push_back(advance(run, state, tank, equipment, switching, rooms[i], hour, step));
    run.water.push_back(state.water);
  }
  run.end = state;
  return run;
}

std::optional<Hours> first_at_or_above(const Trajectory& run, Temperature limit) { return first_crossing(run, 1.0, limit); }
std::optional<Hours> first_at_or_below(const Trajectory& run, Temperature limit) { return first_crossing(run, -1.0, limit); }

}  // namespace redd::heat
