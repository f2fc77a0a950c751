// cli/command_line.h
// The words of the command line and which command they mean. Behind it only command_line.cpp and described_app.cpp know CLI11.
#pragma once

#include "cli/console.h"

namespace redd::cli {

/// Runs one command.
///
/// In      arguments: as main() got them, without the program's name.  version: of the program.
/// Out     0 done, 1 a problem (said on err), 2 a word the command line does not know.
int run(const Console& console, const std::vector<std::string>& arguments, const std::string& version);

}  // namespace redd::cli
