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

/// A name beside `path` for a file that is still being made.
std::filesystem::path unfinished_name(const std::filesystem::path& path);

/// Gives a finished file its name, unless that name is taken, and makes the name durable.
Result<bool> give_name(const std::filesystem::path& unfinished, const std::filesystem::path& path);

}  // namespace redd::logbook::detail
