// cli/import_flags.h
// The flags of redd import readings and redd import temperatures, and how a conclusion about a file is written as one of
// them. The parser and the preview both take them from here, so a preview can't name a flag that does not exist.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "intake/import.h"

namespace redd::cli {

struct ImportFlag {
  const char* setting;  ///< name in intake::Settings; the flag is the same with dashes
  const char* help;
};

/// In  what: "readings" or "temperatures".
std::vector<ImportFlag> import_flags(std::string_view what);

/// The flag that decides a setting, e.g. "--date-order" or "--column"; nothing when this command has none.
std::optional<std::string> flag_of_setting(std::string_view what, std::string_view setting);

/// The same with its value, ready to be typed: `--date-order dmy`, `--column "Free ammonia=card/ammonia"`.
std::optional<std::string> typed_flag(std::string_view what, std::string_view setting, const std::string& value);

/// Other values of a conclusion this command can be told.
std::vector<std::string> alternatives_of(std::string_view what, const intake::Guess& guess);

}  // namespace redd::cli
