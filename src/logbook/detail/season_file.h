#pragma once
// Opening a season file safely: is it one, is it whole, is it of this version. Nothing here knows what a record is.

#include <filesystem>
#include <memory>

#include "logbook/detail/migrations.h"
#include "logbook/detail/sqlite.h"
#include "quantities/result.h"

namespace redd::logbook::detail {

/// "REDD" in ASCII, kept in the file's own header as SQLite's application_id.
inline constexpr std::uint32_t season_file_id = 0x52454444;

/// Opens and checks an existing file.
/// Errors  file_missing, not_a_season_file, newer_schema, damaged, read_only… A refused file is not written to.
Result<std::unique_ptr<Database>> open_season_file(const std::filesystem::path& path, bool for_writing,
                                                   std::span<const Migration> steps = all_migrations());

/// Makes a season file without records at exactly this path, overwriting nothing.
std::unique_ptr<Database> make_season_file(const std::filesystem::path& path);

/// The file opened for reading alone, to be looked over: also of an older layout, also with damage inside.
/// Errors  file_missing, not_a_season_file, newer_schema, damaged, read_only… It is not written to.
Result<std::unique_ptr<Database>> open_to_check(const std::filesystem::path& path);

/// Everything into the one file, without SQLite's side files: such a file may be renamed or copied as it is.
/// Errors  throws Failure; busy when another program has it open.
void settle(Database& database);

/// Whether the open file still lies at its path. A season that was moved or replaced gets no more entries.
bool has_moved(Database& database);

}  // namespace redd::logbook::detail
