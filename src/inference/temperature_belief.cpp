#include "inference/temperature_belief.h"

#include <algorithm>
#include <cmath>

namespace redd::inference {
namespace {

using records::Record;
using records::TemperatureReading;
using std::chrono::days;

// Doubt of a day's mean, one standard deviation. Assumed: a spot reading of a school thermometer stands for the day's mean
// within 0.4 C; a day between readings within 0.4 C more for each day to the nearest reading, 1.5 C at most; a plan within 0.7 C.
constexpr double measured_sd_c = 0.4;
constexpr double gap_sd_per_day_c = 0.4;
constexpr double gap_sd_most_c = 1.5;
constexpr double planned_sd_c = 0.7;

struct DayMean {
  Date day;
  double mean_c;
};

std::vector<DayMean> measured_days(std::span<const Record> records, const ZoneOffsets& zone) {
  std::map<Date, std::pair<double, int>> sums;
  for (const Record& record : records)
    if (const auto* t = std::get_if<TemperatureReading>(&record.entry.body); t && t->place == TemperatureReading::Place::tank) {
      auto& [sum, count] = sums[local_day(zone, record.entry.at)];
      sum += t->temperature.c();
      ++count;
    }
  std::vector<DayMean> result;
  for (const auto& [day, sum] : sums) result.push_back({day, sum.first / sum.second});
  return result;
}

/// The day's mean between the measured days around it, or held from the nearest one.
biology::DailyTemperature filled_day(Date day, const std::vector<DayMean>& measured, Temperature fallback) {
  const auto after = std::ranges::lower_bound(measured, day, {}, &DayMean::day);
  if (after != measured.end() && after->day == day)
    return {day, Temperature::from_c(after->mean_c), TemperatureChange::from_c(measured_sd_c), true};
  const auto doubt = [](days gap) {
    return TemperatureChange::from_c(std::min(gap_sd_most_c, measured_sd_c + gap_sd_per_day_c * static_cast<double>(gap.count())));
  };
  if (measured.empty()) return {day, fallback, TemperatureChange::from_c(gap_sd_most_c), false};
  constexpr days nearby{2};  // Assumed: a first reading says nothing of weeks before it
  if (after == measured.begin() && after->day - day > nearby) return {day, fallback, TemperatureChange::from_c(gap_sd_most_c), false};
  if (after == measured.begin()) return {day, Temperature::from_c(after->mean_c), doubt(after->day - day), false};
  const DayMean& before = *std::prev(after);
  if (after == measured.end()) return {day, Temperature::from_c(before.mean_c), doubt(day - before.day), false};
  const double part = static_cast<double>((day - before.day).count()) / static_cast<double>((after->day - before.day).count());
  return {day, Temperature::from_c(before.mean_c + part * (after->mean_c - before.mean_c)),
          doubt(std::min(day - before.day, after->day - day)), false};
}

}  // namespace

TemperatureBelief temperature_belief(const records::SeasonSetup& season, std::span<const Record> records, const ZoneOffsets& zone,
                                     Instant now, Date until) {
  TemperatureBelief belief;
  for (const Record& record : records) {
    if (const auto* t = std::get_if<TemperatureReading>(&record.entry.body); t && t->place == TemperatureReading::Place::tank) {
      belief.latest = t->temperature;
      belief.read_at = record.entry.at;
      belief.age_days = days_between(record.entry.at, now).count();
      belief.record = record.id;
      belief.series.push_back({record.entry.at, {t->temperature.c(), t->temperature.c(), t->temperature.c()}, false, "", record.id, ""});
    } else if (const auto* s = std::get_if<records::SetPoint>(&record.entry.body)) {
      belief.set_point = s->temperature;
    }
  }
  const Date today = local_day(zone, now);
  const std::vector<DayMean> measured = measured_days(records, zone);
  const Temperature fallback = belief.set_point.value_or(season.target);
  for (Date day = season.first_day; day <= today; day += days(1)) belief.days.push_back(filled_day(day, measured, fallback));

  // Beyond today the tank goes to the set-point, no faster than it was chilled to be safe: 1 C a day (see planning).
  const Temperature aim = belief.set_point.value_or(belief.latest.value_or(season.target));
  double level_c = belief.days.empty() ? aim.c() : belief.days.back().mean.c();
  for (Date day = std::max(today, season.first_day - days(1)) + days(1); day <= until; day += days(1)) {
    level_c += std::clamp(aim.c() - level_c, -1.0, 1.0);
    belief.days.push_back({day, Temperature::from_c(level_c), TemperatureChange::from_c(planned_sd_c), false});
  }
  return belief;
}

}  // namespace redd::inference
