#pragma once
// A whole season as one file that server, command line and browser edition write and read alike: a Data Package whose
// tables stand in the file itself. Start at season_file() and records_of_season_file().
// Source  Data Package standard, version 2 (datapackage.org): package with inline `data` and Table Schema.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/phrase.h"
#include "quantities/result.h"
#include "records/record.h"

namespace redd::ledger {

/// The file. Resource "records": one record a line, each as wire::json_from_record() writes it. Resource "body_fields": what each field
/// of a body means and its unit. Same records, same bytes.
std::string season_file(std::span<const records::Record> records);

/// The season's name as given, or words for one that has none.
Phrase title_of(std::span<const records::Record> records);

/// The records of such a file, equal to those written; also of the first form, {"format":"redd-season","version":1,"records":[…]}.
/// Errors  not_an_export, newer_export, ids_not_in_order, and those of each record with its path, e.g. "/records/17/body/volume_l".
Result<std::vector<records::Record>> records_of_season_file(std::string_view text);

/// The records of a file that are new to a season: all of them where there is none yet.
///
/// In      here, file: each numbered 1, 2, 3….
/// Out     a part of `file`; empty when the season holds all of it.
/// Errors  another_season; gone_apart: both went on from the same beginning. Then nothing may be added.
Result<std::span<const records::Record>> new_records(std::span<const records::Record> here, std::span<const records::Record> file);

}  // namespace redd::ledger
