#pragma once
// How the filter's outlook is judged. Never better than unknown where the posterior is doubted: a forecast may warn on weak ground, not calm.

#include "advice/situation.h"

namespace redd::advice {

/// Chances at which being ready by egg day is called likely, doubtful, unlikely.
/// Assumed: a lot of eggs is lost when they come to a raw filter, so nine in ten is asked; below one in two another date is the better plan.
inline constexpr double likely_probability = 0.9;
inline constexpr double doubtful_probability = 0.5;

/// Whether the posterior's own doubts forbid to lean on it.
bool leans_on_weak_ground(const planning::FilterOutlook& filter);

/// Of being ready on egg day; unknown without a day.
Tone readiness_tone(const planning::FilterOutlook& filter);

/// Of the chilled filter carrying the highest load that is planned; unknown without a load.
Tone capacity_tone(const planning::FilterOutlook& filter);

}  // namespace redd::advice
