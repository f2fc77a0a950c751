// cli/words_of_help.h
// The language of --help and of the manual. Its catalogue, data/messages/command_line_es.po, is one of its own: the
// browser's module carries the other, and has no command line.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/catalogue.h"

namespace redd::cli {

/// A text of the command line in a language; the English itself where nobody has translated it.
std::string help_text(std::string_view english, report::Language language);

/// --language among the words typed, else $REDD_LANGUAGE, else English: known before the words are read, as --help
/// ends the reading.
report::Language help_language(const std::vector<std::string>& arguments);

}  // namespace redd::cli
