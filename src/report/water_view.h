#pragma once
// A quantity of the water as it is shown: name, unit, and numbers turned into that unit. Used by JSON and text alike.

#include <string>

#include "season/season.h"

namespace redd::report {

/// Name and unit in which a water quantity is shown: the kit's own unit where a kit has read it.
struct ShownQuantity {
  std::string key{};
  std::string name{};
  std::string unit_text{};
  double per_canonical = 1.0;  ///< shown = canonical x this
  int places = -1;             ///< fixed decimals; -1: by size
};
ShownQuantity shown_quantity(advice::WaterKey key, const season::DayView& day);

/// The test behind a water quantity; nothing for derived ones and temperature.
std::optional<records::Quantity> tested_quantity(advice::WaterKey key);

std::string value_text(const ShownQuantity& shown, double low, double high, bool open_above);
std::string_view tone_text(advice::Tone tone);
std::string_view animals_key(inference::Animals animals);
std::string_view animals_name(inference::Animals animals);

/// "Half hatched: 7 to 12 March, most likely 9 March", and the like.
std::string milestone_text(const biology::StageForecast& forecast);
std::string_view stage_title(biology::Stage stage);

}  // namespace redd::report
