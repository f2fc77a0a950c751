#pragma once
// A quantity of the water as it is shown: name, unit, and numbers turned into that unit. Used by JSON and text alike.

#include <string>

#include "report/numbers.h"
#include "season/season.h"

namespace redd::report {

/// Name and unit in which a water quantity is shown: the kit's own unit where a kit has read it.
struct ShownQuantity {
  std::string key{};
  std::string name{};
  std::string unit_text{};
  double per_canonical = 1.0;  ///< shown = canonical x this
  int places = -1;             ///< fixed decimals; -1: by size
  double least = 0.0;          ///< in the unit shown; what lies below it is not told finer
};
ShownQuantity shown_quantity(advice::WaterKey key, const season::DayView& day, const Reader& reader);

/// The test behind a water quantity; nothing for derived ones and temperature.
std::optional<records::Quantity> tested_quantity(advice::WaterKey key);

/// A temperature stands in the reader's unit; `unit_text` and plain numbers beside it stay in that of the quantity.
std::string value_text(const ShownQuantity& shown, double low, double high, bool open_above, const Reader& reader);
std::string_view tone_text(advice::Tone tone);
std::string_view animals_key(inference::Animals animals);
std::string animals_name(inference::Animals animals, const Reader& reader);

/// "Half hatched: 7 to 12 March, most likely 9 March", and the like.
std::string milestone_text(const biology::StageForecast& forecast, const Reader& reader);
std::string stage_title(biology::Stage stage, const Reader& reader);
/// A development curve as people name it: "Embody 1934" of "embody1934".
std::string model_title(std::string_view key, const Reader& reader);

}  // namespace redd::report
