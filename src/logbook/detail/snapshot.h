#pragma once
// A season file written out as a finished copy. Start at keep_copy_of().

#include <filesystem>

#include "logbook/check.h"
#include "logbook/detail/sqlite.h"

namespace redd::logbook::detail {

/// What a snapshot must hold, counted in the moment it shows.
struct Extent {
  std::int64_t rows = 0;
  records::RecordId last_id = 0;
  bool is_of(const FileCheck& check) const { return check.rows == rows && check.last_id == last_id; }
};

/// The whole open file as one new file at exactly this path, on the disk, without side files: by SQLite's online backup, so that
/// others may read and write meanwhile.
///
/// Errors  throws Failure; there may then be part of a file at the path.
Extent write_snapshot(Database& from, const std::filesystem::path& to);

/// As Logbook::keep_copy().
Result<KeptCopy> keep_copy_of(Database& database, const std::filesystem::path& season_file, Why why, Instant now, const ZoneOffsets& zone);

/// The bytes of a file that can't be read, with its -wal, under the name of a copy.
Result<KeptCopy> keep_bytes_of(const std::filesystem::path& season_file, Instant now);

}  // namespace redd::logbook::detail
