#pragma once
// How each quantity is judged, one function a quantity; assess() in situation.h calls them all. A judgement holds for the
// worst the readings allow, and a stale or missing reading is never judged good.

#include "advice/situation.h"

namespace redd::advice {

Assessment assess_un_ionized_ammonia(const Situation& s);
Assessment assess_total_ammonia(const Situation& s, const Assessment& un_ionized);
Assessment assess_nitrite(const Situation& s);
Assessment assess_nitrate(const Situation& s);
Assessment assess_ph(const Situation& s);
Assessment assess_alkalinity(const Situation& s);
Assessment assess_hardness(const Situation& s);
Assessment assess_oxygen(const Situation& s);
Assessment assess_temperature(const Situation& s);

/// A judgement filled with what is believed of the quantity; tone unknown until judged. Not read: value stays empty.
Assessment read_of(const Situation& s, WaterKey key, inference::Quantity quantity);

/// An old reading can still warn, but no longer reassure: good becomes unknown.
void admit_age(Assessment& a);

/// The newest record that may have moved the temperature since it was last measured; nullptr without one.
const records::Record* unmeasured_event(const Situation& s);

/// Control chart of a quantity's sittings against the season's own normal; nothing before there are enough tests.
///
/// Out     the baseline is the mean of the first six sittings since the animals came (or since the first, without animals);
///         drift is an EWMA (lambda 0.5, limit 3.071: a false signal once in 500 tests) or a two-sided CUSUM (k 0.5, h 5: once
///         in 465 tests) beyond its limit. sd is at least the reading's own doubt.
/// Source  run lengths: [crowder1987] and [lucas1982] designs, checked in tests/reference.
std::optional<Baseline> baseline_of(const Situation& s, inference::Quantity quantity);

}  // namespace redd::advice
