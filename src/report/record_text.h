#pragma once
// A record in one line of plain words, and the history as JSON.

#include <optional>
#include <span>
#include <string>

#include "records/record.h"
#include "report/numbers.h"

namespace redd::report {

/// What a record says, without its date and author: "Water change: 42 L (20 % of the tank), from tap".
/// In      records: where kits are looked up (effective ones, or the whole log).
std::string record_text(const records::Body& body, std::span<const records::Record> records, const Reader& reader);

/// "Water change", "Eggs received".
std::string_view kind_text(const records::Body& body);

/// True for what belongs on the season line: set-points and readings are drawn otherwise.
bool is_season_event(const records::Body& body);

/// {"records":[…],"more":bool}, newest first, each with its standing. before_id 0: from the newest. Known by `now` only.
std::string history_json(std::span<const records::Record> records, const Reader& reader, int limit, records::RecordId before_id, Instant now);

/// One row of the history as JSON. Errors: "null" when there is no such record.
std::string history_row_json(std::span<const records::Record> records, records::RecordId id, const Reader& reader);

}  // namespace redd::report
