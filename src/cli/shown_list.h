// cli/shown_list.h
// The numbers of the list that `redd today` showed last, kept beside the season, so that `redd done 2` means what was read, whatever has moved in the list since.
// Only keys are kept and only for the day: without the file, numbers count the list as it is now. No answer ever rests on it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/action.h"
#include "cli/place.h"

namespace redd::cli {

/// Keeps the keys in their order. A folder that cannot be written to is no error.
void keep_shown(const Place& place, Date day, const std::vector<advice::Action>& actions);

/// Keys of the list last shown for this day, the first is number 1; nothing when none was.
std::optional<std::vector<std::string>> last_shown(const Place& place, Date day);

}  // namespace redd::cli
