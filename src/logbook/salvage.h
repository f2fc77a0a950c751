#pragma once
// Records read out of a damaged file, without trusting its structure: every page is searched for rows, and a row counts only when its
// check sum is right, so nothing damaged comes back as true. What is gone may still stand in a copy. Start at salvaged().

#include <filesystem>
#include <span>
#include <vector>

#include "quantities/result.h"
#include "records/record.h"

namespace redd::logbook {

struct Salvaged {
  std::size_t from_file = 0;                ///< rows that were readable in the damaged file
  std::size_t from_copies = 0;              ///< further rows, found in copies of the same season
  std::vector<records::RecordId> lost{};    ///< numbers below the last one found that were found nowhere
  records::RecordId last_id = 0;            ///< whatever stood behind it is lost without a trace
  bool has_season = false;                  ///< whether a set-up was among them
};

/// Reads the damaged file (and its -wal) and the copies, and writes what was found as a new season file. In the place of each lost record
/// stands a note that says so, so that the others keep their numbers. The damaged file is not written to.
///
/// In      copies: searched in this order; one that contradicts what was found already, and so is of another season, is passed over.
/// Errors  nothing_found; file_missing, file_exists, side_file_left, read_only, disk_full, disk_error.
Result<Salvaged> salvaged(const std::filesystem::path& damaged, std::span<const std::filesystem::path> copies, const std::filesystem::path& target);

}  // namespace redd::logbook
