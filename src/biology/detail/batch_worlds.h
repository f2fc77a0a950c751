#pragma once
// Many possible histories of one batch, weighted by how well they agree with what was seen.
//
// A world fixes the start, the hatchery's temperature and the shifts of the record; given those, the lot's errors are a
// Gaussian that sightings update exactly. So only the start and the temperatures are sampled, and few samples go far.

#include <vector>

#include "biology/detail/lot_errors.h"
#include "biology/detail/temperature_paths.h"
#include "biology/detail/weighted_values.h"
#include "biology/development_forecast.h"

namespace redd::biology::detail {

/// The first day from which the record itself must carry the batch (before it, the hatchery's temperature does).
Date record_needed_from(const StartKnown& known, Date first_recorded);

/// An observation in the terms of the model.
struct Sighting {
  std::size_t stage;
  double z;  ///< which animal: standard deviations from the lot's middle
  bool seen;
  double position;  ///< day on the timeline
  double day_sd;
  double judging_sd;  ///< of the logarithm, from judging which animal that was
};

class BatchWorlds {
 public:
  BatchWorlds(const SpeciesProfile& species, const Clocks& clocks, const Timeline& timeline, const BatchStart& start,
              unsigned log2_samples);

  Sighting sighting(const ObservedMilestone& observation) const;
  /// Distance of the sighting from what the worlds expect, in standard deviations; positive: later than expected.
  /// For a "not yet" that nobody expected: the same, from its probability.
  double surprise(const Sighting& sighting) const;
  CalendarMoment expected(const Sighting& sighting) const;
  void widen(double variance_factor);
  void learn(const Sighting& sighting);
  /// Draws the lot's errors and normalises the weights. Ask the questions below only afterwards.
  void settle();

  WeightedValues positions(Stage stage, double z) const;
  double probability_by(Stage stage, CalendarMoment moment) const;
  WeightedValues past_fractions(Stage stage, CalendarMoment moment) const;
  std::array<double, 4> lot_stage_probability(CalendarMoment moment) const;
  std::array<double, 4> batch_fraction(CalendarMoment moment) const;
  WeightedValues thermal_sums(CalendarMoment moment) const;
  /// Where each world stands at this moment: see LotToGo.
  std::vector<LotToGo> lots_to_go(CalendarMoment moment) const;
  int days_outside_test_range(Stage stage) const { return days_outside_[static_cast<std::size_t>(stage)]; }
  double effective_samples() const;
  const Timeline& timeline() const { return timeline_; }
  const std::vector<Sentence>& notes() const { return notes_; }

 private:
  struct Start {
    double position;                           ///< where counting on the record begins
    std::array<double, clock_count> progress;  ///< until then; of the lot's own way when `own_share`
    std::array<double, clock_count> pre_rate;  ///< progress a day before that position
    bool own_share;                            ///< progress counts in the lot's own thresholds, not the curve's
  };
  struct Sample {
    TemperaturePaths::World world;
    double shift_to_come;  ///< of the days to come, in their standard deviations
    Start start;
    std::array<double, clock_count> total_at_start;  ///< the record's sums at the start, asked for often
    LotErrors errors;
    double log_weight = 0.0;
    double weight = 0.0;
    Triple x{};
  };
  struct NotYet {
    Sighting sighting;
    std::vector<LotErrors::StandIn> stand_ins;  ///< one a sample
  };
  struct Reading {
    double value, variance;  ///< of x as the sighting shows it in one sample
  };

  void learn_not_yet(const Sighting& sighting);
  Start start_of(double start_uniform, double start_normal, double incubation_normal) const;
  Start fertilised(const Fertilised& known, double start_normal, Temperature incubation) const;
  Start thermal_units(const ThermalUnitsSoFar& known, double start_normal, Temperature incubation) const;
  Start received_eyed(const ReceivedEyed& known, double start_uniform, Temperature incubation) const;
  Sample sample_of(const Shifts& shifts, const Start& start, const LotErrors& errors) const;
  LotErrors prior_errors();
  double gained(const Sample& sample, std::size_t clock, double position) const;
  double position_at(const Sample& sample, std::size_t stage, double x, double z) const;
  double past_fraction(const Sample& sample, std::size_t stage, double position) const;
  Reading reading(const Sample& sample, const Sighting& sighting) const;
  std::vector<double> current_weights() const;

  const SpeciesProfile& species_;
  const Clocks& clocks_;
  const Timeline& timeline_;
  const BatchStart& batch_;
  IncubationTemperature incubation_;
  double spread_;
  TemperaturePaths paths_;
  std::vector<Sample> samples_;
  std::vector<NotYet> not_yets_;
  std::array<int, 3> days_outside_{};
  std::vector<Sentence> notes_;
};

}  // namespace redd::biology::detail
