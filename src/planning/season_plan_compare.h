#pragma once
// What changed since the last plan, and why. Start at what_changed().

#include <span>
#include <vector>

#include "planning/season_plan.h"

namespace redd::planning {

struct PlanDifference {
  bool same = true;                  ///< no set-point of a day in both plans differs
  std::optional<Date> first_day{};   ///< on which they differ
  int days_that_differ = 0;
  std::vector<Sentence> what{};      ///< in order of day
  std::vector<Sentence> why{};       ///< temperatures logged, where the batch stands, wishes; empty when nothing of these moved
  /// What the old set-points would score now, and the new plan's gain over that; nothing when they break a limit by now.
  std::optional<double> old_plan_now{};
};

/// Compares last week's plan with the new one.
///
/// In      question: of the new plan. logged: daily means since the old plan's first day; days before the new plan's first are looked at.
/// Out     sentences about days in both plans only.
PlanDifference what_changed(const SeasonPlan& before, const SeasonPlan& now, const SeasonQuestion& question,
                            std::span<const biology::DailyTemperature> logged);

}  // namespace redd::planning
