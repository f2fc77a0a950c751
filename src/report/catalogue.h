#pragma once
// What English patterns and words are in another language. The catalogues are data/messages/*.po, one a language; the build
// makes a constant table of each, found by a hash of the English, so that the browser's module need not carry it twice.

#include <optional>
#include <string_view>

namespace redd::report {

enum class Language { en, es };

/// The translation of a pattern or a word; nothing for English, and where there is none.
std::optional<std::string_view> translation(std::string_view english, Language language);

/// "es" or "es-MX" -> Spanish; nothing for a language nobody has written.
std::optional<Language> language_from_tag(std::string_view tag);
std::string_view tag_of(Language language);  ///< "en", "es"

}  // namespace redd::report
