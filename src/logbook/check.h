#pragma once
// Whether a season file is whole, found by reading all of it. Start at check_file().

#include <filesystem>
#include <optional>
#include <string>

#include "logbook/logbook.h"

namespace redd::logbook {

/// What was found in a season file.
struct FileCheck {
  std::int64_t rows = 0;                   ///< of the table, readable or not, as far as it was read
  std::int64_t readable = 0;               ///< rows that were read and whose sum is right
  bool read_to_end = false;                ///< every row was looked at: damage did not stop it, and the layout is this program's
  records::RecordId last_id = 0;
  std::optional<Instant> last_logged_at{};
  std::string season{};                    ///< name of the season in force; empty when it has none
  std::vector<Unreadable> unreadable{};    ///< records that were changed, can't be read, or are missing in between
  std::vector<records::RecordId> lost{};   ///< lost with an earlier file: a note of salvaged() stands in the place of each
  Problems damage{};                       ///< of the file around the records
  int layout = 0;                          ///< number of the file's layout
  bool older_layout = false;               ///< made by an older Redd: counted, but its records were not looked into
  bool whole() const { return damage.empty() && unreadable.empty(); }
};

/// Reads every page, every link and every record. The file is not written to, whatever it holds.
/// Errors  file_missing, not_a_season_file, newer_schema, read_only; damaged when not even its beginning can be read.
Result<FileCheck> check_file(const std::filesystem::path& path);

}  // namespace redd::logbook
