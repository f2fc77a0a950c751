#pragma once
// How heavy the fry are and will be, with the doubt of it: two rival growth models, many factors, held against the fish that were weighed or
// measured. Start at growth_belief(). Pure and without a seed: the draws are an even spread, so the same records give the same numbers.

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "biology/growth.h"
#include "inference/belief.h"

namespace redd::inference {

/// One sample of fish as it was taken in.
struct WeighedSample {
  Date day{};
  int count = 0;
  Mass mean = Mass::from_g(0);
  double log_sd = 0;                       ///< of the mean weight, one standard deviation
  std::optional<double> condition{};       ///< when both weight and lengths were taken
  bool from_lengths = false;
  double surprise_sd = 0;                  ///< distance from what was expected before it, in standard deviations
  Estimate<Mass> expected{Mass::from_g(0), Mass::from_g(0), Mass::from_g(0)};
  RecordId record = 0;
};

struct GrowthDay {
  Date day{};
  Estimate<Mass> weight{Mass::from_g(0), Mass::from_g(0), Mass::from_g(0)};  ///< mean of the fish
};

struct GrowthBelief {
  Date begun{};                            ///< first food, as logged, seen or expected
  bool begun_is_known = false;
  Estimate<Mass> now{Mass::from_g(0), Mass::from_g(0), Mass::from_g(0)};
  std::vector<GrowthDay> days{};           ///< a week each, from `begun` to eight weeks after today
  std::array<biology::GrowthModel, 2> models;
  std::array<double, 2> model_weights{0.5, 0.5};
  std::array<Estimate<double>, 2> factors{};  ///< of each model, after the samples; the first is the thermal growth coefficient
  std::array<bool, 2> in_range{true, true};   ///< today's fish in today's water
  std::vector<WeighedSample> samples{};    ///< that counted, oldest first
  std::optional<double> conversion{};      ///< g food logged a g gained between first and last weighing, when feedings were logged on most days between
  std::vector<Sentence> notes{};           ///< what was extrapolated, passed over or does not fit
};

/// In      records: effective ones. belief: of the same moment, with a forecast.
/// Out     nothing without a species, a brood or a forecast, or when it has been released.
/// Shape   about a millisecond.
/// Source  biology/growth.h. Assumed: each model equally likely at first; fish in a school's tank eat three fifths of the table or more, so the
///         factors of satiated fish are taken down by a fifth and widened by a fifth; sizes within a batch vary by a quarter; a wet weighing is
///         good to 7 %.
std::optional<GrowthBelief> growth_belief(std::span<const records::Record> records, const Belief& belief, const ZoneOffsets& zone, Instant now);

/// Weight on one more day, of the same belief and no more than eight weeks from today.
GrowthDay weight_on(const GrowthBelief& growth, Date day);

}  // namespace redd::inference
