// cli/completion.h
// What a shell needs to complete the words of the command line, as a script of that shell.
#pragma once

#include <string>

#include "cli/description.h"

namespace redd::cli {

std::string bash_completion(const CommandText& top);
std::string zsh_completion(const CommandText& top);
std::string fish_completion(const CommandText& top);

}  // namespace redd::cli
