#pragma once
// What readings on coarse kits say of the true value. Start at value_behind().

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "quantities/estimate.h"
#include "records/reading.h"

namespace redd::inference {

/// One reading with the test it was read on.
struct TestReading {
  records::KitTest test;
  records::Reading reading;
};

/// How wrong a careful reader is, in steps of the card (or drops), one standard deviation.
/// Assumed: 0.5, argued in docs/science/water.md from strips read by a camera (79 % exact, 95 % within one colour block: 0.4 and
///         0.75 fit one or the other; an eye is no better). The same for drop counts.
inline constexpr double reader_error_steps = 0.5;

/// Chance that a reading is a slip that says nothing, spread evenly over the card's classes. Only replicates can tell a slip.
/// Assumed: 0.02, in the range 0.01-0.05 of the estimation literature.
inline constexpr double misread_probability = 0.02;

/// Probability of this reading if the true value were `canonical` (mg N/L, pH, meq/L, mg/L), slips left out.
/// For a meter it is a density, up to a constant.
double reading_probability(const TestReading& read, double canonical);

struct ValueBehind {
  Estimate<double> value;      ///< 90 % interval and median, canonical unit
  bool open_above = false;     ///< only "at least low" is known: `high` is where the card's evidence ends, not a bound
  bool disagree = false;       ///< two readings of the set can hardly both be right: repeat the test
};

/// The value behind one or more readings of the same water (team replicates, or a low- and a high-range card).
///
/// In      readings: of one quantity, at least one, each fitting its test (see observed_interval()).
/// Out     prior even along the card (each step as likely as the next), from zero to four steps beyond; deterministic,
///         on a grid of 800 points.
/// Errors  nothing when no reading fits its test.
std::optional<ValueBehind> value_behind(std::span<const TestReading> readings);

}  // namespace redd::inference
