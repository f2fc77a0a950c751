#pragma once
// The kit of a question about tests.

#include <string_view>

#include "quantities/result.h"
#include "records/kit.h"
#include "wire/json.h"

namespace redd::desk {

/// question["kit"], checked as a kit to be kept is.
///
/// In      here: JSON pointer of the question, for the fields of problems.
Result<records::Kit> kit_in(const wire::Json& question, std::string_view here);

}  // namespace redd::desk
