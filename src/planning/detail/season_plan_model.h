#pragma once
// The question made ready for counting: the lots as smooth distributions over the common clocks, the allowed temperatures by what
// lives in the tank, and the exact score of any set-points.
//
// The common clock of a stage adds 1/D(T) each day, for all lots alike; a lot passes the stage when the clock reaches its own threshold
// need - done. So "the share of the lots that have passed" is a function of the clock alone, whatever the temperatures were.

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "planning/season_plan.h"

namespace redd::planning::detail {

/// Share of the lots (or animals) whose threshold lies at or below x. Weighted thresholds smeared by three moving averages.
class Passed {
 public:
  Passed() = default;
  /// In      thresholds and weights, alike long; node: width of the table's cells on the clock.
  Passed(std::span<const double> thresholds, std::span<const double> weights, double blur, double node);
  double at(double x) const;
  double quantile(double share) const;
  double end() const { return first_ + node_ * static_cast<double>(table_.empty() ? 0 : table_.size() - 1); }  ///< all have passed from here on
  bool empty() const { return table_.empty(); }
  double node() const { return node_; }

 private:
  double first_ = 0.0, node_ = 1.0;
  std::vector<double> table_;
};

inline constexpr double hair_c = 1e-9;  ///< temperatures that differ by less are the same

/// How far the two clocks have come since the first day began.
struct ClockPair {
  double hatch = 0.0, swim_up = 0.0;
};

class PlanModel {
 public:
  explicit PlanModel(const SeasonQuestion& question);

  const SeasonQuestion& question() const { return question_; }
  std::size_t days() const { return question_.days.size(); }
  ClockPair a_day_at(double water_c) const;

  const Passed& passed(PlanStage stage) const { return lots_[static_cast<std::size_t>(stage)]; }
  const Passed& hatched_animals() const { return animals_[0]; }
  const Passed& swum_up_animals() const { return animals_[1]; }
  double clock_of(PlanStage stage, const ClockPair& c) const { return stage == PlanStage::hatch ? c.hatch : c.swim_up; }

  /// Worth of the lots of this stage passing on this day: sum of weights of the wishes for which the day is good, each divided by
  /// the share still to come.
  double good_weight(PlanStage stage, std::size_t day) const { return good_[static_cast<std::size_t>(stage)][day]; }

  /// Who lives in the tank: the expected shares of eggs, alevins and fry, and the temperatures that every stage present bears.
  /// A stage counts as present while it holds least_share of the animals; with `slack` (on the clocks) only if it would be so
  /// that much earlier and later too.
  struct Living {
    std::array<double, 3> share{};
    double red_below_c = 0.0, red_above_c = 0.0;
    bool bear(double water_c) const { return water_c >= red_below_c - hair_c && water_c <= red_above_c + hair_c; }
  };
  Living living(const ClockPair& at, const ClockPair& slack = {}) const;
  /// Degrees outside the green band of eggs, alevins, fry.
  std::array<double, 3> amber_c(double water_c) const;
  bool equipment_holds(double water_c, std::size_t day) const;
  bool step_allowed(double from_c, double to_c) const;
  double kwh(double water_c, std::size_t day) const;

  /// Days on which water found outside the limits is led back, as far as needed; empty when it stands within.
  const std::array<biology::ThermalBand, 3>& bands() const { return bands_; }
  const std::vector<double>& recovery_c() const { return recovery_c_; }

  /// What a day's temperature can break.
  enum class Limit { animals, too_cold_for_equipment, too_warm_for_equipment, warming, cooling };
  struct Verdict {
    PlanScore score;
    std::optional<std::size_t> broken_day{};  ///< first day outside a limit
    Limit broken = Limit::animals;            ///< of that day, the first of the list
  };
  /// In      one temperature a day.
  Verdict verdict(std::span<const double> water_c) const;
  SeasonPlan plan_of(std::span<const double> water_c) const;

 private:
  /// In      before_c: of the day before; nothing when nobody knows it.
  std::optional<Limit> broken_limit(const Living& here, const std::optional<double>& before_c, double water_c, std::size_t day) const;
  void lead_back(double water_c);
  MilestoneWindow milestone(PlanStage stage, std::span<const ClockPair> clocks) const;

  const SeasonQuestion& question_;
  std::optional<biology::DevelopmentModel> hatch_, swim_up_;
  double growth_clock_each_c_day_ = 0.0;
  std::array<Passed, plan_stage_count> lots_;
  std::array<Passed, 2> animals_;
  std::array<std::vector<double>, plan_stage_count> good_;
  std::array<double, plan_stage_count> to_come_{};  ///< share of the lots that have not passed when the first day begins
  std::array<biology::ThermalBand, 3> bands_;       ///< eggs (green and eyed), alevins, fry
  std::vector<double> recovery_c_;
};

}  // namespace redd::planning::detail
