#pragma once
// The one place that names the JSON library. Parsing never throws; member access is checked before it is made.

#include <nlohmann/json.hpp>
#include <string_view>

#include "quantities/result.h"

namespace redd::wire {

using Json = nlohmann::ordered_json;

/// JSON text to a tree. Refuses malformed text, doubled keys and nesting deeper than 32, each as a Problem.
Result<Json> parsed(std::string_view text);

/// Shortest text that reads back to the same tree; invalid UTF-8 becomes U+FFFD.
std::string printed(const Json& json);

}  // namespace redd::wire
