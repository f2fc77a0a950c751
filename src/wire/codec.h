#pragma once
// Records, entries and kits as JSON text and back. Reading is strict: every problem is reported at once with its path,
// unknown fields and doubled keys are refused, whole numbers are whole. Start at body_from_json().

#include <string>
#include <string_view>

#include "quantities/result.h"
#include "records/record.h"

namespace redd::wire {

/// Body of a record of this kind from JSON text. Fields of problems are JSON pointers below `base`, e.g. "/body/volume_l".
Result<records::Body> body_from_json(std::string_view kind, std::string_view json, std::string_view base = "");

/// The body as one line of JSON, keys in the order of describe(), absent optionals left out.
std::string json_from_body(const records::Body& body);

/// An entry as sent to the server: {"kind","at"?,"author","supersedes"?,"entry_key"?,"body"}.
/// In      now: used when "at" is absent.
Result<records::Entry> entry_from_json(std::string_view json, Instant now);

/// A whole record, one line: {"id","logged_at","at","kind","author","supersedes"?,"entry_key"?,"body"}. Reads back equal.
std::string json_from_record(const records::Record& record);
Result<records::Record> record_from_json(std::string_view json);

/// JSON Schema (draft 2020-12) of each kind's body: {"season_setup":{…},…}.
std::string json_schemas();

/// A JSON string literal with its quotes, for code that writes JSON by hand.
std::string json_quoted(std::string_view text);

}  // namespace redd::wire
