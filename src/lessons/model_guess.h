#pragma once
// What the model says to a question, from what was known the moment the question opened. Start at model_guess().
// A plain opponent on purpose, so that a class can see through it and beat it:
//   a test: as last time, give or take what this test has moved from sitting to sitting so far;
//   temperature: the tank's own forecast, on its way to the set-point;
//   hatching: the development forecast on that day.

#include "lessons/question.h"

namespace redd::lessons {

/// Share of readings that a range is to hold.
inline constexpr double range_share = 0.8;

struct ModelGuess {
  std::vector<double> probabilities{};  ///< steps: of each; sums to one
  std::vector<double> values{};         ///< else: equally likely values, rising, in the question's unit
  double low = 0, high = 0;             ///< else: the range of 80 %
  double mid = 0;
  Sentence rests_on{};
};

/// In      log: all of it, in order of id; only what was known at question.opens_at is used.
/// Out     the same log gives the same guess, whenever it is asked.
/// Errors  nothing when there is nothing to forecast from.
/// Shape   about a millisecond for a test or a temperature, some ten for hatching.
std::optional<ModelGuess> model_guess(const Question& question, std::span<const records::Record> log, const ZoneOffsets& zone);

}  // namespace redd::lessons
