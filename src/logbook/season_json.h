#pragma once
// A whole season as one JSON text, for keeping elsewhere and for reading by other programs; and back.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "records/record.h"

namespace redd::logbook {

/// {"format":"redd-season","version":1,"records":[…]}, one record a line, each as wire::json_from_record() writes it.
std::string export_json(std::span<const records::Record> records);

/// The records of such a text, equal to those exported. Logbook::create_from() makes a file of them.
/// Errors  every problem with its path, e.g. "/records/17/body/volume_l".
Result<std::vector<records::Record>> records_from_export(std::string_view json);

}  // namespace redd::logbook
