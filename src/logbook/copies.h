#pragma once
// Dated copies of a season file, in the folder "copies" beside it, which only its owner may enter. A copy is finished before it
// gets its name and is never written to again. Logbook::keep_copy() makes one; start here at copies_of().
// Names: <season>-copy-<number>-<moment in UTC>-<why>.redd. The numbers count up and give the order, because clocks may
// jump; two programs that make one in the same moment may give the same number.

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "quantities/time.h"

namespace redd::logbook {

/// What a copy was made for.
enum class Why { daily, before_import, before_undo, before_restore, before_upgrade, by_hand, damaged };

/// As in the name of the file: "daily", "before-import"…
std::string_view word_of(Why why);

struct Copy {
  std::filesystem::path file{};
  int number = 0;
  Instant made_at{};
  Why why = Why::daily;  ///< damaged: the bytes of a file that could not be read, for salvage; never let go by itself
};

/// A copy just made. Of a season with damaged records it is kept all the same, and never called whole.
struct KeptCopy : Copy {
  bool whole = true;
};

/// What to tell of one that is not whole.
Problem not_whole(const KeptCopy& copy);

std::filesystem::path copies_folder(const std::filesystem::path& season_file);

/// The copies of a season file, the one made last first; none where there is no folder of them.
/// Errors  read_only when the folder is there and can't be read: what it holds is not known.
Result<std::vector<Copy>> copies_of(const std::filesystem::path& season_file);

/// Copies no longer needed. Kept are: the newest of each of the last 7 days, 5 weeks and 12 months that have one (days without a
/// copy use up nothing), the last 5 made for another reason than the day, and all that a restore or damage replaced.
/// Assumed: these numbers; a season of a year then keeps about 25 files.
std::vector<Copy> surplus_of(std::span<const Copy> newest_first, const ZoneOffsets& zone);

/// The one made last that is not just the bytes of a damaged file.
std::optional<Copy> newest_whole(std::span<const Copy> newest_first);

/// Whether an entry kept now is the first one of a day without a copy.
bool copy_is_due(std::span<const Copy> newest_first, Instant now, const ZoneOffsets& zone);

}  // namespace redd::logbook
