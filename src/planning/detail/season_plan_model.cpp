#include "planning/detail/season_plan_model.h"

#include <algorithm>
#include <cmath>

#include "numerics/normal.h"
#include "planning/set_point_range.h"

namespace redd::planning::detail {
namespace {

constexpr double over_share = 0.999;        // a stage passed in this share of the lots is over
constexpr int animals_each_lot = 15;        // equally likely animals that stand for a lot's spread

/// A moving average over 2 half + 1 cells, by running sums.
void average(std::vector<double>& values, std::size_t half) {
  if (half == 0) return;
  std::vector<double> sums(values.size() + 1, 0.0);
  for (std::size_t i = 0; i < values.size(); ++i) sums[i + 1] = sums[i] + values[i];
  const double width = static_cast<double>(2 * half + 1);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::size_t low = i > half ? i - half : 0, high = std::min(values.size(), i + half + 1);
    values[i] = (sums[high] - sums[low]) / width;
  }
}

/// Standard normal quantile of the middle of each of n equal parts.
double middle_z(int i, int n) {
  return numerics::normal_quantile((i + 0.5) / n);
}

}  // namespace

Passed::Passed(std::span<const double> thresholds, std::span<const double> weights, double blur, double node) : node_(node) {
  if (thresholds.empty()) return;
  const auto [low, high] = std::ranges::minmax(thresholds);
  // Three moving averages of 2 h + 1 cells have the variance (2 h + 1)^2 - 1 over 4, in cells.
  const double wanted = blur / node;
  const auto half = static_cast<std::size_t>(std::lround(std::max(0.0, (std::sqrt(4.0 * wanted * wanted + 1.0) - 1.0) / 2.0)));
  const std::size_t margin = 3 * half + 2;
  first_ = std::floor(low / node) * node - static_cast<double>(margin) * node;
  const auto cells = static_cast<std::size_t>(std::ceil((high - first_) / node)) + margin + 2;
  std::vector<double> share(cells, 0.0);
  double total = 0.0;
  for (const double w : weights) total += w;
  for (std::size_t i = 0; i < thresholds.size(); ++i) {
    const double place = (thresholds[i] - first_) / node;
    const auto cell = static_cast<std::size_t>(place);
    const double part = place - static_cast<double>(cell);
    share[cell] += (1.0 - part) * weights[i] / total;
    share[cell + 1] += part * weights[i] / total;
  }
  for (int i = 0; i < 3; ++i) average(share, half);
  // A cell's share is spread evenly half a cell to either side of its node.
  table_.resize(cells);
  double sum = 0.0;
  for (std::size_t i = 0; i < cells; ++i) {
    table_[i] = std::min(1.0, sum + share[i] / 2.0);
    sum += share[i];
  }
  for (double& each : table_) each /= table_.back();
}

double Passed::at(double x) const {
  if (table_.empty()) return 0.0;
  const double place = (x - first_) / node_;
  if (place <= 0.0) return table_.front();
  const auto cell = static_cast<std::size_t>(place);
  if (cell + 1 >= table_.size()) return 1.0;
  return table_[cell] + (place - static_cast<double>(cell)) * (table_[cell + 1] - table_[cell]);
}

double Passed::quantile(double share) const {
  const auto found = std::ranges::lower_bound(table_, share);
  if (found == table_.begin() || found == table_.end()) return found == table_.begin() ? first_ : end();
  const double below = *(found - 1);
  return first_ + node_ * (static_cast<double>(found - table_.begin()) - (*found - share) / (*found - below));
}

PlanModel::PlanModel(const SeasonQuestion& question)
    : question_(question), bands_{egg_band(question.species), question.species.alevin, question.species.fry} {
  const auto hatch = biology::model_for(question.species, biology::Stage::hatch, question.choice.hatch);
  const auto swim_up = biology::model_for(question.species, biology::Stage::swim_up, question.choice.swim_up);
  if (hatch) hatch_ = *hatch;
  if (swim_up) swim_up_ = *swim_up;

  // Growth goes by thermal units [iwama1981]; on the swim-up clock these are worth their mean over the fry's green band.
  double per_c_day = 0.0;
  int count = 0;
  for (double c = bands_[2].green_low.c(); c <= bands_[2].green_high.c() + hair_c; c += 0.5, ++count) per_c_day += a_day_at(c).swim_up / c;
  growth_clock_each_c_day_ = count > 0 ? per_c_day / count : 0.0;

  const double node = 1.0 / (4.0 * question.precision.nodes);
  std::array<std::vector<double>, plan_stage_count> thresholds;
  std::array<std::vector<double>, 2> animals;
  std::vector<double> weights, animal_weights;
  bool any_release = false;
  for (const Lot& lot : question.lots) {
    weights.push_back(lot.weight);
    thresholds[0].push_back(lot.hatch.need - lot.hatch.done);
    thresholds[1].push_back(lot.swim_up.need - lot.swim_up.done);
    thresholds[2].push_back(thresholds[1].back() + lot.release_c_days * growth_clock_each_c_day_);
    any_release = any_release || lot.release_c_days > 0.0;
    for (int i = 0; i < animals_each_lot; ++i) {
      const double spread = std::exp(question.animal_log_sd * middle_z(i, animals_each_lot));
      animals[0].push_back(lot.hatch.need * spread - lot.hatch.done);
      animals[1].push_back(lot.swim_up.need * spread - lot.swim_up.done);
      animal_weights.push_back(lot.weight);
    }
  }
  for (std::size_t s = 0; s < plan_stage_count; ++s) {
    if (s == 2 && !any_release) continue;
    lots_[s] = Passed(thresholds[s], weights, question.precision.blur, node);
  }
  for (std::size_t s = 0; s < 2; ++s) animals_[s] = Passed(animals[s], animal_weights, question.precision.blur, node);

  for (std::size_t s = 0; s < plan_stage_count; ++s) {
    good_[s].assign(days(), 0.0);
    to_come_[s] = lots_[s].empty() ? 0.0 : 1.0 - lots_[s].at(0.0);
    if (to_come_[s] < 1.0 - over_share) continue;
    for (const Wish& wish : question.wishes)
      if (static_cast<std::size_t>(wish.stage) == s)
        for (std::size_t d = 0; d < days(); ++d)
          if (wish.good[d]) good_[s][d] += wish.weight / to_come_[s];
  }

  if (question.water_now) lead_back(question.water_now->c());
}

/// Water found outside the limits goes back by the largest steps, and no wish is looked at on the way.
void PlanModel::lead_back(double water_c) {
  const double step_c = question_.precision.step_c;
  const auto at_or_above = [&](double c) { return std::ceil(c / step_c - hair_c) * step_c; };
  const auto at_or_below = [&](double c) { return std::floor(c / step_c + hair_c) * step_c; };
  ClockPair clocks;
  while (recovery_c_.size() < days()) {
    const Living now = living(clocks);
    if (now.bear(water_c)) return;
    const PlanDay& day = question_.days[recovery_c_.size()];
    double next_c = water_c > now.red_above_c
                        ? std::max({at_or_below(now.red_above_c), at_or_above(water_c - question_.limits.cooling.per_day.c()), at_or_above(day.coldest.c())})
                        : std::min({at_or_above(now.red_below_c), at_or_below(water_c + question_.limits.warming.per_day.c()), at_or_below(day.warmest.c())});
    if (now.bear(next_c) || std::abs(next_c - water_c) < hair_c) return;  // from here the search can go on by itself
    recovery_c_.push_back(next_c);
    const ClockPair added = a_day_at(next_c);
    clocks.hatch += added.hatch;
    clocks.swim_up += added.swim_up;
    water_c = next_c;
  }
}

ClockPair PlanModel::a_day_at(double water_c) const {
  const auto water = Temperature::from_c(water_c);
  return {hatch_ ? biology::progress_per_day(*hatch_, water) : 0.0, swim_up_ ? biology::progress_per_day(*swim_up_, water) : 0.0};
}

PlanModel::Living PlanModel::living(const ClockPair& at, const ClockPair& slack) const {
  const double hatched = animals_[0].at(at.hatch), up = animals_[1].at(at.swim_up), least = question_.limits.least_share;
  Living living{{1.0 - hatched, hatched - up, up}, -100.0, 100.0};
  std::array present{1.0 - hatched >= least, hatched - up >= least, up >= least};
  if (slack.hatch > 0.0 || slack.swim_up > 0.0) {
    const double hatched_early = animals_[0].at(at.hatch + slack.hatch), hatched_late = animals_[0].at(at.hatch - slack.hatch);
    const double up_early = animals_[1].at(at.swim_up + slack.swim_up), up_late = animals_[1].at(at.swim_up - slack.swim_up);
    present = {1.0 - hatched_early >= least, hatched_late - up_early >= least, up_late >= least};
  }
  SetPointRange borne;
  for (std::size_t s = 0; s < bands_.size(); ++s)
    if (present[s]) borne = borne_too(borne, bands_[s]);
  living.red_below_c = borne.low.c();
  living.red_above_c = borne.high.c();
  return living;
}

std::array<double, 3> PlanModel::amber_c(double water_c) const {
  std::array<double, 3> amber{};
  for (std::size_t s = 0; s < bands_.size(); ++s) amber[s] = std::max({0.0, bands_[s].green_low.c() - water_c, water_c - bands_[s].green_high.c()});
  return amber;
}

bool PlanModel::equipment_holds(double water_c, std::size_t day) const {
  return water_c >= question_.days[day].coldest.c() - hair_c && water_c <= question_.days[day].warmest.c() + hair_c;
}

bool PlanModel::step_allowed(double from_c, double to_c) const {
  return to_c - from_c <= question_.limits.warming.per_day.c() + hair_c && from_c - to_c <= question_.limits.cooling.per_day.c() + hair_c;
}

double PlanModel::kwh(double water_c, std::size_t day) const {
  return question_.days[day].kwh_each_c_below_room * std::max(0.0, question_.days[day].room.c() - water_c);
}

std::optional<PlanModel::Limit> PlanModel::broken_limit(const Living& here, const std::optional<double>& before_c, double water_c, std::size_t day) const {
  const bool recovering = day < recovery_c_.size();
  if (!recovering && !here.bear(water_c)) return Limit::animals;
  if (!equipment_holds(water_c, day)) return water_c < question_.days[day].coldest.c() ? Limit::too_cold_for_equipment : Limit::too_warm_for_equipment;
  if (before_c && !step_allowed(*before_c, water_c)) return water_c > *before_c ? Limit::warming : Limit::cooling;
  return std::nullopt;
}

PlanModel::Verdict PlanModel::verdict(std::span<const double> water_c) const {
  Verdict verdict;
  std::vector<ClockPair> clocks{{}};
  std::optional<double> before_c;
  if (question_.water_now) before_c = question_.water_now->c();
  for (std::size_t d = 0; d < days(); ++d) {
    const double c = water_c[d];
    const Living here = living(clocks.back());
    if (const auto broken = broken_limit(here, before_c, c, d); broken && !verdict.broken_day) {
      verdict.broken_day = d;
      verdict.broken = *broken;
    }
    if (before_c && std::abs(c - *before_c) > hair_c) ++verdict.score.changes;
    const auto amber = amber_c(c);
    for (std::size_t s = 0; s < amber.size(); ++s) verdict.score.amber_c_days += here.share[s] * amber[s];
    verdict.score.kwh += kwh(c, d);
    const ClockPair added = a_day_at(c);
    clocks.push_back({clocks.back().hatch + added.hatch, clocks.back().swim_up + added.swim_up});
    before_c = c;
  }
  for (const Wish& wish : question_.wishes) {
    WishOutcome outcome{wish.key, wish.name, wish.weight};
    const auto s = static_cast<std::size_t>(wish.stage);
    outcome.over = to_come_[s] < 1.0 - over_share;
    if (!outcome.over) {
      double met = 0.0;
      for (std::size_t d = 0; d < days(); ++d)
        if (wish.good[d]) met += lots_[s].at(clock_of(wish.stage, clocks[d + 1])) - lots_[s].at(clock_of(wish.stage, clocks[d]));
      outcome.probability = std::clamp(met / to_come_[s], 0.0, 1.0);
      verdict.score.fulfilment += wish.weight * outcome.probability;
    }
    verdict.score.wishes.push_back(std::move(outcome));
  }
  const PlanCosts& costs = question_.costs;
  verdict.score.score = verdict.score.fulfilment - costs.change * verdict.score.changes - costs.amber_c_day * verdict.score.amber_c_days - costs.kwh * verdict.score.kwh;
  return verdict;
}

MilestoneWindow PlanModel::milestone(PlanStage stage, std::span<const ClockPair> clocks) const {
  const Passed& lots = passed(stage);
  MilestoneWindow window;
  window.stage = stage;
  window.already_probability = lots.at(0.0);
  window.probability_by_end = lots.at(clock_of(stage, clocks.back()));
  const auto moment = [&](double share) {
    const double wanted = lots.quantile(share);
    const biology::CalendarMoment first(question_.days.front().day);
    if (wanted <= 0.0) return first;
    const auto after = std::ranges::lower_bound(clocks, wanted, {}, [&](const ClockPair& c) { return clock_of(stage, c); });
    if (after == clocks.end()) return first + Days(static_cast<double>(days()));
    const double high = clock_of(stage, *after), low = clock_of(stage, *(after - 1));
    return first + Days(static_cast<double>(after - clocks.begin()) - (high - wanted) / (high - low));
  };
  window.lot = {moment(0.05), moment(0.25), moment(0.5), moment(0.75), moment(0.95), window.probability_by_end < 0.95};
  return window;
}

SeasonPlan PlanModel::plan_of(std::span<const double> water_c) const {
  SeasonPlan plan;
  plan.score = verdict(water_c).score;
  plan.recovery_days = static_cast<int>(recovery_c_.size());
  std::vector<ClockPair> clocks{{}};
  std::optional<double> before_c;
  if (question_.water_now) before_c = question_.water_now->c();
  for (std::size_t d = 0; d < days(); ++d) {
    plan.days.push_back(question_.days[d].day);
    plan.set_points.push_back(Temperature::from_c(water_c[d]));
    const ClockPair added = a_day_at(water_c[d]);
    clocks.push_back({clocks.back().hatch + added.hatch, clocks.back().swim_up + added.swim_up});
    if (before_c && std::abs(water_c[d] - *before_c) > hair_c) {
      const auto& limit = water_c[d] > *before_c ? question_.limits.warming : question_.limits.cooling;
      plan.changes.push_back({question_.days[d].day, Temperature::from_c(*before_c), plan.set_points.back(),
                              Days(std::abs(water_c[d] - *before_c) / limit.per_hour.c() / 24.0)});
    }
    before_c = water_c[d];
  }
  for (const PlanStage stage : plan_stages)
    if (!passed(stage).empty()) plan.milestones.push_back(milestone(stage, clocks));
  return plan;
}

}  // namespace redd::planning::detail
