#pragma once
// What the free words of a header mean, in English and Spanish: "NO3 (ppm)", "Nitrato como N", "# huevos muertos". Only whole words
// count, and a header with a word nobody knows means nothing: the keeper is asked rather than a column taken for another.

#include <optional>
#include <string>
#include <string_view>

#include "records/bodies.h"

namespace redd::intake::detail {

/// The header's plain words joined by "_", without those that say nothing of what is measured (level, reading, ppm, nivel, de …).
std::string core_words(std::string_view header);

std::optional<records::Quantity> quantity_named(std::string_view header);
bool names_temperature(std::string_view header);
bool names_note(std::string_view header);
bool names_team(std::string_view header);
bool names_date(std::string_view header);

/// A column of animals counted.
struct CountWords {
  bool dead = false;
  std::optional<records::Count::What> what{};  ///< dead: absent where the header does not say of which stage
  bool running_total = false;                  ///< it says "total", "so far", "acumulado"
};
std::optional<CountWords> count_named(std::string_view header);

}  // namespace redd::intake::detail
