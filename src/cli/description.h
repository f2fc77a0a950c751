// cli/description.h
// The command line as plain values, read off the words that are parsed and that --help prints: manual pages and shell
// completion are written from it, so that there is no second truth. Start at Command.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace redd::cli {

/// The words in one line.
std::string joined(std::span<const std::string> words, std::string_view between);

/// A flag, or a word at a place of its own, or both: `--volume 20L`, or only `20L`.
struct OptionText {
  enum class Names { anything, file, folder };
  std::vector<std::string> flags{};  ///< "--port"; empty: only a place
  std::string place{};               ///< its name where it is typed without a flag; empty: only flags
  std::string value{};               ///< what its value is called, "DIR"; empty: takes none
  std::string otherwise{};           ///< its value when it is left out, where that is told
  std::string meaning{};
  std::vector<std::string> choices{};  ///< the only words it takes, or those it is known to take; empty: any
  Names names = Names::anything;
  bool required = false;
  bool repeats = false;  ///< takes any number of words
};

struct CommandText {
  std::vector<std::string> path{};  ///< {"redd", "log", "reading"}
  std::string summary{};
  std::string examples{};  ///< lines as they stand
  std::vector<OptionText> options{};
  std::vector<CommandText> commands{};
  bool needs_command = false;  ///< it does nothing without one of its commands

  std::string name() const;  ///< "redd log reading"
};

/// The command at a path below this one; nullptr where there is none.
const CommandText* command_at(const CommandText& top, const std::vector<std::string>& below);

}  // namespace redd::cli
