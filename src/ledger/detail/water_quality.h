#pragma once
// Tests and temperatures as a long table: one row a reading, as the range that it stands for.

#include <span>
#include <vector>

#include "records/record.h"
#include "wire/columns.h"
#include "wire/json.h"

namespace redd::ledger {

std::vector<wire::Column> water_quality_columns();

/// In order of the records; also of those that no longer count. A reading that its kit, as it is now, does not know has no range.
std::vector<wire::Json> water_quality_rows(std::span<const records::Record> records);

}  // namespace redd::ledger
