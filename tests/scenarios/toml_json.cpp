// TOML to JSON, in a file of its own because toml++ is slow to compile.
#undef NDEBUG
namespace {
struct ParserGaveUp {};
constexpr void parser_needs(bool condition) {
  if (!condition) throw ParserGaveUp{};
}
}  // namespace
#define TOML_ASSERT(condition) parser_needs(static_cast<bool>(condition))
#define TOML_EXCEPTIONS 1
#include <toml++/toml.h>

#include <algorithm>

#include "scenarios/scenario.h"

namespace redd::scenarios {
namespace {

using wire::Json;

Json json_of(const toml::node& node) {
  if (const auto* table = node.as_table()) {
    Json object = Json::object();
    for (const auto& [key, value] : *table) object[std::string(key.str())] = json_of(value);
    return object;
  }
  if (const auto* array = node.as_array()) {
    Json list = Json::array();
    for (const auto& item : *array) list.push_back(json_of(item));
    return list;
  }
  if (const auto* value = node.as_string()) return value->get();
  if (const auto* value = node.as_integer()) return value->get();
  if (const auto* value = node.as_floating_point()) return value->get();
  if (const auto* value = node.as_boolean()) return value->get();
  throw Refused("dates and times are written in quotes");
}

}  // namespace

Json json_from_toml(const std::string& text) {
  if (std::ranges::any_of(text, [](char c) { return static_cast<unsigned char>(c) >= 0x80; })) throw Refused("write plain ASCII: \"8 C\" for degrees");
  try {
    return json_of(toml::parse(text));
  } catch (const toml::parse_error& error) {
    throw Refused("line " + std::to_string(error.source().begin.line) + ": " + std::string(error.description()));
  } catch (const ParserGaveUp&) {
    throw Refused("this is not TOML");
  }
}

}  // namespace redd::scenarios
