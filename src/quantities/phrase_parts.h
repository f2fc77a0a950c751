// quantities/phrase_parts.h
// Parts of a Phrase that are amounts: exact in the Phrase, so that report/ can say them in the reader's unit.
//   said("{0} is more than the tank holds ({1}).", change.volume, season.volume)
// Words that no language changes are verbatim.h.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "quantities/pattern.h"
#include "quantities/phrase.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd {

/// A measure of the tank as it is said; centimetres or inches.
struct Length {
  double cm = 0.0;
};
using Amount = std::variant<Temperature, Volume, Length>;

/// What was typed, without the digits a unit conversion adds: "12.5", "-3".
std::string as_typed(double value, int most_decimals = 3);

/// The amount in metric words, "25 °C"; exact underneath.
Phrase amount(const Amount& exact, int most_decimals = 3);
inline Phrase part_of(Temperature temperature) { return amount(temperature); }
inline Phrase part_of(Volume volume) { return amount(volume); }
inline Phrase part_of(Length length) { return amount(length); }

/// The exact amount of a part; nothing when it is other words.
std::optional<Amount> amount_in(const Phrase& part);

/// A part ready to fill a pattern. In  shown: as the reader reads it; forms follow the part itself.
Filling filling_of(const Phrase& part, std::string shown);

}  // namespace redd
