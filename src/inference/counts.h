#pragma once
// The brood in numbers: who came, who died, who left, how many live, and whether more die than is to be expected. Start at counts_of().
// Deaths are those found. An animal that dissolved, went into the filter or dried under the lid is only seen to be missing when the living are counted.

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "biology/typical_survival.h"
#include "inference/belief.h"
#include "inference/counts_account.h"
#include "numerics/survival.h"

namespace redd::inference {

using biology::LossPhase;
using biology::SurvivalStage;

/// Survival through one stage, with the doubt of so small a lot.
struct StageSurvival {
  /// Against the typical range. Below only when the whole interval lies below it.
  enum class Verdict { below, cannot_tell, not_below, not_looked };
  SurvivalStage stage = SurvivalStage::egg;
  double entered = 0;             ///< animals at its beginning
  int died = 0;                   ///< found dead in it
  bool finished = false;
  Estimate<double> survival_fraction{};
  Verdict verdict = Verdict::cannot_tell;
};

/// One drop of the survival curve.
struct SurvivalStep {
  Date found{};                   ///< the day the dead were found
  Date from{};                    ///< they died on this day at the earliest: the day after the look before
  double at_risk = 0;
  double died = 0;
  Estimate<double> survival_fraction{};
};

/// What was found at one look, and what was to be expected since the look before.
struct LossLook {
  Date from{}, to{};              ///< the days it speaks of; to: the day of the look
  int died = 0;
  double expected = 0;
  double at_risk = 0;
  LossPhase phase = LossPhase::egg;
  double sum = 0, limit = 0;      ///< the chart
  bool began = false, signals = false;
  std::vector<RecordId> records{};
};

/// A run of deaths that was more than expected, after its alarm has ended.
struct PastLosses {
  Date first{}, last{};           ///< the looks that found them
  int died = 0;
  double expected = 0;
  int died_since = 0;             ///< found after it, no more than usual
  std::vector<RecordId> records{};
};

/// Whether more die than is to be expected.
struct LossWatch {
  enum class State { no_animals, not_known, as_expected, more_than_expected };
  State state = State::no_animals;
  std::vector<LossLook> looks{};             ///< oldest first
  std::optional<Date> looked{};              ///< newest day with a count of dead, also none, or of living that fits
  double expected_per_day = 0;               ///< now, of what is alive
  double season_ratio = 1;                   ///< the season's own losses against the typical, 0.5-2
  int false_alarm_days = 0;                  ///< one false alarm in so many days, at most
  // Within the three days before now, whatever the chart says:
  int recent_died = 0;
  double recent_fraction = 0;                ///< of those alive before
  std::vector<RecordId> recent_records{};
  bool many_at_once = false;                 ///< a tenth or more: an emergency, whatever the chart says
  std::optional<PastLosses> lately{};        ///< of the last seven days: no more die than usual by now, but all is not well yet
  // When more than expected:
  Date since{};                              ///< the first day they may have died
  Date found{};                              ///< the first look that found them
  int died = 0;
  double expected = 0;
  std::vector<RecordId> records{};
  std::vector<Finding> checks{};             ///< what to look at, in this order, and what is known of it
  std::vector<Finding> changes{};            ///< what was done or happened shortly before, newest first
};

struct Counts {
  Date today{};
  std::optional<Date> received_on{};         ///< absent: no eggs yet, and then all else is empty
  bool released = false;
  AliveAccount account{};
  std::vector<StageSurvival> stages{};       ///< those begun; the whole way last
  std::vector<SurvivalStep> curve{};         ///< of the deaths found
  std::optional<Estimate<double>> counted_fraction{};  ///< share of the received that the newest count of living, with those released, accounts for
  std::optional<Date> counted_on{};
  LossWatch losses{};
};

/// In      records: effective. belief: of the same moment.
/// Shape   about a millisecond for a season.
Counts counts_of(std::span<const records::Record> records, const Belief& belief, const ZoneOffsets& zone, Instant now);

/// The parts of it, one file each.
/// Phase of each day by the forecast; without one the alevins' low losses are expected throughout, so that an alarm comes rather than not.
LossPhase loss_phase(const BroodBelief& brood, std::span<const Date> receipts, Date day);
LossWatch loss_watch(std::span<const records::Record> records, const Belief& belief, const AliveAccount& account, const ZoneOffsets& zone, Instant now);
/// What to look at when many die, most urgent first; and what was done in the days before.
std::vector<Finding> loss_checks(std::span<const records::Record> records, const Belief& belief, const ZoneOffsets& zone, Instant now);
std::vector<Finding> changes_before(std::span<const records::Record> records, const ZoneOffsets& zone, Date since, Instant now);
/// Dead eggs belong to the eggs' stage whenever they are found, and so on.
std::vector<StageSurvival> stage_survival(std::span<const records::Record> records, const BroodBelief& brood, const AliveAccount& account, const ZoneOffsets& zone);
/// In      looks: the days somebody looked, with what was found.
std::vector<SurvivalStep> survival_curve(std::span<const records::Record> records, std::span<const LossLook> looks, const ZoneOffsets& zone);

}  // namespace redd::inference
