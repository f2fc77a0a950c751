// cli/manual_command.h
// manual: pages for man, written from the command line's own description.
#pragma once

#include <string>
#include <vector>

#include "cli/console.h"
#include "cli/manual.h"

namespace redd::cli {

struct ManualQuestion {
  std::vector<std::string> command{};  ///< below the program: {"log"}
  std::string folder{};                ///< all pages into it; empty: one page to standard output
  std::string day{};                   ///< at the foot of each page; may be empty
};

/// Errors  unknown_command; cannot_write.
Exit manual(const Console& console, const CommandText& top, const ManualFacts& facts, const ManualQuestion& question);

}  // namespace redd::cli
