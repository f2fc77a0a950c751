#include "quantities/phrase.h"

#include <utility>

#include "quantities/phrase_parts.h"

namespace redd {

Phrase phrase_of(std::string_view pattern, std::vector<Phrase> parts) {
  Phrase made(filled(pattern, [&](std::size_t i) { return i < parts.size() ? filling_of(parts[i], parts[i]) : Filling{}; }));
  made.pattern = pattern;
  made.parts = std::move(parts);
  return made;
}

}  // namespace redd
