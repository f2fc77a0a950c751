// cli/manual.h
// The manual page of the program and of each of its commands, in the language of man(7).
#pragma once

#include <string>

#include "cli/description.h"
#include "report/catalogue.h"

namespace redd::cli {

struct ManualFacts {
  std::string version{};
  std::string day{};  ///< YYYY-MM-DD at the foot of the page; may be empty
  report::Language language = report::Language::en;
};

/// "redd" or "redd-log": what man is asked for.
std::string page_name(const CommandText& command);

/// One page. The program's own page tells of the flags that every command takes, and of the environment; a command's
/// page tells of the commands below it too.
std::string manual_page(const CommandText& top, const CommandText& command, const ManualFacts& facts);

}  // namespace redd::cli
