#pragma once
// What a keeper can do to raise the odds that the filter is ready on a day, and by how much each thing raises them.
// Start at measure_effects(). All plans are tried on the same draws, so that small differences are not lost in chance.

#include <vector>

#include "inference/outlook.h"
#include "quantities/sentence.h"

namespace redd::inference {

enum class MeasureKind { warmer, later_chill, ammonia_dose, weekly_ammonia, warm_and_fed, more_alkalinity, seeded_media };

/// What may be proposed. Nothing here is advice to go against a permit, local rules or a veterinarian.
struct MeasureLimits {
  bool animals_present = false;           ///< then neither ammonia nor warmth is proposed
  double warmest_c = 26.0;                ///< Assumed: below the 28-30 C at which nitrifiers begin to suffer, with room for a bad thermometer
  double weekly_dose_mg_n_per_l = 0.7;    ///< Assumed: a tenth of a milligram a day keeps a filter that can carry a small brood
  double last_dose_days = 3.0;            ///< Assumed: no dose within three days of the eggs
  double dose_days = 7.0;                 ///< Assumed: a dose is given no later than a week before the day, so that it is gone by then
  double cooling_days = 7.0;              ///< a week from warm to cold; Source  a sudden fall of 10 C cost a fifth more activity than a gradual
                                          ///< one (Hwang and Oleszkiewicz 2007, abstract)
  /// Highest total ammonia a dose may lead to, and highest un-ionized part of it (as N), at the high end of pH.
  /// Source  Free ammonia that halves nitrite oxidation is put at 0.2-0.64 mg N/L (Hiatt and Grady; Park and Bae): half of the lowest.
  double most_total_ammonia_mg_n_per_l = 3.0;  ///< Assumed: more brings no further growth (half saturation 0.1-1) and more nitrite
  double most_un_ionized_mg_n_per_l = 0.1;
  double good_alkalinity_meq_per_l = 2.0;      ///< Assumed: four times the half saturation of 0.5
  double seeded_share_fraction = 0.05;
};

struct Measure {
  MeasureKind kind = MeasureKind::warmer;
  Sentence what{};
  double amount = 0;  ///< degrees, days, mg N/L, meq/L or share
  FilterSeason plan{};
};

struct MeasureEffect {
  Measure measure{};
  double ready_probability = 0;
  double change = 0;          ///< against the plan as it stands
  double standard_error = 0;  ///< of the change, draws paired
};

struct MeasureComparison {
  double planned_probability = 0;
  double planned_standard_error = 0;
  std::vector<MeasureEffect> effects{};  ///< best first; only what makes sense in this tank and keeps to the limits
};

/// In      ready_day: usually the day the eggs come.
/// Out     empty effects when the plan's past is not the posterior's.
MeasureComparison measure_effects(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question, double ready_day,
                                  const MeasureLimits& limits = {});

/// The measures alone, untried.
std::vector<Measure> possible_measures(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question, double ready_day,
                                       const MeasureLimits& limits = {});

}  // namespace redd::inference
