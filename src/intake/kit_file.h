#pragma once
// Kits as files a keeper can edit: TOML, or the same as JSON. Start at kit_from_text().

#include <string>
#include <string_view>

#include "quantities/result.h"
#include "records/kit.h"

namespace redd::intake {

/// A kit from TOML text, or from JSON when the text starts with "{". Strict: everything wrong is reported at once.
///
/// Errors  fields are paths, e.g. "/tests/2/steps"; sentences of TOML problems start with the line.
Result<records::Kit> kit_from_text(std::string_view text);

/// The kit as TOML, ready for editing. kit_from_text() reads it back equal.
std::string toml_from_kit(const records::Kit& kit);

}  // namespace redd::intake
