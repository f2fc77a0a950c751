#pragma once
// The layout of the season file, as numbered steps that only go forward. A new layout is a new file in migrations/ and
// a new line in all_migrations(); a step that was ever released is never edited.

#include <filesystem>
#include <span>

#include "logbook/detail/sqlite.h"

namespace redd::logbook {

struct Migration {
  int version;      ///< of the file after the step; steps count 1, 2, 3…
  const char* sql;  ///< run in one transaction together with the new version number
};

extern const Migration migration_0001_records;

namespace detail {

/// Every step, in order.
std::span<const Migration> all_migrations();

/// Brings a file to the last step. Each step is kept whole or not at all; before the first step that changes a file with
/// contents, a copy is kept in its folder of copies, and without it no step is taken.
///
/// Errors  throws Failure; the file then has the last version that was reached whole.
void migrate(Database& database, const std::filesystem::path& path, std::span<const Migration> steps);

}  // namespace detail
}  // namespace redd::logbook
