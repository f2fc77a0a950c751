#pragma once
// Rows found in the bytes of a season file, whatever state its structure is in. Pure: bytes in, rows out.
// Source  SQLite, "Database File Format" (sqlite.org/fileformat2.html), sections 1.3, 1.6, 2.1 and 4.1 (from memory).

#include <map>
#include <string_view>

#include "logbook/detail/rows.h"

namespace redd::logbook::detail {

using Rows = std::map<std::int64_t, Columns>;

/// Rows of table "records" whose check sum is right, by number.
///
/// In      file: the main file. wal: its -wal, may be empty; only what was committed in it counts. Any bytes at all.
Rows carved_rows(std::string_view file, std::string_view wal);

}  // namespace redd::logbook::detail
