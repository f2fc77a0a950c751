#pragma once
// What the ripening filter will do under the keeper's plan: ready when, how likely by egg day, able to carry what is coming, and what would
// raise the odds. Start at filter_outlook(); filter_posterior_of() makes the posterior it rests on.

#include <memory>
#include <optional>
#include <vector>

#include "inference/filter_season.h"
#include "inference/outlook_measures.h"

namespace redd::planning {

/// The season's own definition of ready; where it has none: three times the ammonia of the heaviest day that is planned, between 0.5 and 1 mg N/L,
/// gone within a day.
///
/// Source  A dose cleared within a day: common practice, no source. Assumed: its size. A filter must carry its brood, with something in hand for
///         what a class forgets; a fixed dose asks too much of a small brood's cold filter and too little of a large one's.
inference::ReadyDefinition ready_definition(const records::SeasonSetup& season, double heaviest_load_mg_n_per_l_per_day);

/// How many simulated tanks stand for the posterior, and the rest of what the sampler needs. The same for every caller, so that page and
/// command line agree.
inference::SmcSettings filter_settings(const records::SeasonSetup& season);

/// Readings that agree with each other and not with the model: something happened in the tank that the log does not say.
struct LostTrack {
  records::Quantity quantity = records::Quantity::nitrite;
  double since_day = 0;
  bool higher = true;                            ///< the readings lie above what was expected
  std::vector<records::RecordId> records{};      ///< at least two
};

struct FilterOutlook {
  Instant begin{};                     ///< day 0 of all days below
  double now_day = 0;
  inference::ReadyDefinition ready{};
  inference::Outlook outlook{};
  std::optional<Date> by_day{};        ///< egg day, while it is still to come
  double by_probability = 0;           ///< of being ready on it, at the temperature planned for it
  double today_probability = 0;        ///< a test begun now would be passed
  std::optional<double> cold_today_probability{};  ///< and if the water were at the target now; only while it is warmer
  std::optional<inference::MeasureComparison> measures{};  ///< while there is a day to be ready by
  std::optional<Date> hatch{}, swim_up{};
  std::vector<inference::DoubtedThing> doubts{};
  std::optional<LostTrack> lost_track{};  ///< then nothing foretold here is to be relied on
  std::vector<Sentence> assumed{};
  std::size_t particles = 0, sittings = 0;
  bool complete = true;                ///< all readings were taken in
  std::shared_ptr<const tank::Ensemble> tanks{};  ///< draws of the posterior carried to now_day; for whoever forecasts the water further
};

/// In      found: posterior of filter_case(…).season or of an earlier moment of the same log.
/// Out     nothing when it is of another season, or when a simulated tank came to no number.
std::optional<FilterOutlook> filter_outlook(const records::SeasonSetup& season, const inference::Belief& belief, const inference::FilterCase& now,
                                            const inference::FilterPosterior& found, const ZoneOffsets& zone, numerics::Workers* workers = nullptr);

}  // namespace redd::planning
