#include "planning/feeding_break.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "numerics/normal.h"
#include "planning/fed_days.h"

namespace redd::planning {
namespace {

using std::chrono::days;

constexpr double worth_a_word = 0.15, worth_moving = 0.65, unlikely = 0.1, step_c = 0.5, widest_c = 3.0, widest_edge_c = 20.0, most_c_a_day = 1.0;
constexpr int horizon_days = 160;
constexpr std::array quantile_z{-1.6448536, -0.6744898, 0.0, 0.6744898, 1.6448536};

/// When the middle animal swims up, as five quantiles in days after the start of tomorrow.
using Window = std::array<double, 5>;

double probability_by(const Window& window, double day) {
  std::size_t i = 1;
  while (i + 1 < window.size() && day > window[i]) ++i;
  const double width = std::max(1e-6, window[i] - window[i - 1]);
  return numerics::normal_cdf(quantile_z[i - 1] + (day - window[i - 1]) / width * (quantile_z[i] - quantile_z[i - 1]));
}

/// Days ahead, and where the clock of swim-up stands at the end of each under one course of the water.
class Clock {
 public:
  Clock(const biology::DevelopmentModel& model, const std::vector<double>& water_c) {
    passed_.push_back(0.0);
    for (const double c : water_c) passed_.push_back(passed_.back() + biology::progress_per_day(model, Temperature::from_c(c)));
  }
  double at(double day) const {
    const double place = std::clamp(day, 0.0, static_cast<double>(passed_.size() - 1));
    const auto below = std::min(static_cast<std::size_t>(place), passed_.size() - 2);
    return passed_[below] + (place - static_cast<double>(below)) * (passed_[below + 1] - passed_[below]);
  }
  double day_of(double progress) const {
    const auto after = std::ranges::upper_bound(passed_, progress);
    if (after == passed_.end()) return static_cast<double>(passed_.size() - 1);
    if (after == passed_.begin()) return 0.0;
    const auto i = static_cast<std::size_t>(after - passed_.begin());
    return static_cast<double>(i - 1) + (progress - passed_[i - 1]) / std::max(1e-12, passed_[i] - passed_[i - 1]);
  }

 private:
  std::vector<double> passed_;
};

/// The days until swim-up, as far as the equipment of each is known.
std::span<const PlanDay> days_until(std::span<const PlanDay> abilities, Date tomorrow, double latest_day) {
  std::size_t n = 0;
  while (n < abilities.size() && abilities[n].day <= tomorrow + days(static_cast<int>(latest_day))) ++n;
  return abilities.first(n);
}

/// What all stages until swim-up like and bear, and the equipment holds.
void set_ranges(BreakRisk& risk, const inference::BroodBelief& brood, std::span<const PlanDay> until_then) {
  const biology::ThermalBand& alevin = brood.species->alevin;
  risk.liked = held_too(liked_too({}, alevin), until_then);
  risk.borne = held_too(borne_too({}, alevin), until_then);
  if (!inference::are_eggs(brood.most_sensitive)) return;
  risk.liked = liked_too(risk.liked, egg_band(*brood.species));
  risk.borne = borne_too(risk.borne, egg_band(*brood.species));
}

std::vector<double> course(double from_c, double to_c) {
  std::vector<double> water;
  for (int d = 0; d < horizon_days; ++d) {
    from_c += std::clamp(to_c - from_c, -most_c_a_day, most_c_a_day);
    water.push_back(from_c);
  }
  return water;
}

/// Days from tomorrow on that are bad for swim-up: nobody feeds on them or on one of the two days after.
std::vector<bool> bad_days(const records::SchoolCalendar& calendar, Date tomorrow) {
  constexpr int then_days = 2;
  std::vector<bool> fed, bad;
  for (int d = 0; d < horizon_days + then_days; ++d) fed.push_back(somebody_feeds(calendar, tomorrow + days(d)));
  for (std::size_t d = 0; d < horizon_days; ++d) bad.push_back(!fed[d] || !fed[d + 1] || !fed[d + 2]);
  return bad;
}

double in_bad_days(const Window& window, const std::vector<bool>& bad) {
  double sum = 0.0;
  for (std::size_t d = 0; d < bad.size(); ++d)
    if (bad[d]) sum += probability_by(window, static_cast<double>(d + 1)) - probability_by(window, static_cast<double>(d));
  sum += 1.0 - probability_by(window, static_cast<double>(bad.size()));  // beyond what is looked at is no way out
  return std::clamp(sum, 0.0, 1.0);
}

/// The closed days that take the largest part of the chance.
void name_the_break(BreakRisk& risk, const Window& window, const records::SchoolCalendar& calendar, const std::vector<bool>& bad, Date tomorrow) {
  double best = 0.0;
  std::size_t where = 0;
  for (std::size_t d = 0; d < bad.size(); ++d) {
    const double part = bad[d] ? probability_by(window, static_cast<double>(d + 1)) - probability_by(window, static_cast<double>(d)) : 0.0;
    if (part > best) {
      best = part;
      where = d;
    }
  }
  Date inside = tomorrow + days(where);
  for (int i = 0; i < 2 && somebody_feeds(calendar, inside); ++i) inside += days(1);
  Date begin = inside;
  while (inside - begin < days(30) && !calendar.is_open(begin - days(1))) begin -= days(1);
  risk.from = begin;
  risk.to = begin + days(std::max(1, calendar.closed_days_from(begin)) - 1);
  if (const auto closure = calendar.closure_on(inside)) risk.name = closure->name;
}

}  // namespace

std::optional<BreakRisk> break_risk(const records::SeasonSetup& season, const inference::Belief& belief, const records::SchoolCalendar& calendar, Date today,
                                    std::span<const PlanDay> abilities) {
  const inference::BroodBelief& brood = belief.brood;
  if (!brood.species || !brood.forecast || !inference::has_animals(brood.animals)) return std::nullopt;
  const auto& swim_up = brood.forecast->stage(biology::Stage::swim_up);
  const Date tomorrow = today + days(1);
  const auto after = [&](biology::CalendarMoment at) { return Days(at - biology::CalendarMoment(tomorrow)).count(); };
  const Window window{after(swim_up.lot.low_90), after(swim_up.lot.low_50), after(swim_up.lot.median), after(swim_up.lot.high_50), after(swim_up.lot.high_90)};
  if (window[2] < shift_soonest_days || window[2] > shift_latest_days || swim_up.lot.open_ended) return std::nullopt;
  std::vector<bool> bad = bad_days(calendar, tomorrow);
  bad.resize(std::min(bad.size(), static_cast<std::size_t>(window[4]) + static_cast<std::size_t>(planned_after_swim_up.count())));
  BreakRisk risk{.probability = in_bad_days(window, bad), .median = biology::day_of(swim_up.lot.median)};
  if (risk.probability < worth_a_word) return std::nullopt;
  name_the_break(risk, window, calendar, bad, tomorrow);

  biology::ModelChoice choice;
  if (season.development_model) choice.hatch = *season.development_model;
  const auto model = biology::model_for(*brood.species, biology::Stage::swim_up, choice.swim_up);
  if (!model) return risk;
  std::vector<double> planned;
  for (const auto& day : belief.temperature.days)
    if (day.day >= today && planned.size() <= horizon_days) planned.push_back(day.mean.c());
  if (planned.size() < 2) return risk;
  const double now_c = planned.front();
  planned.erase(planned.begin());
  const Clock before(*model, planned);
  const double held_c = std::round(belief.temperature.set_point.value_or(Temperature::from_c(planned.back())).c() / step_c) * step_c;
  set_ranges(risk, brood, days_until(abilities, tomorrow, window[4]));
  // From the smallest shift up, so that the first that suffices is the calmest.
  const auto best_within = [&](const SetPointRange& range, double widest) {
    std::optional<SetPointShift> best;
    for (int i = 1; step_c * ((i + 1) / 2) <= widest; ++i) {
      const double to_c = held_c + (i % 2 ? 1.0 : -1.0) * step_c * ((i + 1) / 2);
      if (!range.holds(Temperature::from_c(to_c))) continue;
      const Clock moved(*model, course(now_c, to_c));
      Window shifted = window;
      for (double& day : shifted) day = day > 0.0 ? moved.day_of(before.at(day)) : day;
      const double left = in_bad_days(shifted, bad);
      if (best && best->probability <= left) continue;
      best = SetPointShift{Temperature::from_c(held_c), Temperature::from_c(to_c), left, tomorrow + days(static_cast<int>(std::floor(shifted[2])))};
      if (left <= unlikely) break;
    }
    return best && best->probability <= worth_moving * risk.probability ? best : std::nullopt;
  };
  risk.shift = best_within(risk.liked, widest_c);
  if (!risk.shift) risk.edge_shift = best_within(risk.borne, widest_edge_c);
  return risk;
}

}  // namespace redd::planning
