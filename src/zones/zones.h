#pragma once
// Time zone names as lists of offset changes, read from the machine's zone files. The core below never reads a zone
// file: it gets the ZoneOffsets made here. Start at season_zone().
// Source  IANA time zone database, as installed on the machine (package tzdata), through Hinnant's date library.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/fixed_zone.h"
#include "quantities/result.h"
#include "quantities/time.h"
#include "records/bodies.h"

namespace redd::zones {

/// Offsets of a zone over the days from..to (both included, with a margin of two days on either side).
///
/// In      iana_name: e.g. "America/Denver"; also "UTC" and fixed offsets written "UTC-07:00", which need no zone files.
/// Errors  unknown_time_zone (the sentence offers the nearest names), zone_files_missing, time_zone_too_far (zone files
///         list daylight saving to the end of 2037 only; later dates are refused rather than guessed).
Result<ZoneOffsets> zone_offsets(std::string_view iana_name, Date from, Date to);

/// Offsets of the season's zone from a year before its first day to three years after.
/// Errors  as zone_offsets(), with the field "/body/time_zone".
Result<ZoneOffsets> season_zone(const records::SeasonSetup& season);

using redd::fixed_zone;

/// Zone this machine is set to; "UTC" when it does not say.
std::string machine_zone_name();

/// Known zone names, sorted; empty when the zone files are missing.
std::vector<std::string> zone_names();

}  // namespace redd::zones
