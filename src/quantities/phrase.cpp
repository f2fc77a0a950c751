#include "quantities/phrase.h"

#include <charconv>
#include <utility>

#include "quantities/pattern.h"

namespace redd {

Phrase phrase_of(std::string_view pattern, std::vector<Phrase> parts) {
  Phrase made(filled(pattern, [&](std::size_t i) {
    if (i >= parts.size()) return Filling{};
    Filling filling{parts[i], {}, parts[i]};
    long long count = 0;
    const auto [end, error] = std::from_chars(parts[i].data(), parts[i].data() + parts[i].size(), count);
    if (error == std::errc{} && end == parts[i].data() + parts[i].size()) filling.count = count;
    return filling;
  }));
  made.pattern = pattern;
  made.parts = std::move(parts);
  return made;
}

}  // namespace redd
