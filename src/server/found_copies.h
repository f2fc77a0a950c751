// server/found_copies.h
// The copies of a season as they are found: each read through, and said in words. For page and command line alike.
#pragma once

#include <filesystem>
#include <vector>

#include "logbook/check.h"
#include "logbook/copies.h"

namespace redd::server {

enum class CopyState {
  whole,
  older_layout,  ///< pages whole; its records were not looked into
  bytes_only,    ///< what was left of a damaged file, for salvage
  unreadable,    ///< not known: it can't be opened, or a newer Redd wrote it
  damaged,
};

/// As the page's server names it: "whole", "older_layout"…
std::string_view word_of(CopyState state);

struct FoundCopy {
  logbook::Copy copy{};
  CopyState state = CopyState::damaged;
  Phrase said{};                          ///< the state in words
  std::optional<std::int64_t> records{};  ///< nothing where it is not known
};

/// Why a copy was made, in words.
Phrase why_text(logbook::Why why);

/// One copy, read through.
FoundCopy found_copy(const logbook::Copy& copy);

/// All of a season's file, the newest first; every one is read through.
/// Errors  read_only when the folder of copies can't be read.
Result<std::vector<FoundCopy>> found_copies(const std::filesystem::path& season_file);

}  // namespace redd::server
