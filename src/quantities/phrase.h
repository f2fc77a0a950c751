// quantities/phrase.h
// Words in English that remember how they were made, so that report/ can say them in another language: they are the English
// text to everybody else. Sentences with typed values (temperatures, volumes, dates) are sentence.h; a Phrase holds ready
// words and plain numbers only.
#pragma once

#include <concepts>
#include <string>
#include <string_view>
#include <vector>

namespace redd {

struct Phrase : std::string {
  std::string pattern{};        ///< empty: the text itself is what a translation is found by
  std::vector<Phrase> parts{};  ///< what stands at {0}, {1}, …

  Phrase() = default;
  Phrase(std::string text) : std::string(std::move(text)) {}
  Phrase(std::string_view text) : std::string(text) {}
  Phrase(const char* text) : std::string(text) {}
};

/// The pattern filled with the parts.
Phrase phrase_of(std::string_view pattern, std::vector<Phrase> parts);

inline Phrase part_of(Phrase words) { return words; }
template <std::integral Number>
Phrase part_of(Number number) { return Phrase(std::to_string(number)); }
inline Phrase part_of(char letter) { return Phrase(std::string(1, letter)); }

/// said("There is no record {0} to {1}.", id, "correct"): words and whole numbers.
template <class... Parts>
Phrase said(std::string_view pattern, Parts&&... parts) {
  return phrase_of(pattern, {part_of(std::forward<Parts>(parts))...});
}

}  // namespace redd
