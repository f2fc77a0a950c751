#pragma once
// Whether first feeding falls into days on which nobody feeds, and the set-point that would keep it out. Start at break_risk().
// A quick look for today's advice: one set-point held until swim-up. The temperature plan weighs all wishes against each other.

#include <optional>
#include <string>

#include "inference/belief.h"
#include "planning/set_point_range.h"
#include "records/school_calendar.h"

namespace redd::planning {

/// A set-point that moves first feeding.
struct SetPointShift {
  Temperature from = Temperature::from_c(0), to = Temperature::from_c(0);  ///< planned until then, and instead from tomorrow on
  double probability = 0;             ///< that first feeding still falls into unfed days
  Date median{};                      ///< half swum up, most likely
};

struct BreakRisk {
  double probability = 0;             ///< that swim-up, or the two days after it, fall on a day nobody feeds
  Date median{};
  Date from{}, to{};                  ///< the closed days it most likely falls into
  std::string name{};                 ///< as logged; empty for days without a name
  std::optional<SetPointShift> shift{};  ///< the smallest they like best that makes it unlikely, else the one that helps most; nothing when none takes a third of it away
  /// When there is no such shift: one beyond what they like best, within what they bear, as the season's plan may set it.
  std::optional<SetPointShift> edge_shift{};
  SetPointRange liked{}, borne{};        ///< set-points tried for the one and the other; all of them the equipment holds
};

/// Days ahead for which a shift is looked for. Source: nearer than that hatch and swim-up move by a day or two only, common practice; farther ahead
/// the dates are too wide.
inline constexpr int shift_soonest_days = 7, shift_latest_days = 70;

/// In      belief: with a forecast of the same moment. abilities: what the equipment holds, from tomorrow on; empty when it is not described.
/// Out     nothing while swim-up is nearer or farther than that, or less than 15 % likely to fall into unfed days. Set-points stay within what the stages
///         until swim-up bear and the equipment holds (set_point_range.h, as the season's plan) and move the water by a degree a day at most.
/// Shape   well under a millisecond.
std::optional<BreakRisk> break_risk(const records::SeasonSetup& season, const inference::Belief& belief, const records::SchoolCalendar& calendar, Date today,
                                    std::span<const PlanDay> abilities = {});

}  // namespace redd::planning
