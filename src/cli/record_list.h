// cli/record_list.h
// Records in a few lines, before something is done to them.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "cli/console.h"
#include "quantities/time.h"
#include "records/record.h"

namespace redd::cli {

/// So many lines of a long list are shown.
inline constexpr std::size_t most_named = 10;

/// "2031-02-14 07:50", at the school's clock; "2031-02-14 14:50 UTC" while its zone is not known.
std::string moment_text(const ZoneOffsets& zone, Instant at);

/// The newest of these, each with when it was logged, and how many more there are.
///
/// In      shown: in order of id.  all: the whole log, to name kits and what an undo took back.
void print_records(const Console& console, std::span<const records::Record> shown, std::span<const records::Record> all, const ZoneOffsets& zone);

}  // namespace redd::cli
