#pragma once
// When will the eggs be eyed, hatch and swim up? A forecast in windows, never a bare date, that learns from what was
// seen. Start at forecast_development(). Pure and deterministic: the same arguments give the same numbers, and there is
// no seed.
//
// Doubt has four parts, all carried to every date: the lot against the curve, the animals against their lot, the start
// as the hatchery told it, and the temperature (measured, filled in, and still to come). The reasoning:
// docs/science/development.md.

#include <array>
#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "biology/species.h"
#include "biology/stages.h"
#include "quantities/estimate.h"
#include "quantities/result.h"
#include "quantities/sentence.h"
#include "quantities/temperature.h"
#include "quantities/time.h"

namespace redd::biology {

/// A point in the school's calendar with its fraction of a day. floor to Date for printing.
using CalendarMoment = std::chrono::local_time<Days>;
inline Date day_of(CalendarMoment moment) {
  return std::chrono::floor<std::chrono::days>(moment);
}

/// Noon: when a thing said only to be "on that day" is taken to have been.
inline CalendarMoment noon_of(Date day) {
  return CalendarMoment(day) + Days(0.5);
}

/// One day of water: its mean, and how sure. Gaps are to be filled by the caller with their true doubt and measured =
/// false.
struct DailyTemperature {
  Date day;
  Temperature mean;
  TemperatureChange sd;  ///< of the mean; taken as one lasting offset of all days until today, another of all to come
  bool measured = true;  ///< false: filled in or planned
};

/// Where the eggs were kept before the record begins.
struct IncubationTemperature {
  Temperature mean;
  TemperatureChange give_or_take;  ///< half of the 90 % interval
};

/// The eggs were fertilised on this day.
struct Fertilised {
  Date day;
  Days give_or_take{1.0};  ///< half of the 90 % interval
  std::optional<IncubationTemperature>
      incubation{};  ///< for days before the record; without it the species' egg band is assumed
};

/// The hatchery's thermal units so far.
struct ThermalUnitsSoFar {
  ThermalSum sum;
  ThermalSum give_or_take = ThermalSum::from_c_days(0.0);  ///< half of the 90 % interval
  Date as_of;
  std::optional<IncubationTemperature> incubation{};
};

/// Only this is known: the eggs were eyed when they came.
/// Assumed: eyed eggs are shipped anywhere between these shares of their own way to hatch, each equally likely.
struct ReceivedEyed {
  Date day;
  double least_share_of_hatch = 0.5;
  double most_share_of_hatch = 0.9;
  std::optional<IncubationTemperature> incubation{};
};

using StartKnown = std::variant<Fertilised, ThermalUnitsSoFar, ReceivedEyed>;

/// Farmed eggs hatch within days of each other, wild ones within weeks. Unknown counts as wild, the wider.
enum class EggOrigin { unknown, farmed, wild };

struct BatchStart {
  StartKnown known;
  EggOrigin origin = EggOrigin::unknown;
  std::optional<int> egg_count{};  ///< tells how early "the first" is; 200 is assumed
};

/// Something seen, or looked for and not seen, on a day.
struct ObservedMilestone {
  Milestone milestone;
  Date day;
  bool seen = true;           ///< false: looked on that day and it had not happened yet
  Days since_last_look{1.0};  ///< a thing seen came about at some time between the look before and this one
};

/// A moment in doubt: the median with the central half and the central 90 %.
struct MomentWindow {
  CalendarMoment low_90, low_50, median, high_50, high_90;
  bool open_ended = false;  ///< some ends lie beyond the last day looked at and are given as that day
};

struct StageForecast {
  Stage stage = Stage::hatch;
  std::string_view model_key;
  MomentWindow lot;                   ///< when half of the animals have passed
  MomentWindow first_tenth;           ///< when 10 % have
  MomentWindow last_tenth;            ///< when 90 % have
  double happened_probability = 0.0;  ///< that half have passed by noon today
  Estimate<double> past_fraction{};   ///< share of the animals past the stage at noon today
  int days_outside_test_range = 0;    ///< days on the way at which the curve is extrapolated
};

/// How an observation was taken.
struct ObservationReport {
  ObservedMilestone observation;
  bool used = false;
  double surprise_sd = 0.0;                  ///< distance from what was expected before it, in sd of the total doubt
  std::optional<CalendarMoment> expected{};  ///< when it was expected, filled in for a surprising one
  Sentence sentence{};                       ///< empty when there is nothing to say
};

struct DevelopmentForecast {
  Date today;
  std::array<StageForecast, 3> stages;            ///< eyed, hatch, swim-up
  std::array<double, 4> lot_stage_probability{};  ///< of the lot's middle animal, by LifeStage
  std::array<double, 4> batch_fraction{};         ///< expected share of the animals in each LifeStage
  Estimate<ThermalSum> thermal_sum{ThermalSum::from_c_days(0), ThermalSum::from_c_days(0), ThermalSum::from_c_days(0)};
  std::vector<ObservationReport> observations;  ///< in order of day
  std::vector<Sentence> notes;                  ///< what was assumed or extrapolated, in sentences
  int filled_days = 0;                          ///< days until today that nobody measured
  double effective_samples = 0.0;               ///< how many equally weighted samples the answer is worth

  const StageForecast& stage(Stage which) const { return stages[static_cast<std::size_t>(which)]; }
};

/// Windows for all three milestones, and where the batch stands today.
///
/// In      temperatures: one entry a day, oldest first, at least one: the record so far, then the plan. Missing days
///         between are filled in a straight line with more doubt; beyond the last day its temperature is held with more
///         doubt. observations: in any order; those dated after today are reported and left out.
/// Out     medians and windows by weighted quasi-random samples: exact in the lot's error given everything else,
///         ends repeat to about 1 % of the width.
/// Shape   about 8 ms for a year of days; allocates its own working memory.
/// Errors  unknown_model; out_of_range for temperatures outside -5 to 35 C, negative sums, doubts or shares;
///         missing_temperature; days_out_of_order.
/// Source  lot error and within-lot spread: docs/science/development.md. Two clocks, hatch and swim-up, run from one
/// start.
///         An observed stage shifts the others: ln k(swim-up) = 0.7 ln k(hatch) + N(0, 0.06). Assumed, there argued.
Result<DevelopmentForecast> forecast_development(const SpeciesProfile& species, const ModelChoice& choice,
                                                 const BatchStart& start,
                                                 std::span<const DailyTemperature> temperatures,
                                                 std::span<const ObservedMilestone> observations, Date today);

/// One possible lot as it stands at a moment, for whoever plans temperatures from there on. Its middle animal passes a stage when the
/// stage's curve has added need - done more progress; one z standard deviations from the middle (batch_log_sd) needs need exp(s z).
struct LotToGo {
  struct Stage {
    double need = 1.0, done = 0.0;
  };
  double weight = 0.0;
  double shift_to_come_sd = 0.0;  ///< the temperatures to come depart by this many of their standard deviations, lastingly
  std::array<Stage, 3> stages{};  ///< eyed, hatch, swim-up
};

/// The same knowledge as forecast_development(), as weighted lots at the start of the day after `today`.
/// In      as there; only temperatures until today matter.
/// Out     equally weighted lots, `count` of them (at least 1), drawn evenly from the posterior.
/// Errors  as there.
Result<std::vector<LotToGo>> lots_to_go(const SpeciesProfile& species, const ModelChoice& choice, const BatchStart& start,
                                        std::span<const DailyTemperature> temperatures,
                                        std::span<const ObservedMilestone> observations, Date today, std::size_t count = 512);

/// sd of ln(threshold) between the animals of one lot.
/// Source  farmed trout finish hatching in 2-4 d (egg producer's manual; FAWC: 2-3 d), which is 0.025 at 10 C; wild
/// coho families take
///         1-3 weeks at 6 C [konecki1995], which is 0.05.
double batch_log_sd(EggOrigin origin);

}  // namespace redd::biology
