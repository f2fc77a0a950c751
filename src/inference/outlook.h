#pragma once
// What becomes of the ripening filter under a plan: when it is ready, how likely, what it can carry, and what the next readings should
// look like. Start at outlook(). Pure: the same posterior and plan give the same answer, for any number of threads.

#include <cstdint>
#include <optional>
#include <vector>

#include "inference/filter_posterior.h"
#include "numerics/workers.h"
#include "quantities/estimate.h"

namespace redd::inference {

/// When a filter is called ready: a test dose of ammonia is gone within a day, at the temperature that holds then, and nitrite with it.
/// Source  A dose cleared within a day: common practice, no source. Assumed: its size; 1 mg N/L is thirty times what a hundred alevins
///         in 200 L give off in a day (0.01-0.03 mg N/L), so a filter that passes can carry the brood and has something in hand.
struct ReadyDefinition {
  double test_dose_mg_n_per_l = 1.0;
  double within_hours = 24.0;
  double total_ammonia_limit_mg_n_per_l = 0.2;  ///< Assumed: about the first step above zero of a coarse card
  double nitrite_limit_mg_n_per_l = 0.1;        ///< Assumed: likewise, and below the marks for salmonids in soft water
  std::optional<double> temperature_c{};        ///< the target, to ask "would it be ready if it were cold now"; else the plan's that day
};

struct OutlookQuestion {
  ReadyDefinition ready{};
  double now_day = 0;               ///< days since the season's begin; not before the last sitting
  double until_day = 60;
  double target_temperature_c = 10; ///< for the capacity once chilled
  double every_days = 2;            ///< how often readiness is tried
  std::size_t draws = 512;
  std::uint64_t seed = 1;           ///< of what is still to happen by chance
  numerics::Workers* workers = nullptr;
};

/// When something happens, in days since the season's begin. Shares count all draws; those in which it does not happen before the end
/// stand after every date, and a bound that lies there is empty.
struct DayWindow {
  double probability = 0;  ///< of happening by the end of the plan
  std::optional<double> low_90{}, low_50{}, mid{}, high_50{}, high_90{};
};

/// 50 % and 90 % band of one column on one day.
struct Band {
  double low_90 = 0, low_50 = 0, mid = 0, high_50 = 0, high_90 = 0;
};
struct DayBands {
  double at_day = 0;
  Band total_ammonia_mg_n_per_l{}, nitrite_mg_n_per_l{}, nitrate_mg_n_per_l{}, ph{}, alkalinity_meq_per_l{};
};

struct ReadyOnDay {
  double at_day = 0;
  double probability = 0;   ///< that a test begun on this day is passed
  double standard_error = 0;  ///< of the simulation
};

struct PredictedReading {
  SittingTest test{};  ///< without readings
  std::vector<PossibleReading> possible{};
};

struct Outlook {
  std::vector<DayBands> bands{};       ///< a day each, from the season's first
  std::vector<ReadyOnDay> ready_on{};  ///< from now on
  DayWindow total_ammonia_peak{}, nitrite_peak{};  ///< days of the highest values, past or to come
  DayWindow ready{};                   ///< first day on which the test is passed
  Estimate<double> capacity_now_mg_n_per_l_per_day{0, 0, 0};
  Estimate<double> capacity_at_target_mg_n_per_l_per_day{0, 0, 0};
  double coming_load_mg_n_per_l_per_day = 0;  ///< highest day of the plan from now on, its middle
  double coming_load_day = 0;                 ///< that day
  double carries_coming_load_probability = 0; ///< capacity at target at least the load, the doubt of the load included
  double next_sitting_day = 0;
  std::vector<PredictedReading> next_readings{};  ///< a week after now, on the keeper's own cards
  bool sound = true;                   ///< false: a simulated tank came to no number, and nothing here is to be believed
};

/// In      plan: the posterior's season with forcing to question.until_day and what is to be done; its past must be the season's own.
/// Out     `sound` false and the rest empty when the plan's past is another.
/// Shape   about (days of season and plan) * draws * 0.2 microseconds.
Outlook outlook(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question);

/// Chance that a test begun on this one day is passed, of each draw; for comparing plans with the same draws.
std::vector<bool> ready_on_day(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question, double day);

}  // namespace redd::inference
