// cli/described_app.h
// The parser's own description, worded in a language and as plain values. Beside command_line.cpp the only file that
// knows CLI11.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "cli/description.h"
#include "report/catalogue.h"

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace redd::cli {

/// Words an option is known to take beside those its check names; may be empty.
using KnownWords = std::function<std::vector<std::string>(const CommandText& command, const CLI::Option& option)>;

/// Puts the texts of --help into a language.
void translate_help(CLI::App& app, report::Language language);

/// The command and all below it.
CommandText description_of(const CLI::App& app, report::Language language, const KnownWords& known);

}  // namespace redd::cli
