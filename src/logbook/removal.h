#pragma once
// A season deleted for good: the file, SQLite's side files, every copy in its folder, and the small files kept beside it.

#include <filesystem>
#include <vector>

#include "quantities/result.h"

namespace redd::logbook {

/// What belongs to a season on this disk, the season file itself last. Hand-made copies elsewhere, exports and browsers are not known.
std::vector<std::filesystem::path> files_of_season(const std::filesystem::path& season_file);

/// Deletes them all and the folder of copies once it is empty. The season file goes last: what stopped in the middle can be done again.
///
/// Out     how many files went.
/// Errors  file_missing; season_in_use; read_only when the folder of copies can't be looked through; not_deleted, naming the first file that is still there.
Result<std::size_t> delete_season(const std::filesystem::path& season_file);

}  // namespace redd::logbook
