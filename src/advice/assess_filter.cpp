#include "advice/assess_filter.h"

#include <algorithm>

namespace redd::advice {

bool leans_on_weak_ground(const planning::FilterOutlook& filter) {
  using enum inference::FilterDoubt;
  return !filter.complete || filter.lost_track || std::ranges::any_of(filter.doubts, [](const inference::DoubtedThing& d) {
    return d.what == readings_disagree || d.what == few_particles || d.what == no_readings || d.what == stopped_early;
  });
}

Tone readiness_tone(const planning::FilterOutlook& filter) {
  if (!filter.by_day) return Tone::unknown;
  if (filter.by_probability < doubtful_probability) return Tone::act;
  if (filter.by_probability < likely_probability) return Tone::watch;
  return leans_on_weak_ground(filter) ? Tone::unknown : Tone::good;
}

Tone capacity_tone(const planning::FilterOutlook& filter) {
  if (filter.outlook.coming_load_mg_n_per_l_per_day <= 0.0) return Tone::unknown;
  const double carries = filter.outlook.carries_coming_load_probability;
  if (carries < doubtful_probability) return Tone::act;
  if (carries < likely_probability) return Tone::watch;
  return leans_on_weak_ground(filter) ? Tone::unknown : Tone::good;
}

}  // namespace redd::advice
