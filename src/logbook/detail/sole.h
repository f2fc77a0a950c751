#pragma once
// A season file that nobody else has open, for as long as this lives. Start at sole_access().

#include <filesystem>
#include <memory>

#include "logbook/detail/sqlite.h"

namespace redd::logbook::detail {

/// What sole_access() found at the path.
struct Sole {
  std::unique_ptr<Database> database{};  ///< the only one open, everything in the one file; nothing when the file can't be read as one
  bool exists = false;
};

/// Errors  season_in_use when another program has it open; newer_schema; read_only, disk_full, disk_error. A damaged file is no error.
Result<Sole> sole_access(const std::filesystem::path& season_file);

}  // namespace redd::logbook::detail
