#include "heat/fit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "numerics/weighted_samples.h"

namespace redd::heat {
namespace {

constexpr Hours longest_stretch{24.0}, longest_gap{3.0};
constexpr std::size_t fewest_in_stretch = 3;
constexpr int fewest_readings = 6;
constexpr double sd_per_half_width = 1.0 / 1.6448536269514722;  // of a 90 % interval
constexpr double noise_degrees = 4.0, noise_sd_c = 0.1;
constexpr std::size_t worlds_wanted = 200;

/// Sums of products, projected off each stretch's own start: all the grid needs to know of the log at one conductance.
struct Sums {
  double yy = 0, qy = 0, py = 0, qq = 0, qp = 0, pp = 0;
  double log_starts = 0;  ///< sum of log of the starts' weight, from integrating them out
  double squares(double q, double p) const {
    return std::max(0.0, yy - 2 * q * qy - 2 * p * py + q * q * qq + 2 * q * p * qp + p * p * pp);
  }
};

class Log {
 public:
  Log(HeatCapacity capacity, const std::optional<Chiller>& chiller, std::span<const HeatReading> readings)
      : capacity_j_per_k_(capacity.j_per_k()), chiller_(chiller), readings_(readings) {
    for (std::size_t first = 0; first + 1 < readings.size();) {
      std::size_t last = first;
      while (last + 1 < readings.size() && readings[last].chiller_share && readings[last + 1].at - readings[last].at <= longest_gap &&
             readings[last + 1].at - readings[first].at <= longest_stretch)
        ++last;
      if (last + 1 - first >= fewest_in_stretch) stretches_.push_back({first, last});
      first = last + 1;
    }
    for (const auto& [first, last] : stretches_) used_ += static_cast<int>(last + 1 - first);
  }

  int used() const { return used_; }
  int stretches() const { return static_cast<int>(stretches_.size()); }
  /// Degrees of freedom left after the stretches' starts.
  double free_readings() const { return static_cast<double>(used_) - static_cast<double>(stretches_.size()); }
  bool chiller_ran() const {
    for (const auto& [first, last] : stretches_)
      for (std::size_t i = first; i < last; ++i)
        if (chiller_ && *readings_[i].chiller_share > 0.0) return true;
    return false;
  }

  Sums sums(double ua_w_per_k) const {
    Sums sums;
    for (const auto& [first, last] : stretches_) {
      const auto c = columns(first, last, ua_w_per_k);
      double ee = 0, ey = 0, eq = 0, ep = 0, yy = 0, qy = 0, py = 0, qq = 0, qp = 0, pp = 0;
      for (std::size_t i = 0; i < c.start.size(); ++i) {
        ee += c.start[i] * c.start[i], ey += c.start[i] * c.y[i], eq += c.start[i] * c.q[i], ep += c.start[i] * c.p[i];
        yy += c.y[i] * c.y[i], qy += c.q[i] * c.y[i], py += c.p[i] * c.y[i];
        qq += c.q[i] * c.q[i], qp += c.q[i] * c.p[i], pp += c.p[i] * c.p[i];
      }
      sums.yy += yy - ey * ey / ee, sums.qy += qy - eq * ey / ee, sums.py += py - ep * ey / ee;
      sums.qq += qq - eq * eq / ee, sums.qp += qp - eq * ep / ee, sums.pp += pp - ep * ep / ee;
      sums.log_starts += std::log(ee);
    }
    return sums;
  }

  /// Of how large a share the readings count when residuals about one curve hang together: 1 / (1 + 2 x the sum of their correlations),
  /// summed up to the first that chance explains.
  double credit(double ua_w_per_k, double q, double p) const {
    constexpr std::size_t longest_lag = 48;
    std::array<double, longest_lag + 1> products{};
    for (const auto& [first, last] : stretches_) {
      const auto c = columns(first, last, ua_w_per_k);
      std::vector<double> r(c.y.size());
      double ee = 0, er = 0;
      for (std::size_t i = 0; i < r.size(); ++i) {
        r[i] = c.y[i] - q * c.q[i] - p * c.p[i];
        ee += c.start[i] * c.start[i], er += c.start[i] * r[i];
      }
      for (std::size_t i = 0; i < r.size(); ++i) r[i] -= er / ee * c.start[i];
      for (std::size_t lag = 0; lag <= longest_lag; ++lag)
        for (std::size_t i = lag; i < r.size(); ++i) products[lag] += r[i] * r[i - lag];
    }
    if (!(products[0] > 0.0)) return 1.0;
    const double chance = 2.0 / std::sqrt(free_readings());
    const double next = products[1] / products[0];
    if (next <= chance) return 1.0;
    double time = 1.0;
    for (std::size_t lag = 1; lag <= longest_lag && products[lag] / products[0] > chance; ++lag) time += 2.0 * products[lag] / products[0];
    // The curve has swallowed part of a slow disturbance: the correlation is raised by what fitting a mean alone takes from it.
    const double raised = std::min(0.97, next + (1.0 + 3.0 * next) * stretches() / used_);
    time = std::max(time, (1.0 + raised) / (1.0 - raised));
    return 1.0 / time;
  }

 private:
  /// Water = start * T0 + what room and known heat make of it + q * (chiller at factor 1) + p * (a watt); y is the water less the known part.
  struct Columns {
    std::vector<double> start, y, q, p;
  };

  Columns columns(std::size_t first, std::size_t last, double ua_w_per_k) const {
    Columns c;
    double start = 1.0, known = 0.0, q = 0.0, p = 0.0;
    const double origin_c = readings_[first].water.c();  // kept near zero so that the sums of squares keep their digits
    for (std::size_t i = first;; ++i) {
      c.start.push_back(start), c.y.push_back(readings_[i].water.c() - origin_c - known), c.q.push_back(q), c.p.push_back(p);
      if (i == last) return c;
      const HeatReading &here = readings_[i], &next = readings_[i + 1];
      const double room_c = 0.5 * (here.room.c() + next.room.c()), water_c = 0.5 * (here.water.c() + next.water.c());
      const double kept = std::exp(-(next.at - here.at).count() * 3600.0 * ua_w_per_k / capacity_j_per_k_), gone = 1.0 - kept;
      const double cooling_w =
          chiller_ ? *here.chiller_share * cooling_power(*chiller_, Temperature::from_c(water_c), Temperature::from_c(room_c)).w() : 0.0;
      start *= kept;
      known = kept * known + gone * (room_c - origin_c + here.known_heat.w() / ua_w_per_k);
      q = kept * q - gone * cooling_w / ua_w_per_k;
      p = kept * p + gone / ua_w_per_k;
    }
  }

  double capacity_j_per_k_;
  const std::optional<Chiller>& chiller_;
  std::span<const HeatReading> readings_;
  std::vector<std::pair<std::size_t, std::size_t>> stretches_;  ///< first and last reading
  int used_ = 0;
};

/// A normal prior of one coordinate, and the nodes at which the posterior is asked.
struct Axis {
  double mean, sd;
  double from, to;
  std::size_t count;

  Axis(double prior_mean, double prior_sd, std::size_t nodes)
      : mean(prior_mean), sd(prior_sd), from(mean - 5 * sd), to(mean + 5 * sd), count(sd > 0 ? nodes : 1) {}
  double step() const { return count > 1 ? (to - from) / static_cast<double>(count - 1) : 0.0; }
  double at(std::size_t i) const { return count > 1 ? from + static_cast<double>(i) * step() : mean; }
  double log_prior(double x) const { return sd > 0 ? -0.5 * (x - mean) * (x - mean) / (sd * sd) : 0.0; }
  void narrow(double center, double spread) {
    if (count == 1) return;
    const double half = std::max(4.5 * spread, 2.0 * step());  // a spread below the step is not known better than the step
    from = center - half, to = center + half;
  }
};

struct Grid {
  Axis ua, q, p;  ///< log conductance, log factor, own heat in W
  std::vector<double> weights;
  double best_squares = 0;
  std::array<double, 3> best{};

  std::size_t index(std::size_t i, std::size_t j, std::size_t k) const { return (i * q.count + j) * p.count + k; }

  void weigh(const Log& log, double credit) {
    std::vector<double> logs(ua.count * q.count * p.count);
    double highest = -HUGE_VAL;
    for (std::size_t i = 0; i < ua.count; ++i) {
      const Sums sums = log.sums(std::exp(ua.at(i)));
      for (std::size_t j = 0; j < q.count; ++j)
        for (std::size_t k = 0; k < p.count; ++k) {
          const double own = p.at(k), squares = sums.squares(std::exp(q.at(j)), own);
          const double fit = -0.5 * (noise_degrees + log.free_readings()) * std::log(noise_degrees * noise_sd_c * noise_sd_c + squares) -
                             0.5 * sums.log_starts;
          const double value = own < 0.0 ? -HUGE_VAL : credit * fit + ua.log_prior(ua.at(i)) + q.log_prior(q.at(j)) + p.log_prior(own);
          logs[index(i, j, k)] = value;
          if (value > highest) highest = value, best_squares = squares, best = {ua.at(i), q.at(j), own};
        }
    }
    weights = numerics::normalised_weights(logs);
  }

  /// Weight of each node of one axis.
  std::vector<double> marginal(int axis) const {
    std::vector<double> sum((axis == 0 ? ua : axis == 1 ? q : p).count, 0.0);
    for (std::size_t i = 0; i < ua.count; ++i)
      for (std::size_t j = 0; j < q.count; ++j)
        for (std::size_t k = 0; k < p.count; ++k) sum[axis == 0 ? i : axis == 1 ? j : k] += weights[index(i, j, k)];
    return sum;
  }

  static std::vector<double> nodes(const Axis& axis) {
    std::vector<double> all;
    for (std::size_t i = 0; i < axis.count; ++i) all.push_back(axis.at(i));
    return all;
  }

  void narrow(double widen) {
    for (int a = 0; a < 3; ++a) {
      Axis& axis = a == 0 ? ua : a == 1 ? q : p;
      const auto weight = marginal(a), value = nodes(axis);
      axis.narrow(numerics::weighted_mean(value, weight), widen * numerics::weighted_sd(value, weight));
    }
  }

  std::array<double, 3> interval(int a) const {
    const Axis& axis = a == 0 ? ua : a == 1 ? q : p;
    if (axis.count == 1) return {axis.mean, axis.mean, axis.mean};
    const auto weight = marginal(a), value = nodes(axis);
    const auto quantile = [&](double share) { return numerics::weighted_quantile(value, weight, share); };
    return {quantile(0.05), quantile(0.5), quantile(0.95)};
  }

  /// Equally likely worlds by systematic resampling through the grid: no random number needed.
  std::vector<HeatWorld> worlds() const {
    std::vector<HeatWorld> all;
    double passed = 0.0;
    for (std::size_t i = 0; i < ua.count; ++i)
      for (std::size_t j = 0; j < q.count; ++j)
        for (std::size_t k = 0; k < p.count; ++k) {
          passed += weights[index(i, j, k)];
          while (all.size() < worlds_wanted && passed > (static_cast<double>(all.size()) + 0.5) / worlds_wanted)
            all.push_back({Conductance::from_w_per_k(std::exp(ua.at(i))), std::exp(q.at(j)), Power::from_w(p.at(k))});
        }
    return all;
  }
};

Axis log_axis(double low, double mid, double high, std::size_t nodes) {
  return {std::log(mid), std::log(high / low) * 0.5 * sd_per_half_width, nodes};
}

std::optional<Problem> unusable(std::span<const HeatReading> readings) {
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (readings[i].chiller_share && !(*readings[i].chiller_share >= 0.0 && *readings[i].chiller_share <= 1.0))
      return Problem{"out_of_range", "chiller_share", said("Reading {0} of the log has a chiller share outside 0 to 1.", i + 1)};
    if (!std::isfinite(readings[i].water.c()) || !std::isfinite(readings[i].room.c()))
      return Problem{"not_a_number", "water", said("Reading {0} of the log holds no temperature. Leave such readings out.", i + 1)};
    if (i > 0 && !(readings[i].at > readings[i - 1].at))
      return Problem{"not_rising", "at", said("Reading {0} of the log is not later than the one before. Sort the log by time.", i + 1)};
  }
  return std::nullopt;
}

}  // namespace

Result<HeatFit> fit_heat(HeatCapacity capacity, const std::optional<Chiller>& chiller, const HeatPrior& prior, std::span<const HeatReading> readings) {
  if (auto problem = unusable(readings)) return *std::move(problem);
  const Log log(capacity, chiller, readings);
  if (log.used() < fewest_readings)
    return Problem{"too_few_readings", "readings",
                   said("The log has too few connected readings to learn from: it takes {0}, at most 3 hours apart, with the chiller known to run or not.", fewest_readings)};
  const bool ran = log.chiller_ran();
  const auto& ua = prior.conductance;
  const auto& factor = prior.chiller_factor;
  const double own_sd = (prior.own_heat.high - prior.own_heat.low).w() * 0.5 * sd_per_half_width;
  Grid grid{log_axis(ua.low.w_per_k(), ua.mid.w_per_k(), ua.high.w_per_k(), 49), log_axis(factor.low, factor.mid, factor.high, ran ? 49 : 25),
            Axis(prior.own_heat.mid.w(), own_sd, 25), {}};
  // The grid closes in on the posterior; then the credit of the log is known, and once more with that.
  for (int pass = 0; pass < 5; ++pass) {
    grid.weigh(log, 1.0);
    grid.narrow(1.0);
  }
  const double credit = log.credit(std::exp(grid.best[0]), std::exp(grid.best[1]), grid.best[2]);
  grid.narrow(1.0 / std::sqrt(credit));
  for (int pass = 0; pass < 3; ++pass) {
    if (pass > 0) grid.narrow(1.0);
    grid.weigh(log, credit);
  }

  const auto u = grid.interval(0), q = grid.interval(1), p = grid.interval(2);
  const double sd_c = std::sqrt(grid.best_squares / std::max(1.0, log.free_readings()));
  const auto conductance_of = [](double x) { return Conductance::from_w_per_k(std::exp(x)); };
  return HeatFit{.conductance = {conductance_of(u[0]), conductance_of(u[1]), conductance_of(u[2]), Support::inferred},
                 .chiller_factor = {std::exp(q[0]), std::exp(q[1]), std::exp(q[2]), ran ? Support::inferred : Support::assumed},
                 .own_heat = {Power::from_w(p[0]), Power::from_w(p[1]), Power::from_w(p[2]), Support::inferred},
                 .worlds = grid.worlds(),
                 .residual_sd_c = sd_c,
                 .credit_fraction = credit,
                 .follows_model = sd_c <= 0.5,
                 .readings_used = log.used(),
                 .stretches = log.stretches()};
}

std::vector<HeatReading> with_chiller_from_set_point(std::vector<HeatReading> readings, const Thermostat& thermostat) {
  const Temperature starts = thermostat.set_point + 0.5 * thermostat.band, stops = thermostat.set_point - 0.5 * thermostat.band;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    // The state must hold until the next reading, so that one must lie outside the band too.
    const Temperature here = readings[i].water, next = i + 1 < readings.size() ? readings[i + 1].water : here;
    readings[i].chiller_share = here > starts && next > starts ? std::optional(1.0) : here < stops && next < stops ? std::optional(0.0) : std::nullopt;
  }
  return readings;
}

HeatDoubt doubt_of(const HeatFit& fit) {
  const double mid_w_per_k = fit.conductance.mid.w_per_k();
  return {{fit.conductance.low.w_per_k() / mid_w_per_k, 1.0, fit.conductance.high.w_per_k() / mid_w_per_k, Support::inferred},
          {fit.chiller_factor.low / fit.chiller_factor.mid, 1.0, fit.chiller_factor.high / fit.chiller_factor.mid, fit.chiller_factor.support}};
}

}  // namespace redd::heat
