#pragma once
// Survival of a lot whose animals come, die and leave on known days. Start at kaplan_meier().

#include <span>
#include <vector>

#include "numerics/proportions.h"

namespace redd::numerics {

/// What happened to the lot at one time. Within it: first the newcomers are at risk, then the dead die, then the rest leave.
struct LotChange {
  double at = 0;
  double joined = 0;  ///< animals that came
  double died = 0;
  double left = 0;    ///< taken out alive: nothing more is known of them
};

struct SurvivalPoint {
  double at = 0;
  double at_risk = 0;       ///< just before the deaths
  double died = 0;
  Range90 survival{};       ///< share that lives beyond this time
  double standard_error = 0;
  bool capped = false;      ///< more died than were at risk: the rest could not be counted
};

/// The product-limit estimate with Greenwood's error.
///
/// In      changes: in order of time; several of one time are taken together. level: of the interval, 0.5-0.9999.
/// Out     one point for each time with deaths, survival never rising. The interval is that of log(-log S): inside 0-1 and holding the estimate.
///         Before the first death, and after the last animal has died, the exact interval of the animals at risk is given instead.
/// Source  [kaplan1958]; interval [kalbfleisch2002], section 1.4.
std::vector<SurvivalPoint> kaplan_meier(std::span<const LotChange> changes, double level = 0.9);

}  // namespace redd::numerics
