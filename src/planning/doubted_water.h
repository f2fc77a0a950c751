#pragma once
// The water as it is to be reckoned with when a kit or a pair of readings is in doubt: wide enough to hold both what was read and what else would be
// true if the readings are wrong. Start at with_doubt().

#include "planning/filter_outlook.h"

namespace redd::planning {

/// Dissolved CO2 that pH and KH together may mean in an aired tank, mg/L.
/// Assumed: beyond these one of the two readings is wrong.
inline constexpr double least_co2_mg_per_l = 0.2, most_co2_mg_per_l = 50.0;

/// pH and KH of about one moment that can hardly both be right.
struct PhAgainstKh {
  bool too_much_co2 = false;             ///< pH is too low for this KH, or KH too high for this pH; else the other way round
  double co2_mg_per_l = 0;               ///< nearest to the believable that both readings allow
  std::vector<records::RecordId> records{};
};
/// In      season: its target stands in for a temperature never read.
std::optional<PhAgainstKh> ph_against_kh(const records::SeasonSetup& season, const inference::Belief& belief);

/// The same belief, each doubted quantity widened and marked with why:
///   - of a kit that the filter's outlook finds off time after time, so that it also holds the value without the kit's error;
///   - pH and KH that contradict each other: pH so that it also holds that of water in balance with air at the KH read, KH so that it holds what the pH
///     read would need.
/// Middles stay as read. Nothing is narrowed; a belief with a mark is left as it is.
///
/// In      filter: of the same moment; nullptr when not worked out.
inference::Belief with_doubt(inference::Belief belief, const records::SeasonSetup& season, const FilterOutlook* filter);

}  // namespace redd::planning
