#pragma once
// How a table of the season is described in datapackage.json.

#include <string>
#include <string_view>
#include <vector>

#include "wire/columns.h"
#include "wire/json.h"

namespace redd::ledger {

/// Columns of the table of all records; "counts" is worked out.
std::vector<wire::Column> record_columns();
/// The first column of every other table: the number of the record.
wire::Column record_column();

std::string title_of_kind(std::string_view kind);

/// A table resource: path, dialect and schema with primary and foreign keys. `columns` begins with the key.
wire::Json resource(std::string_view table, std::string_view title, const std::vector<wire::Column>& columns);

}  // namespace redd::ledger
