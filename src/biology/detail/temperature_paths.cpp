#include "biology/detail/temperature_paths.h"

#include <algorithm>
#include <cmath>

namespace redd::biology::detail {
namespace {

// Doubt of days nobody recorded, as sd of their mean. Assumed: a chilled tank wanders by one or two degrees when a
// chiller, a set-point or a room misbehaves.
constexpr double hole_sd_c = 1.0;
constexpr double before_record_sd_c = 2.0;
constexpr double beyond_plan_sd_c = 1.5;

// How far past today or the plan the forecast looks. The slowest lot held here (pink salmon at 4 C) needs 220 days.
constexpr int look_ahead_days = 300;

// Grid of shifts. Linear interpolation over half a standard deviation is wrong by less than 0.1 % in the rate at sd 1
// C.
constexpr double grid_end = 4.0;
constexpr double grid_step = 0.5;
constexpr std::size_t grid_nodes = 17;

void add_day(Timeline& line, Temperature mean, TemperatureChange sd, bool measured, Date today) {
  const Date day = line.first_day + std::chrono::days(line.size());
  line.mean.push_back(mean);
  line.sd.push_back(sd);
  line.kind.push_back(day > today ? DayKind::to_come : DayKind::until_today);
  if (!measured && day <= today) ++line.filled_days;
}

void fill_hole(Timeline& line, const DailyTemperature& before, const DailyTemperature& after, Date today) {
  const int missing = static_cast<int>((after.day - before.day).count()) - 1;
  const double step_c = (after.mean - before.mean).c();
  const double sd_c = std::max(before.sd.c(), after.sd.c()) + hole_sd_c + std::abs(step_c) / 2.0;
  for (int i = 1; i <= missing; ++i) {
    const auto change = TemperatureChange::from_c(step_c * i / (missing + 1));
    add_day(line, before.mean + change, TemperatureChange::from_c(sd_c), false, today);
  }
}

}  // namespace

std::array<double, clock_count> Clocks::per_day(Temperature water) const {
  return {progress_per_day(models_[0], water), progress_per_day(models_[1], water), progress_per_day(models_[2], water),
          std::max(0.0, (water - ThermalSum::base()).c())};
}

Timeline timeline_from(std::span<const DailyTemperature> temperatures, Date from, Date today) {
  const DailyTemperature& first = temperatures.front();
  Timeline line{std::min(from, first.day), {}, {}, {}, 0};
  const auto early = TemperatureChange::from_c(std::max(first.sd.c(), before_record_sd_c));
  for (Date day = line.first_day; day < first.day; day += std::chrono::days(1)) {
    add_day(line, first.mean, early, false, today);
  }
  for (std::size_t i = 0; i < temperatures.size(); ++i) {
    if (i > 0) fill_hole(line, temperatures[i - 1], temperatures[i], today);
    add_day(line, temperatures[i].mean, temperatures[i].sd, temperatures[i].measured, today);
  }
  const DailyTemperature& last = temperatures.back();
  const auto late = TemperatureChange::from_c(std::max(last.sd.c(), beyond_plan_sd_c));
  const Date end = std::max({last.day, today, from}) + std::chrono::days(look_ahead_days);
  for (Date day = last.day + std::chrono::days(1); day <= end; day += std::chrono::days(1)) {
    add_day(line, last.mean, late, false, today);
  }
  return line;
}

TemperaturePaths::TemperaturePaths(const Clocks& clocks, const Timeline& timeline) : days_(timeline.size()) {
  const std::size_t length = days_ + 1;
  for (std::size_t kind = 0; kind < day_kinds; ++kind) {
    if (std::count(timeline.kind.begin(), timeline.kind.end(), static_cast<DayKind>(kind)) == 0) continue;
    Sums sums{kind, std::vector<double>(grid_nodes * clock_count * length, 0.0)};
    for (std::size_t node = 0; node < grid_nodes; ++node) {
      const double shift = -grid_end + grid_step * static_cast<double>(node);
      std::array<double, clock_count> added{}, per_day{};
      bool known = false;
      for (std::size_t day = 0; day < days_; ++day) {
        if (timeline.kind[day] == static_cast<DayKind>(kind)) {
          // A plan repeats itself; the curves are then asked once.
          const bool as_before =
              known && timeline.mean[day] == timeline.mean[day - 1] && timeline.sd[day] == timeline.sd[day - 1];
          if (!as_before) per_day = clocks.per_day(timeline.mean[day] + shift * timeline.sd[day]);
          known = true;
          for (std::size_t clock = 0; clock < clock_count; ++clock) added[clock] += per_day[clock];
        } else {
          known = false;
        }
        for (std::size_t clock = 0; clock < clock_count; ++clock)
          sums.values[(node * clock_count + clock) * length + day + 1] = added[clock];
      }
    }
    sums_.push_back(std::move(sums));
  }
}

const double* TemperaturePaths::series(const Sums& sums, std::size_t node, std::size_t clock) const {
  return sums.values.data() + (node * clock_count + clock) * (days_ + 1);
}

TemperaturePaths::World TemperaturePaths::world(const Shifts& shifts) const {
  World world;
  world.days_ = days_;
  for (const Sums& sums : sums_) {
    const double shift = std::clamp(shifts[sums.kind], -grid_end, grid_end);
    const double place = (shift + grid_end) / grid_step;
    const auto node = std::min(static_cast<std::size_t>(place), grid_nodes - 2);
    World::Part& part = world.parts_[world.used_++];
    part.share_high = place - static_cast<double>(node);
    for (std::size_t clock = 0; clock < clock_count; ++clock) {
      part.low[clock] = series(sums, node, clock);
      part.high[clock] = series(sums, node + 1, clock);
    }
  }
  return world;
}

double TemperaturePaths::World::at_day(std::size_t clock, std::size_t day) const {
  double total = 0.0;
  for (std::size_t i = 0; i < used_; ++i) {
    const Part& part = parts_[i];
    total += part.low[clock][day] + part.share_high * (part.high[clock][day] - part.low[clock][day]);
  }
  return total;
}

double TemperaturePaths::World::total(std::size_t clock, double position_days) const {
  const double place = std::clamp(position_days, 0.0, static_cast<double>(days_));
  const auto day = std::min(static_cast<std::size_t>(place), days_ - 1);
  const double before = at_day(clock, day);
  return before + (place - static_cast<double>(day)) * (at_day(clock, day + 1) - before);
}

double TemperaturePaths::World::position_of(std::size_t clock, double total) const {
  std::size_t low = 0, high = days_;
  double before = 0.0, after = at_day(clock, high);  // sums begin at nothing
  if (after < total) return static_cast<double>(days_);
  if (before >= total) return 0.0;
  // Totals rise almost evenly, so a straight line finds the day in a few looks; every third look halves, lest it crawl.
  for (int look = 1; high - low > 1; ++look) {
    const auto span = high - low;
    const auto straight = static_cast<std::size_t>((total - before) / (after - before) * static_cast<double>(span));
    const std::size_t middle = low + std::clamp<std::size_t>(look % 3 == 0 ? span / 2 : straight, 1, span - 1);
    const double there = at_day(clock, middle);
    if (there < total) {
      low = middle;
      before = there;
    } else {
      high = middle;
      after = there;
    }
  }
  return static_cast<double>(low) + (total - before) / (after - before);
}

}  // namespace redd::biology::detail
