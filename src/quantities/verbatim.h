#pragma once
// Words that no language changes: a season's or team's name, a file, a flag, what somebody typed. Without the mark "Fry" would be
// looked up like any word, and a name be shown that nobody gave.

#include "quantities/phrase.h"

namespace redd {

inline constexpr std::string_view verbatim_mark = "\x01";

inline Phrase verbatim(std::string_view text) {
  Phrase words(text);
  words.pattern = verbatim_mark;
  return words;
}

}  // namespace redd
