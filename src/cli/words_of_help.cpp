#include "cli/words_of_help.h"

#include <map>

#include "cli/place.h"

namespace redd::cli {
namespace {

const std::map<std::string_view, std::string_view>& spanish() {
  static const std::map<std::string_view, std::string_view> table{
#define REDD_MESSAGE(english, words) {english, words},
#include "cli/messages_es.inc"
#undef REDD_MESSAGE
  };
  return table;
}

}  // namespace

std::string help_text(std::string_view english, report::Language language) {
  if (language == report::Language::en) return std::string(english);
  const auto found = spanish().find(english);
  if (found != spanish().end()) return std::string(found->second);
  return std::string(report::translation(english, language).value_or(english));
}

report::Language help_language(const std::vector<std::string>& arguments) {
  std::string tag = environment("REDD_LANGUAGE").value_or("");
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    if (arguments[i] == "--language" && i + 1 < arguments.size()) tag = arguments[i + 1];
    if (arguments[i].starts_with("--language=")) tag = arguments[i].substr(arguments[i].find('=') + 1);
  }
  return report::language_from_tag(tag).value_or(report::Language::en);
}

}  // namespace redd::cli
