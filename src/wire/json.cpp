#include "wire/json.h"

#include <set>
#include <string>
#include <vector>

#include "quantities/verbatim.h"

namespace redd::wire {

Result<Json> parsed(std::string_view text) {
  constexpr int deepest = 32;
  std::vector<std::set<std::string>> keys;
  std::string doubled;
  bool too_deep = false;
  const Json::parser_callback_t watch = [&](int depth, Json::parse_event_t event, Json& value) {
    if (depth > deepest) too_deep = true;
    if (event == Json::parse_event_t::object_start) keys.emplace_back();
    if (event == Json::parse_event_t::object_end && !keys.empty()) keys.pop_back();
    if (event == Json::parse_event_t::key && !keys.empty() && !keys.back().insert(value.get<std::string>()).second)
      doubled = value.get<std::string>();
    return true;
  };
  // Depth is bounded before the recursive parts of the library see the text.
  int depth = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_string) {
      if (c == '\\') ++i;
      else if (c == '"') in_string = false;
    } else if (c == '"') {
      in_string = true;
    } else if (c == '{' || c == '[') {
      if (++depth > deepest) return Problem{"too_deep", "", "The JSON is nested too deeply to be a record."};
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  Json json = Json::parse(text, watch, /*allow_exceptions=*/false);
  if (json.is_discarded()) return Problem{"not_json", "", "This is not valid JSON: check quotes, commas and brackets."};
  if (too_deep) return Problem{"too_deep", "", "The JSON is nested too deeply to be a record."};
  if (!doubled.empty()) return Problem{"given_twice", doubled, said("\"{0}\" is given twice: keep one.", verbatim(doubled))};
  return json;
}

std::string printed(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

}  // namespace redd::wire
