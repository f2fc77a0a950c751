#pragma once
// Invented seasons for tests, benchmark and oracle of the temperature planner: a school calendar, a room, a batch, wishes. The same seed gives the
// same season.

#include <algorithm>
#include <cmath>
#include <vector>

#include "numerics/normal.h"
#include "numerics/random.h"
#include "planning/season_plan.h"
#include "planning/season_plan_lots.h"

namespace redd::planning::testing {

inline const Date first_day = *date_from_iso("2031-01-13");  // a Monday

/// A batch at the start of the first day as biology would tell it: eggs fertilised so many days ago at one temperature.
inline std::vector<biology::LotToGo> batch(const biology::SpeciesProfile& species, double days_so_far, double hatchery_c, std::size_t count) {
  const Date day = first_day - std::chrono::days(static_cast<int>(days_so_far));
  std::vector<biology::DailyTemperature> past;
  for (Date d = day; d < first_day; d += std::chrono::days(1)) past.push_back({d, Temperature::from_c(hatchery_c), TemperatureChange::from_c(0.3), true});
  return *biology::lots_to_go(species, {}, {biology::Fertilised{day, Days(1.0), {}}, biology::EggOrigin::farmed, 200}, past, {}, first_day - std::chrono::days(1), count);
}

/// Lots of a log-normal threshold alone, without biology's sampling: quick, for many small questions.
inline std::vector<Lot> plain_lots(int count, double done_hatch, double done_swim_up, double log_sd) {
  std::vector<Lot> lots;
  for (int i = 0; i < count; ++i) {
    const double factor = std::exp(log_sd * numerics::normal_quantile((i + 0.5) / count));
    lots.push_back({1.0, {factor, done_hatch}, {factor, done_swim_up}, 0.0});
  }
  return lots;
}

struct Calendar {
  std::vector<bool> school_open, somebody_feeds;
};

/// Monday to Friday open but for a break and single days; nobody feeds in the break.
inline Calendar calendar(int days, int break_first, int break_days, std::uint64_t seed) {
  numerics::RandomStream stream(seed, 5);
  Calendar result;
  for (int d = 0; d < days; ++d) {
    const bool in_break = d >= break_first && d < break_first + break_days;
    result.school_open.push_back(d % 7 < 5 && !in_break && !stream.chance(0.03));
    result.somebody_feeds.push_back(!in_break);
  }
  return result;
}

/// A whole season of this species at default precision.
/// Out     days_so_far: since fertilisation, all at 8 C.
inline SeasonQuestion season(std::string_view species_key, int days, std::uint64_t seed, std::size_t lots = 512, int* days_so_far = nullptr) {
  numerics::RandomStream stream(seed, 1);
  SeasonQuestion q{.species = *biology::find_species(species_key)};
  const double coldest = stream.uniform_between(3.0, 6.0);
  for (int d = 0; d < days; ++d) {
    const double room = 20.0 + 4.0 * std::clamp((d - 90.0) / 100.0, 0.0, 1.0);
    q.days.push_back({first_day + std::chrono::days(d), Temperature::from_c(coldest + 0.3 * (room - 20.0)), Temperature::from_c(room), Temperature::from_c(room), 0.1});
  }
  const double water = std::round(stream.uniform_between(7.0, 10.0) * 2.0) / 2.0;
  q.water_now = Temperature::from_c(water);
  const double to_hatch = biology::days_at(*biology::model_for(q.species, biology::Stage::hatch), Temperature::from_c(8.0))->count();
  q.animal_log_sd = biology::batch_log_sd(biology::EggOrigin::farmed);
  const double so_far = std::floor(to_hatch * stream.uniform_between(0.45, 0.7));
  if (days_so_far) *days_so_far = static_cast<int>(so_far);
  q.lots = *planning_lots(q.species, {}, batch(q.species, so_far, 8.0, lots), Temperature::from_c(8.0));
  const int break_first = static_cast<int>(stream.index_below(40)) + 30;
  const Calendar school = calendar(days, break_first, 10 + static_cast<int>(stream.index_below(8)), seed);
  q.wishes = {hatch_on_school_days(school.school_open), feeding_outside_breaks(school.somebody_feeds, 2),
              swim_up_between(q.days, first_day + std::chrono::days(break_first + 20), first_day + std::chrono::days(break_first + 55))};
  return q;
}

}  // namespace redd::planning::testing
