#include "report/catalogue.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace redd::report {
namespace {

/// FNV-1a, 64 bits. Of the English, at build time; that no two meet is asserted below.
constexpr std::uint64_t hashed(std::string_view text) {
  std::uint64_t state = 0xCBF29CE484222325u;
  for (const char c : text) state = (state ^ static_cast<unsigned char>(c)) * 0x100000001B3u;
  return state;
}

struct Entry {
  std::uint64_t english;
  std::string_view words;
};

constexpr Entry written[] = {
#define REDD_MESSAGE(english, words) {hashed(english), words},
#include "report/messages_es.inc"
#undef REDD_MESSAGE
};

constexpr auto spanish = [] {
  auto table = std::to_array(written);
  std::ranges::sort(table, {}, &Entry::english);
  return table;
}();
static_assert(std::ranges::adjacent_find(spanish, {}, &Entry::english) == spanish.end(), "two entries of a catalogue meet");

}  // namespace

std::optional<std::string_view> translation(std::string_view english, Language language) {
  if (language == Language::en) return std::nullopt;
  const std::uint64_t wanted = hashed(english);
  const auto found = std::ranges::lower_bound(spanish, wanted, {}, &Entry::english);
  if (found == spanish.end() || found->english != wanted) return std::nullopt;
  return found->words;
}

std::optional<Language> language_from_tag(std::string_view tag) {
  const auto letter = [&](std::size_t i) { return i < tag.size() ? static_cast<char>(tag[i] | 0x20) : '\0'; };
  if (tag.size() > 2 && tag[2] != '-' && tag[2] != '_') return std::nullopt;
  if (letter(0) == 'e' && letter(1) == 'n') return Language::en;
  if (letter(0) == 'e' && letter(1) == 's') return Language::es;
  return std::nullopt;
}

std::string_view tag_of(Language language) { return language == Language::es ? "es" : "en"; }

}  // namespace redd::report
