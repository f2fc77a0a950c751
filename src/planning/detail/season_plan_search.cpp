#include "planning/detail/season_plan_search.h"

#include <algorithm>
#include <cmath>

#include "planning/detail/season_plan_bound.h"

namespace redd::planning::detail {
namespace {

constexpr std::size_t lane = 64;             // nodes worked on together: a fixed count lets the compiler use wide registers
constexpr std::size_t checkpoint_days = 16;  // layers kept; those between are worked out again, for the few nodes then needed
constexpr double hatch_nodes_coarser = 4.0;  // where hatch has a grid of two clocks: its nodes are as many times wider
constexpr double stray_chance = 1e-8;        // that a walk between nodes strays further than its slack on any day

/// A whole number of nodes and the part beyond.
struct Advance {
  std::ptrdiff_t whole = 0;
  float part = 0.0f;
};
Advance advance_of(double nodes) {
  const double nearest = std::round(nodes);
  if (std::abs(nodes - nearest) < 1e-7) return {static_cast<std::ptrdiff_t>(nearest), 0.0f};
  const double whole = std::floor(nodes);
  return {static_cast<std::ptrdiff_t>(whole), static_cast<float>(nodes - whole)};
}

using Row = std::vector<float>;

/// Values at the start of one day, by yesterday's set-point and progress.
struct Layer {
  Row early;  // [temperature][deviation][hatch node]
  Row late;   // [temperature][swim-up node]
};

/// Nodes needed on a day, both included; early ends before it begins when no node of it is needed.
struct Reach {
  std::ptrdiff_t early_low = 0, early_high = -1, late_low = 0, late_high = -1;
};

class Search {
 public:
  Search(const PlanModel& model, const std::vector<double>& grid_c, const ProgressNodes& nodes, double cost_a_change, bool exact_limits);
  SearchOutcome run();

 private:
  void prepare_clocks();
  void prepare_late(const ClockPair& slack);
  void prepare_early(const ClockPair& slack);
  ClockPair slack() const;
  double bound_terms() const;
  double turn(PlanStage stage, std::size_t day) const;
  std::vector<Reach> reaches(const ClockPair& from, std::size_t first, std::size_t last) const;
  void end_layer(Layer& layer) const;
  void join_grids(Layer& layer) const;
  void back_up(std::size_t day, const Layer& next, Layer& now, const Reach& reach);
  void back_up_late(std::size_t day, const Layer& next, Layer& now, const Reach& reach);
  void back_up_early(std::size_t day, const Layer& next, Layer& now, const Reach& reach);
  void finish_block(float* out, std::size_t out_stride, const float* add);
  double next_value(const Layer& next, std::size_t t, const ClockPair& clocks) const;
  /// Best choice from the true state; -1 when none keeps the limits.
  int choice(std::size_t day, const Layer& next, const ClockPair& clocks, int before, double before_c, bool free, double* value) const;
  bool early_matters(const ClockPair& at) const { return two_grids_ && at.hatch < early_end_; }
  float* late_row(Layer& l, std::size_t t) const { return l.late.data() + t * late_stride_; }
  const float* late_row(const Layer& l, std::size_t t) const { return l.late.data() + t * late_stride_; }
  std::size_t early_at(std::size_t t, std::size_t e) const { return (t * deviations_ + e) * early_stride_; }
  std::size_t calendar(std::size_t day) const { return day + recovery_; }

  const PlanModel& model_;
  const std::vector<double>& grid_c_;
  ProgressNodes nodes_;
  double cost_a_change_;
  bool exact_limits_;
  std::size_t recovery_, days_, temperatures_, deviations_ = 1;
  ClockPair start_;
  std::optional<double> before_c_;
  double spent_ = 0.0;  // score of the recovery days
  bool two_grids_ = false, hatch_matters_ = true;
  std::vector<ClockPair> rate_;
  std::vector<Advance> late_advance_, early_advance_, deviation_advance_;
  std::vector<std::size_t> window_low_, window_high_;  // of today's choices from yesterday's set-point
  std::size_t late_count_ = 0, late_stride_ = 0, early_count_ = 0, early_stride_ = 0, late_least_ = 0;
  std::vector<Advance> joins_;  // [deviation][node past hatch]: where it stands on the late grid
  double early_end_ = 0.0, penalty_ = 0.0;
  std::array<Row, plan_stage_count> late_passed_, early_passed_;  // early: hatch [node], others [deviation][node]
  Row late_cost_, early_cost_;                                    // [temperature]... as the layers
  std::vector<Row> scratch_;                                      // [level][temperature][lane]
};

Search::Search(const PlanModel& model, const std::vector<double>& grid_c, const ProgressNodes& nodes, double cost_a_change, bool exact_limits)
    : model_(model), grid_c_(grid_c), nodes_(nodes), cost_a_change_(cost_a_change), exact_limits_(exact_limits),
      recovery_(model.recovery_c().size()), days_(model.days() - recovery_), temperatures_(grid_c.size()) {
  if (model.question().water_now) before_c_ = model.question().water_now->c();
  for (std::size_t d = 0; d < recovery_; ++d) {
    const double c = model.recovery_c()[d];
    const auto here = model.living(start_);
    const auto amber = model.amber_c(c);
    spent_ -= cost_a_change_ + model.question().costs.kwh * model.kwh(c, d);
    for (std::size_t s = 0; s < amber.size(); ++s) spent_ -= model.question().costs.amber_c_day * here.share[s] * amber[s];
    const ClockPair added = model.a_day_at(c), after{start_.hatch + added.hatch, start_.swim_up + added.swim_up};
    for (const PlanStage stage : plan_stages) {
      const Passed& passed = model.passed(stage);
      spent_ += model.good_weight(stage, d) * (passed.at(model.clock_of(stage, after)) - passed.at(model.clock_of(stage, start_)));
    }
    start_ = after;
    before_c_ = c;
  }
  double worth = 1.0;
  for (const Wish& wish : model.question().wishes) worth += wish.weight;
  penalty_ = 10.0 * worth;
  hatch_matters_ = model.hatched_animals().end() > start_.hatch;
  two_grids_ = hatch_matters_ && !nodes.one_clock;
  prepare_clocks();
  const ClockPair slack_here = slack();
  prepare_late(slack_here);
  if (two_grids_) prepare_early(slack_here);
  std::size_t levels = 1;
  while ((std::size_t{1} << levels) <= temperatures_) ++levels;
  scratch_.assign(levels, Row(temperatures_ * lane, 0.0f));
}

void Search::prepare_clocks() {
  for (const double c : grid_c_) {
    const ClockPair r = model_.a_day_at(c);
    rate_.push_back(r);
    late_advance_.push_back(advance_of(r.swim_up / nodes_.swim_up_step));
    early_advance_.push_back(advance_of(r.hatch / nodes_.hatch_step));
    deviation_advance_.push_back(nodes_.one_clock ? Advance{} : advance_of((r.swim_up - nodes_.ratio * r.hatch) / nodes_.deviation_step));
  }
  for (std::size_t t = 0; t < temperatures_; ++t) {
    std::size_t low = t, high = t;
    while (low > 0 && model_.step_allowed(grid_c_[t], grid_c_[low - 1])) --low;
    while (high + 1 < temperatures_ && model_.step_allowed(grid_c_[t], grid_c_[high + 1])) ++high;
    window_low_.push_back(low);
    window_high_.push_back(high);
  }
}

/// How far a walk between nodes may stray from the true clocks, apart from stray_chance: Bernstein's inequality for independent steps
/// within one node (from memory).
ClockPair Search::slack() const {
  if (exact_limits_) return {};
  const double n = static_cast<double>(days_), log_chance = std::log(2.0 * n / stray_chance);
  // The variance of all roundings together: no more than the days allow, nor than the way to go on a clock allows.
  const auto gathered = [&](const std::vector<Advance>& all, bool by_hatch, double way) {
    double most = 0.0;
    for (std::size_t t = 0; t < temperatures_; ++t) {
      const double variance = static_cast<double>(all[t].part * (1.0f - all[t].part)), rate = by_hatch ? rate_[t].hatch : rate_[t].swim_up;
      most = std::max(most, rate > 0.0 ? std::min(n * variance, variance * (way / rate + 1.0)) : n * variance);
    }
    return most;
  };
  // t with t^2 / (2 (V + t / 3)) = log_chance, in nodes.
  const auto stray = [&](double variance) { return variance <= 0.0 ? 0.0 : log_chance / 3.0 + std::sqrt(log_chance * log_chance / 9.0 + 2.0 * variance * log_chance); };
  const double hatch_way = std::max(0.0, model_.hatched_animals().end() - start_.hatch), swim_up_way = std::max(0.0, model_.swum_up_animals().end() - start_.swim_up);
  ClockPair slack{stray(gathered(early_advance_, true, hatch_way)) * nodes_.hatch_step, stray(gathered(late_advance_, false, swim_up_way)) * nodes_.swim_up_step};
  if (!two_grids_) slack.hatch = slack.swim_up / nodes_.ratio;
  if (two_grids_) slack.swim_up += nodes_.ratio * slack.hatch + stray(gathered(deviation_advance_, true, hatch_way)) * nodes_.deviation_step;
  return slack;
}

void Search::prepare_late(const ClockPair& slack) {
  double end = std::max(model_.swum_up_animals().end(), start_.swim_up);
  for (const PlanStage stage : {PlanStage::swim_up, PlanStage::release_size})
    if (!model_.passed(stage).empty()) end = std::max(end, model_.passed(stage).end());
  if (hatch_matters_ && !two_grids_) end = std::max(end, nodes_.ratio * std::max(model_.hatched_animals().end(), model_.passed(PlanStage::hatch).end()));
  late_count_ = static_cast<std::size_t>(std::ceil(end / nodes_.swim_up_step)) + 2;
  std::ptrdiff_t most = 1;
  for (const Advance& a : late_advance_) most = std::max(most, a.whole + 2);
  late_stride_ = (late_count_ / lane + 2) * lane + static_cast<std::size_t>(most);
  for (std::size_t s = 0; s < plan_stage_count; ++s) late_passed_[s].assign(late_stride_, 1.0f);
  late_cost_.assign(temperatures_ * late_stride_, 0.0f);
  std::vector<std::array<double, 3>> amber;
  for (const double c : grid_c_) amber.push_back(model_.amber_c(c));
  const double weight = model_.question().costs.amber_c_day;
  for (std::size_t i = 0; i < late_stride_; ++i) {
    ClockPair at{0.0, static_cast<double>(i) * nodes_.swim_up_step};
    // Where hatch has its own grid, all have hatched on this one.
    at.hatch = hatch_matters_ && !two_grids_ ? at.swim_up / nodes_.ratio : std::max(start_.hatch, model_.hatched_animals().end()) + 1.0;
    for (const PlanStage stage : plan_stages)
      late_passed_[static_cast<std::size_t>(stage)][i] = static_cast<float>(model_.passed(stage).at(model_.clock_of(stage, at)));
    const auto living = model_.living(at, slack);
    for (std::size_t t = 0; t < temperatures_; ++t) {
      double cost = 0.0;
      for (std::size_t s = 0; s < 3; ++s) cost -= weight * living.share[s] * amber[t][s];
      if (!living.bear(grid_c_[t])) cost -= penalty_;
      late_cost_[t * late_stride_ + i] = static_cast<float>(cost);
    }
  }
}

void Search::prepare_early(const ClockPair& slack) {
  deviations_ = static_cast<std::size_t>(nodes_.deviations);
  early_end_ = std::max(model_.hatched_animals().end(), model_.passed(PlanStage::hatch).end());
  early_count_ = static_cast<std::size_t>(std::ceil(early_end_ / nodes_.hatch_step)) + 1;
  std::ptrdiff_t most = 1;
  for (const Advance& a : early_advance_) most = std::max(most, a.whole + 2);
  early_stride_ = (early_count_ / lane + 2) * lane + static_cast<std::size_t>(most);
  const double low = nodes_.ratio * early_end_ + nodes_.deviation_low;
  late_least_ = static_cast<std::size_t>(std::max(0.0, std::floor(low / nodes_.swim_up_step) - 1.0));
  for (std::size_t e = 0; e < deviations_; ++e)
    for (std::size_t i = early_count_; i < early_count_ + static_cast<std::size_t>(most); ++i) {
      const double swim_up = nodes_.ratio * static_cast<double>(i) * nodes_.hatch_step + nodes_.deviation_low + static_cast<double>(e) * nodes_.deviation_step;
      joins_.push_back(advance_of(std::clamp(swim_up / nodes_.swim_up_step, 0.0, static_cast<double>(late_count_))));
    }
  early_passed_[0].assign(early_stride_, 1.0f);
  for (const std::size_t s : {1u, 2u}) early_passed_[s].assign(deviations_ * early_stride_, 1.0f);
  early_cost_.assign(temperatures_ * deviations_ * early_stride_, 0.0f);
  std::vector<std::array<double, 3>> amber;
  for (const double c : grid_c_) amber.push_back(model_.amber_c(c));
  const double weight = model_.question().costs.amber_c_day;
  for (std::size_t i = 0; i < early_count_; ++i)
    for (std::size_t e = 0; e < deviations_; ++e) {
      ClockPair at{static_cast<double>(i) * nodes_.hatch_step, 0.0};
      at.swim_up = nodes_.ratio * at.hatch + nodes_.deviation_low + static_cast<double>(e) * nodes_.deviation_step;
      early_passed_[0][i] = static_cast<float>(model_.passed(PlanStage::hatch).at(at.hatch));
      for (const PlanStage stage : {PlanStage::swim_up, PlanStage::release_size})
        early_passed_[static_cast<std::size_t>(stage)][e * early_stride_ + i] = static_cast<float>(model_.passed(stage).at(at.swim_up));
      const auto living = model_.living(at, slack);
      for (std::size_t t = 0; t < temperatures_; ++t) {
        double cost = 0.0;
        for (std::size_t s = 0; s < 3; ++s) cost -= weight * living.share[s] * amber[t][s];
        if (!living.bear(grid_c_[t])) cost -= penalty_;
        early_cost_[early_at(t, e) + i] = static_cast<float>(cost);
      }
    }
}

/// Worth of good days is a sum of differences of "passed"; told by nodes it is what the weight loses or gains overnight.
double Search::turn(PlanStage stage, std::size_t day) const {
  const double before = day == 0 ? 0.0 : model_.good_weight(stage, calendar(day) - 1);
  return before - (day == days_ ? 0.0 : model_.good_weight(stage, calendar(day)));
}

/// By how much the search's value may lie below the optimum (see the decision record). A day's linear interpolation takes off at most half
/// the variance of its rounding times M, where -M bounds the second derivative of what any set-points earn from there on. M and the sum
/// of these terms are themselves largest values over all paths, worked out backward over wide cells of each clock.
double Search::bound_terms() const {
  double egg_change = 0.0, fry_change = 0.0, most_ratio = nodes_.ratio;
  for (const double c : grid_c_) {
    const auto amber = model_.amber_c(c);
    egg_change = std::max(egg_change, std::abs(amber[0] - amber[1]));
    fry_change = std::max(fry_change, std::abs(amber[1] - amber[2]));
    const ClockPair r = model_.a_day_at(c);
    if (r.hatch > 0.0) most_ratio = std::max(most_ratio, r.swim_up / r.hatch);
  }
  const double weight = model_.question().costs.amber_c_day;
  const auto variance = [](const Advance& a, double step) { return static_cast<double>(a.part * (1.0f - a.part)) * step * step; };
  ClockCurvature of_hatch, of_swim_up;
  of_hatch.end = std::max(model_.hatched_animals().end(), model_.passed(PlanStage::hatch).end());
  of_swim_up.end = static_cast<double>(late_count_) * nodes_.swim_up_step;
  of_swim_up.begin = start_.swim_up;
  of_hatch.begin = start_.hatch;
  of_swim_up.rounds_early_until = two_grids_ ? most_ratio * early_end_ : 0.0;
  for (std::size_t t = 0; t < temperatures_; ++t) {
    of_hatch.rate.push_back(rate_[t].hatch);
    of_swim_up.rate.push_back(rate_[t].swim_up);
    const double early = variance(early_advance_[t], nodes_.hatch_step), late = variance(late_advance_[t], nodes_.swim_up_step);
    // Where both clocks share a grid, the hatch clock is rounded with the swim-up clock.
    of_hatch.variance.push_back(two_grids_ ? early : late / (nodes_.ratio * nodes_.ratio));
    of_swim_up.variance.push_back(late);
    of_swim_up.early_variance.push_back(two_grids_ ? nodes_.ratio * nodes_.ratio * early + variance(deviation_advance_[t], nodes_.deviation_step) : 0.0);
  }
  for (std::size_t d = 0; d <= days_; ++d) {
    of_hatch.turns[0].push_back(turn(PlanStage::hatch, d));
    of_swim_up.turns[0].push_back(turn(PlanStage::swim_up, d));
    of_swim_up.turns[1].push_back(turn(PlanStage::release_size, d));
  }
  of_hatch.passed = {&model_.passed(PlanStage::hatch), nullptr};
  of_swim_up.passed = {&model_.passed(PlanStage::swim_up), &model_.passed(PlanStage::release_size)};
  of_hatch.living = &model_.hatched_animals();
  of_swim_up.living = &model_.swum_up_animals();
  of_hatch.living_weight = weight * egg_change;
  of_swim_up.living_weight = weight * fry_change;

  CurvatureSum hatch;
  if (hatch_matters_) hatch = curvature_sum(of_hatch);
  const CurvatureSum swim_up = curvature_sum(of_swim_up);
  double sum = hatch.sum + swim_up.sum;
  if (sum > 0.0) {
    if (two_grids_) sum += nodes_.swim_up_step * nodes_.swim_up_step / 8.0 * swim_up.most;  // once, from grid to grid
    // The tables of "passed" are straight between their own nodes, a quarter of the search's.
    const double table = model_.passed(PlanStage::swim_up).node();
    sum += table * table / 8.0 * (hatch.most + swim_up.most) + stray_chance * penalty_ * static_cast<double>(days_);
  }
  // Single precision: some ten operations a day on values of the wishes' size.
  return sum + 1e-7 * static_cast<double>(days_) * penalty_ / 10.0;
}

std::vector<Reach> Search::reaches(const ClockPair& from, std::size_t first, std::size_t last) const {
  const auto late_end = static_cast<std::ptrdiff_t>(late_count_) - 1, early_last = static_cast<std::ptrdiff_t>(early_count_) - 1;
  std::vector<Reach> all;
  Reach r;
  if (early_matters(from)) {
    r.early_low = static_cast<std::ptrdiff_t>(std::floor(from.hatch / nodes_.hatch_step));
    r.early_high = r.early_low + 1;
    r.late_low = static_cast<std::ptrdiff_t>(late_least_);
    r.late_high = -1;
  } else {
    r.early_low = early_last + 1;
    r.early_high = -1;
    r.late_low = static_cast<std::ptrdiff_t>(std::floor(from.swim_up / nodes_.swim_up_step));
    r.late_high = r.late_low + 1;
  }
  const bool from_early = early_matters(from);
  for (std::size_t d = first; d <= last; ++d) {
    Reach clipped = r;
    clipped.early_high = std::min(r.early_high, early_last);
    clipped.late_low = std::min(r.late_low, late_end);
    clipped.late_high = std::min(r.late_high, late_end);
    all.push_back(clipped);
    if (d == last) break;
    std::ptrdiff_t early_least = 1 << 20, early_most = 0, late_least = 1 << 20, late_most = 0;
    for (std::size_t t = 0; t < temperatures_; ++t) {
      if (!model_.equipment_holds(grid_c_[t], calendar(d))) continue;
      early_least = std::min(early_least, early_advance_[t].whole);
      early_most = std::max(early_most, early_advance_[t].whole + 1);
      late_least = std::min(late_least, late_advance_[t].whole);
      late_most = std::max(late_most, late_advance_[t].whole + 1);
    }
    if (early_most == 0 && late_most == 0) early_least = late_least = 0;
    if (from_early) {
      r.early_low = std::min(r.early_low + early_least, early_last + 1);
      r.early_high += early_most;
      r.late_high = r.early_high + 1 >= early_last ? late_end : -1;  // every late node may follow once one may
    } else {
      r.late_low += late_least;
      r.late_high += late_most;
    }
  }
  return all;
}

void Search::end_layer(Layer& layer) const {
  const std::array coefficient{turn(PlanStage::hatch, days_), turn(PlanStage::swim_up, days_), turn(PlanStage::release_size, days_)};
  for (std::size_t t = 0; t < temperatures_; ++t) {
    for (std::size_t i = 0; i < late_stride_; ++i) {
      float sum = 0.0f;
      for (std::size_t s = 0; s < plan_stage_count; ++s) sum += static_cast<float>(coefficient[s]) * late_passed_[s][i];
      layer.late[t * late_stride_ + i] = sum;
    }
    if (!two_grids_) continue;
    for (std::size_t e = 0; e < deviations_; ++e)
      for (std::size_t i = 0; i < early_stride_; ++i)
        layer.early[early_at(t, e) + i] = static_cast<float>(coefficient[0]) * early_passed_[0][i] +
                                          static_cast<float>(coefficient[1]) * early_passed_[1][e * early_stride_ + i] +
                                          static_cast<float>(coefficient[2]) * early_passed_[2][e * early_stride_ + i];
  }
  if (two_grids_) join_grids(layer);
}

/// From the worth of each choice (scratch level 0) to the value by yesterday's set-point: the best choice within reach, less the cost of
/// a change. Maxima over windows by doubling.
void Search::finish_block(float* out, std::size_t out_stride, const float* __restrict add) {
  std::size_t longest = 1;
  for (std::size_t t = 0; t < temperatures_; ++t) longest = std::max(longest, window_high_[t] - window_low_[t] + 1);
  std::size_t levels = 1;
  for (std::size_t width = 1; 2 * width <= longest; width *= 2, ++levels)
    for (std::size_t t = 0; t + 2 * width <= temperatures_; ++t) {
      const float* __restrict a = scratch_[levels - 1].data() + t * lane;
      const float* __restrict b = a + width * lane;
      float* __restrict to = scratch_[levels].data() + t * lane;
      for (std::size_t k = 0; k < lane; ++k) to[k] = a[k] > b[k] ? a[k] : b[k];
    }
  const auto cost = static_cast<float>(cost_a_change_);
  for (std::size_t t = 0; t < temperatures_; ++t) {
    const std::size_t low = window_low_[t], length = window_high_[t] - low + 1;
    std::size_t level = 0;
    while ((std::size_t{2} << level) <= length) ++level;
    const float* __restrict a = scratch_[level].data() + low * lane;
    const float* __restrict b = scratch_[level].data() + (low + length - (std::size_t{1} << level)) * lane;
    const float* __restrict same = scratch_[0].data() + t * lane;
    float* __restrict to = out + t * out_stride;
    for (std::size_t k = 0; k < lane; ++k) {
      const float moved = (a[k] > b[k] ? a[k] : b[k]) - cost;
      to[k] = add[k] + (moved > same[k] ? moved : same[k]);
    }
  }
}

void Search::back_up_late(std::size_t day, const Layer& next, Layer& now, const Reach& reach) {
  if (reach.late_low > reach.late_high) return;
  const std::array coefficient{static_cast<float>(turn(PlanStage::hatch, day)), static_cast<float>(turn(PlanStage::swim_up, day)),
                               static_cast<float>(turn(PlanStage::release_size, day))};
  const auto first = static_cast<std::size_t>(reach.late_low) / lane, last = static_cast<std::size_t>(reach.late_high) / lane;
  std::array<float, lane> add;
  for (std::size_t block = first; block <= last; ++block) {
    const std::size_t at = block * lane;
    for (std::size_t t = 0; t < temperatures_; ++t) {
      float* __restrict to = scratch_[0].data() + t * lane;
      if (!model_.equipment_holds(grid_c_[t], calendar(day))) {
        std::fill(to, to + lane, static_cast<float>(-10.0 * penalty_));
        continue;
      }
      const auto constant = static_cast<float>(model_.question().costs.kwh * model_.kwh(grid_c_[t], calendar(day)));
      const float* __restrict from = late_row(next, t) + at + static_cast<std::size_t>(late_advance_[t].whole);
      const float* __restrict cost = late_cost_.data() + t * late_stride_ + at;
      const float part = late_advance_[t].part, rest = 1.0f - part;
      for (std::size_t k = 0; k < lane; ++k) to[k] = cost[k] - constant + (rest * from[k] + part * from[k + 1]);
    }
    for (std::size_t k = 0; k < lane; ++k)
      add[k] = coefficient[0] * late_passed_[0][at + k] + coefficient[1] * late_passed_[1][at + k] + coefficient[2] * late_passed_[2][at + k];
    finish_block(now.late.data() + at, late_stride_, add.data());
  }
  // Beyond the last node nothing changes any more.
  if (reach.late_high + 1 >= static_cast<std::ptrdiff_t>(late_count_))
    for (std::size_t t = 0; t < temperatures_; ++t) {
      float* row = late_row(now, t);
      std::fill(row + late_count_, row + late_stride_, row[late_count_ - 1]);
    }
}

void Search::back_up_early(std::size_t day, const Layer& next, Layer& now, const Reach& reach) {
  if (reach.early_low > reach.early_high) return;
  const std::array coefficient{static_cast<float>(turn(PlanStage::hatch, day)), static_cast<float>(turn(PlanStage::swim_up, day)),
                               static_cast<float>(turn(PlanStage::release_size, day))};
  const auto first = static_cast<std::size_t>(reach.early_low) / lane, last = static_cast<std::size_t>(reach.early_high) / lane;
  const auto edge = static_cast<std::ptrdiff_t>(deviations_) - 1;
  std::array<float, lane> add;
  for (std::size_t e = 0; e < deviations_; ++e)
    for (std::size_t block = first; block <= last; ++block) {
      const std::size_t at = block * lane;
      for (std::size_t t = 0; t < temperatures_; ++t) {
        float* __restrict to = scratch_[0].data() + t * lane;
        if (!model_.equipment_holds(grid_c_[t], calendar(day))) {
          std::fill(to, to + lane, static_cast<float>(-10.0 * penalty_));
          continue;
        }
        const auto constant = static_cast<float>(model_.question().costs.kwh * model_.kwh(grid_c_[t], calendar(day)));
        const std::ptrdiff_t moved = static_cast<std::ptrdiff_t>(e) + deviation_advance_[t].whole;
        const auto lower = static_cast<std::size_t>(std::clamp(moved, std::ptrdiff_t{0}, edge));
        const auto upper = static_cast<std::size_t>(std::clamp(moved + 1, std::ptrdiff_t{0}, edge));
        const std::size_t offset = at + static_cast<std::size_t>(early_advance_[t].whole);
        const float* __restrict a = next.early.data() + early_at(t, lower) + offset;
        const float* __restrict b = next.early.data() + early_at(t, upper) + offset;
        const float* __restrict cost = early_cost_.data() + early_at(t, e) + at;
        const float part = early_advance_[t].part, rest = 1.0f - part, up = deviation_advance_[t].part, down = 1.0f - up;
        const float w00 = down * rest, w01 = down * part, w10 = up * rest, w11 = up * part;
        for (std::size_t k = 0; k < lane; ++k) to[k] = cost[k] - constant + (w00 * a[k] + w01 * a[k + 1] + (w10 * b[k] + w11 * b[k + 1]));
      }
      const float* up1 = early_passed_[1].data() + e * early_stride_ + at;
      const float* up2 = early_passed_[2].data() + e * early_stride_ + at;
      for (std::size_t k = 0; k < lane; ++k) add[k] = coefficient[0] * early_passed_[0][at + k] + coefficient[1] * up1[k] + coefficient[2] * up2[k];
      finish_block(now.early.data() + e * early_stride_ + at, deviations_ * early_stride_, add.data());
    }
}

void Search::back_up(std::size_t day, const Layer& next, Layer& now, const Reach& reach) {
  back_up_late(day, next, now, reach);
  back_up_early(day, next, now, reach);
  if (two_grids_ && reach.late_low <= reach.late_high) join_grids(now);
}

/// Nodes past hatch continue on the late grid: as many of them as a day's advance may reach.
void Search::join_grids(Layer& layer) const {
  const std::size_t count = joins_.size() / deviations_;
  for (std::size_t t = 0; t < temperatures_; ++t)
    for (std::size_t e = 0; e < deviations_; ++e) {
      const Advance* place = joins_.data() + e * count;
      const float* row = late_row(layer, t);
      float* to = layer.early.data() + early_at(t, e) + early_count_;
      for (std::size_t i = 0; i < count; ++i) to[i] = (1.0f - place[i].part) * row[place[i].whole] + place[i].part * row[place[i].whole + 1];
    }
}

double Search::next_value(const Layer& next, std::size_t t, const ClockPair& clocks) const {
  if (!early_matters(clocks)) {
    const Advance a = advance_of(std::min(clocks.swim_up / nodes_.swim_up_step, static_cast<double>(late_count_)));
    const float* row = late_row(next, t) + a.whole;
    return (1.0f - a.part) * row[0] + a.part * row[1];
  }
  const Advance a = advance_of(clocks.hatch / nodes_.hatch_step);
  const double place = (clocks.swim_up - nodes_.ratio * clocks.hatch - nodes_.deviation_low) / nodes_.deviation_step;
  const Advance b = advance_of(std::clamp(place, 0.0, static_cast<double>(deviations_ - 1)));
  const auto lower = static_cast<std::size_t>(b.whole), upper = std::min(lower + 1, deviations_ - 1);
  const float* low = next.early.data() + early_at(t, lower) + a.whole;
  const float* high = next.early.data() + early_at(t, upper) + a.whole;
  return (1.0f - b.part) * ((1.0f - a.part) * low[0] + a.part * low[1]) + b.part * ((1.0f - a.part) * high[0] + a.part * high[1]);
}

int Search::choice(std::size_t day, const Layer& next, const ClockPair& clocks, int before, double before_c, bool free, double* value) const {
  const auto living = model_.living(clocks);
  const PlanCosts& costs = model_.question().costs;
  int best = -1;
  double best_value = -1e300;
  for (std::size_t t = 0; t < temperatures_; ++t) {
    const double c = grid_c_[t];
    if (!living.bear(c) || !model_.equipment_holds(c, calendar(day)) || (!free && !model_.step_allowed(before_c, c))) continue;
    const auto amber = model_.amber_c(c);
    double worth = -costs.kwh * model_.kwh(c, calendar(day));
    for (std::size_t s = 0; s < 3; ++s) worth -= costs.amber_c_day * living.share[s] * amber[s];
    const bool same = free || std::abs(c - before_c) <= hair_c;
    if (!same) worth -= cost_a_change_;
    worth += next_value(next, t, {clocks.hatch + rate_[t].hatch, clocks.swim_up + rate_[t].swim_up});
    // Of equal choices the one that leaves the set-point alone.
    const double clearly = static_cast<int>(t) == before ? -1e-6 : 1e-6;
    if (best < 0 || worth > best_value + clearly) {
      best = static_cast<int>(t);
      best_value = worth;
    }
  }
  if (value) *value = best_value;
  return best;
}

SearchOutcome Search::run() {
  const auto fresh = [&] { return Layer{Row(two_grids_ ? temperatures_ * deviations_ * early_stride_ : 0, 0.0f), Row(temperatures_ * late_stride_, 0.0f)}; };
  SearchOutcome outcome;
  outcome.water_c = model_.recovery_c();
  if (days_ == 0) {
    outcome.upper_bound = spent_;
    return outcome;
  }
  // Backward; every sixteenth layer is kept. kept[k] holds day k * checkpoint_days, the last one the end.
  const std::size_t pieces = (days_ + checkpoint_days - 1) / checkpoint_days;
  std::vector<Layer> kept(pieces + 1);
  const auto reach = reaches(start_, 0, days_);
  Layer now = fresh(), next = fresh();
  end_layer(next);
  kept[pieces] = next;
  for (std::size_t d = days_; d-- > 1;) {
    back_up(d, next, now, reach[d]);
    std::swap(now, next);
    if (d % checkpoint_days == 0) kept[d / checkpoint_days] = next;
  }

  // Forward from the true clocks, piece by piece.
  std::vector<Layer> piece(checkpoint_days);
  for (Layer& each : piece) each = fresh();
  ClockPair clocks = start_;
  bool free = !before_c_;
  double before_c = before_c_.value_or(0.0);
  int before = -1;
  for (std::size_t t = 0; t < temperatures_; ++t)
    if (!free && std::abs(grid_c_[t] - before_c) <= hair_c) before = static_cast<int>(t);
  for (std::size_t p = 0; p < pieces; ++p) {
    const std::size_t first = p * checkpoint_days, last = std::min(days_, first + checkpoint_days);
    const auto near = reaches(clocks, first, last);
    // piece[i] holds the layer of day first + i + 1.
    for (std::size_t d = last; d-- > first + 1;)
      back_up(d, d + 1 == last ? kept[p + 1] : piece[d - first], piece[d - first - 1], near[d - first]);
    for (std::size_t d = first; d < last; ++d) {
      const Layer& after = d + 1 == last ? kept[p + 1] : piece[d - first];
      double value = 0.0;
      const int chosen = choice(d, after, clocks, before, before_c, free, &value);
      if (chosen < 0) {
        outcome.water_c.clear();
        return outcome;
      }
      if (d == 0) {
        // What the first day's start takes off is part of the value too.
        double root = value;
        for (const PlanStage stage : plan_stages)
          root += turn(stage, 0) * model_.passed(stage).at(model_.clock_of(stage, clocks));
        outcome.value = spent_ + root;
        outcome.upper_bound = outcome.value + bound_terms();
      }
      const auto t = static_cast<std::size_t>(chosen);
      outcome.water_c.push_back(grid_c_[t]);
      clocks = {clocks.hatch + rate_[t].hatch, clocks.swim_up + rate_[t].swim_up};
      before = chosen;
      before_c = grid_c_[t];
      free = false;
    }
  }
  return outcome;
}

}  // namespace

std::vector<double> grid_of(const PlanModel& model) {
  double coldest = 1e9, warmest = -1e9;
  for (const auto& band : model.bands()) {
    coldest = std::min(coldest, band.red_below.c());
    warmest = std::max(warmest, band.red_above.c());
  }
  double held_coldest = 1e9, held_warmest = -1e9;
  for (const PlanDay& day : model.question().days) {
    held_coldest = std::min(held_coldest, day.coldest.c());
    held_warmest = std::max(held_warmest, day.warmest.c());
  }
  const double step = model.question().precision.step_c;
  std::vector<double> grid;
  const auto first = static_cast<long>(std::ceil(std::max(coldest, held_coldest) / step - hair_c));
  const auto last = static_cast<long>(std::floor(std::min(warmest, held_warmest) / step + hair_c));
  for (long k = first; k <= last; ++k) grid.push_back(static_cast<double>(k) * step);
  return grid;
}

ProgressNodes usual_nodes(const PlanModel& model, const std::vector<double>& grid_c) {
  ProgressNodes nodes;
  nodes.hatch_step = nodes.swim_up_step = 1.0 / model.question().precision.nodes;
  double low = 1e9, high = 0.0;
  for (const double c : grid_c) {
    const ClockPair r = model.a_day_at(c);
    if (r.hatch <= 0.0) continue;
    low = std::min(low, r.swim_up / r.hatch);
    high = std::max(high, r.swim_up / r.hatch);
  }
  if (high <= 0.0) return nodes;
  nodes.ratio = (low + high) / 2.0;
  nodes.one_clock = high - low < 1e-9 * high;
  if (nodes.one_clock) return nodes;
  nodes.hatch_step *= hatch_nodes_coarser;
  // The deviation a path can gather until all have hatched, and half as much again for walks between nodes.
  const double most = std::max(model.hatched_animals().end(), 1e-6) * (high - low) / 2.0 * 1.5;
  nodes.deviations = std::max(3, model.question().precision.deviation_nodes) | 1;
  nodes.deviation_low = -most;
  nodes.deviation_step = 2.0 * most / (nodes.deviations - 1);
  return nodes;
}

SearchOutcome search(const PlanModel& model, const std::vector<double>& grid_c, const ProgressNodes& nodes, double cost_a_change, bool exact_limits) {
  return Search(model, grid_c, nodes, cost_a_change, exact_limits).run();
}

}  // namespace redd::planning::detail
