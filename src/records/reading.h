#pragma once
// What one raw reading says of the true value: a range, never a number.

#include <optional>
#include <string>

#include "quantities/phrase.h"
#include "records/bodies.h"

namespace redd::records {

/// The values a reading allows, in the program's own unit (mg N/L, pH, meq/L, mg/L).
struct ObservedInterval {
  double low = 0;                ///< 0 (or the scale's floor) when the reading is below the first step
  double mid = 0;                ///< the middle the eye would call; never used as a measurement by itself
  double high = 0;               ///< infinite when the reading is above the last step: only "at least low" is known
  bool open_above = false;
  bool open_below = false;
};

/// Range of the true value behind a reading, before any reader error is allowed for.
///
/// In      test: the kit's own test.  reading: a form that fits the test's method.
/// Out     step: from the middle towards the step below to the middle towards the step above (first step: from zero for
///         concentrations; last step: open above); between: the two steps themselves, neighbours or not; drops n: ((n-1), n] drops;
///         number: +- the meter's accuracy.
/// Errors  nothing when the form does not fit the test or the value is not on the card (see problems_of).
/// Source  Interval reading of colour steps and drop counts: common practice for coarse kits; the rule that the lowest
///         patch is never zero and the highest never a ceiling follows from the card itself. Assumed: half-way marks.
std::optional<ObservedInterval> observed_interval(const KitTest& test, const Reading& reading);

/// The reading in the card's own words, e.g. "between 0.25 and 0.5 mg/L as NH4", "7 drops (7 German degrees)".
Phrase reading_text(const KitTest& test, const Reading& reading);

/// The same as short as can be, for tables whose head names test and unit: "0.25", "0.25–0.5", "below 0.25", "above 4", "7 drops".
Phrase short_reading_text(const KitTest& test, const Reading& reading);

/// Unit as a card prints it: "mg/L as NH4", "German degrees", "pH".
std::string unit_text(TestUnit unit);

/// Plain name: "total ammonia", "carbonate hardness (KH)".
std::string quantity_text(Quantity quantity);

}  // namespace redd::records
