#pragma once
// Single cells of foreign tables: numbers, gaps, header names, and text kept short for messages.

#include <optional>
#include <string>
#include <string_view>

#include "quantities/phrase.h"

namespace redd::intake::detail {

std::string_view trimmed(std::string_view text);
std::string lower(std::string_view text);

/// A header as a plain key: lower case, letters and digits, everything else one "_": "Temp. (°C)" -> "temp_c".
std::string plain_key(std::string_view header);

/// A header without what stands in brackets or after a comma: "Nitrate (mg/L as NO3)" -> "Nitrate".
std::string_view without_unit(std::string_view header);

/// Nothing was measured: empty, -, NA, n/a, null, none… Never a zero.
bool is_missing(std::string_view cell);

/// A number with this decimal mark ('.' or ','); nothing when there is anything else in the cell.
std::optional<double> number(std::string_view cell, char decimal_mark);

/// A number with either mark.
inline std::optional<double> number_of_any_mark(std::string_view cell) {
  const auto point = number(cell, '.');
  return point ? point : number(cell, ',');
}

/// Whether a cell's numbers are written with a comma ("8,5") or a point ("8.5"); '\0' when neither shows.
char decimal_mark_in(std::string_view cell);

/// A temperature as written: "10,5", "10.5 °C", "50.9F".
struct MarkedTemperature {
  std::optional<double> value{};
  std::optional<char> unit{};  ///< 'c' or 'f' when the cell says
};
MarkedTemperature marked_temperature(std::string_view cell, char decimal_mark);

/// A cell without the unit of a concentration or hardness behind its number: "0.25 ppm", "4 dKH". Which unit it is, is not judged.
std::string_view without_unit_behind(std::string_view cell);

/// For messages: at most 40 characters, as they are in every language.
Phrase shown(std::string_view cell);

/// 16 hexadecimal digits that stay the same for the same text, on every machine and in every version.
std::string stable_hash(std::string_view text);

}  // namespace redd::intake::detail
