#pragma once
// A copy put back in the season's place. What is there now is kept as a copy first, so that nothing acknowledged is ever dropped: it
// is in the season or in a copy of it. Start at planned_restore(), show it, then restored().

#include <filesystem>
#include <optional>
#include <vector>

#include "logbook/check.h"

namespace redd::logbook {

/// What putting back a copy would mean.
struct PlannedRestore {
  FileCheck copy{};
  std::optional<FileCheck> present{};        ///< the season as it is now; nothing when there is none or it can't be read
  bool present_exists = false;
  std::vector<records::Record> records{};    ///< of the season, as far as they can be read
  /// Those of them that are not in the copy: they would no longer count. Nothing when either can't be read through.
  std::optional<std::vector<records::Record>> only_here{};
};

/// In      copy_file: any finished season file, also one copied by hand.
/// Errors  those of check_file() for the copy; copy_damaged when it is not whole.
Result<PlannedRestore> planned_restore(const std::filesystem::path& season_file, const std::filesystem::path& copy_file);

struct Restored {
  std::int64_t records = 0;
  std::optional<KeptCopy> kept{};  ///< what was there before; not whole when it can only be salvaged
};

/// Puts the copy in place, whole or not at all. The copy itself stays.
///
/// Errors  as planned_restore(); season_in_use while any program has the season open; side_file_left; those of Logbook::keep_copy(): without a copy of
///         what is there, nothing is put in its place.
Result<Restored> restored(const std::filesystem::path& season_file, const std::filesystem::path& copy_file, Instant now, const ZoneOffsets& zone);

}  // namespace redd::logbook
