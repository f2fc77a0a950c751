#include "intake/kit_file.h"

#include <charconv>

// toml++ 3.3 stops the program on some malformed files (a table header that begins with a wrong character): its own
// assertions are reachable from input. Here they end the parse instead, in every build.
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

#include "intake/csv.h"
#include "quantities/verbatim.h"
#include "records/record.h"
#include "wire/codec.h"
#include "wire/json.h"

namespace redd::intake {
namespace {

using wire::Json;

constexpr std::size_t largest_file = 1 << 20;

Phrase at_line(const toml::source_position& position) { return said("Line {0}: ", position.line); }

// toml++ 3.3 must see ASCII only: its test for exotic white space is undefined for many letters. Every other byte, and
// the sign itself, goes through it as "@hh@". Lines stay where they are.
std::string in_ascii(std::string_view text) {
  constexpr std::string_view hex = "0123456789ABCDEF";
  std::string result;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80 && c != '@') result += c;
    else result += {'@', hex[byte >> 4], hex[byte & 15], '@'};
  }
  return result;
}

std::string from_ascii(std::string_view text) {
  const auto digit = [](char c) { return c >= '0' && c <= '9' ? c - '0' : c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1; };
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool escape = text[i] == '@' && i + 3 < text.size() && text[i + 3] == '@' && digit(text[i + 1]) >= 0 && digit(text[i + 2]) >= 0;
    result += escape ? static_cast<char>(digit(text[i + 1]) * 16 + digit(text[i + 2])) : text[i];
    if (escape) i += 3;
  }
  return result;
}

/// TOML as the JSON that wire reads. What JSON has no word for (dates, infinity) becomes text, which wire refuses in its
/// own words wherever a number is due.
Json json_of(const toml::node& node) {
  if (const auto* table = node.as_table()) {
    Json object = Json::object();
    for (const auto& [key, value] : *table) object[from_ascii(key.str())] = json_of(value);
    return object;
  }
  if (const auto* array = node.as_array()) {
    Json list = Json::array();
    for (const auto& value : *array) list.push_back(json_of(value));
    return list;
  }
  if (const auto* text = node.as_string()) return from_ascii(text->get());
  if (const auto* whole = node.as_integer()) return whole->get();
  if (const auto* truth = node.as_boolean()) return truth->get();
  if (const auto* number = node.as_floating_point())
    if (number->get() - number->get() == 0.0) return number->get();
  return "a date, a time or no number";
}

/// Where in the file the thing a problem names stands: the node at the end of its path, or the nearest one around it.
toml::source_position position_of(const toml::table& table, std::string_view path) {
  const toml::node* node = &table;
  toml::source_position position{1, 1};
  while (!path.empty()) {
    path.remove_prefix(1);
    const std::string_view part = path.substr(0, path.find('/'));
    path.remove_prefix(part.size());
    const toml::node* next = nullptr;
    if (const auto* inner = node->as_table()) next = inner->get(in_ascii(part));
    if (const auto* list = node->as_array()) {
      std::size_t index = 0;
      const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), index);
      if (error == std::errc() && end == part.data() + part.size()) next = list->get(index);
    }
    if (!next) break;
    node = next;
    if (node->source().begin.line > 0) position = node->source().begin;
  }
  return position;
}

Result<records::Kit> kit_from_json(std::string_view json) {
  auto body = wire::body_from_json("kit", json);
  if (!body) return body.problems();
  auto kit = std::get<records::Kit>(std::move(body).value());
  if (Problems problems = records::problems_of(kit); !problems.empty()) return problems;
  return kit;
}

Result<records::Kit> kit_from_toml(std::string_view text) {
  toml::table table;
  try {
    table = toml::parse(in_ascii(text));
  } catch (const toml::parse_error& error) {
    return Problem{"not_toml", "", said("{0}this is not valid TOML ({1}).", at_line(error.source().begin), verbatim(from_ascii(error.description())))};
  } catch (const ParserGaveUp&) {
    return Problem{"not_toml", "", "This is not valid TOML: look for a wrong character after a [ at the start of a line."};
  }
  auto kit = kit_from_json(wire::printed(json_of(table)));
  if (kit) return kit;
  Problems problems = kit.problems();
  for (Problem& p : problems) p.sentence = said("{0}{1}", at_line(position_of(table, p.field)), p.sentence);
  return problems;
}

std::string toml_text(const std::string& text) {
  std::string quoted = "\"";
  for (const char c : text) {
    switch (c) {
      case '"': quoted += "\\\""; break;
      case '\\': quoted += "\\\\"; break;
      case '\n': quoted += "\\n"; break;
      case '\t': quoted += "\\t"; break;
      default: quoted += c;
    }
  }
  return quoted + "\"";
}

std::string toml_value(const Json& value) {
  if (value.is_string()) return toml_text(value.get<std::string>());
  if (value.is_number_float()) {
    char buffer[32];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value.get<double>());
    return {buffer, end.ptr};
  }
  if (value.is_array()) {
    std::string list = "[";
    for (std::size_t i = 0; i < value.size(); ++i) list += (i ? ", " : "") + toml_value(value[i]);
    return list + "]";
  }
  return wire::printed(value);
}

/// A table: plain keys first, then its lists of tables, as TOML demands.
void write_table(const Json& table, const std::string& name, std::string& out) {
  const auto is_list_of_tables = [](const Json& v) { return v.is_array() && !v.empty() && v.front().is_object(); };
  for (const auto& [key, value] : table.items())
    if (!is_list_of_tables(value)) out += key + " = " + toml_value(value) + "\n";
  for (const auto& [key, value] : table.items()) {
    if (!is_list_of_tables(value)) continue;
    const std::string inner = name.empty() ? key : name + "." + key;
    for (const Json& item : value) {
      out += "\n[[" + inner + "]]\n";
      write_table(item, inner, out);
    }
  }
}

}  // namespace

Result<records::Kit> kit_from_text(std::string_view text) {
  if (text.size() > largest_file) return Problem{"file_too_large", "", "A kit file is at most 1 MB; this is something else."};
  const auto utf8 = decoded(text);
  if (!utf8) return utf8.problems();
  text = utf8->text;
  const std::size_t start = text.find_first_not_of(" \t\r\n");
  return text[start] == '{' ? kit_from_json(text) : kit_from_toml(text);
}

std::string toml_from_kit(const records::Kit& kit) {
  const auto tree = wire::parsed(wire::json_from_body(kit));
  require(tree.has_value(), "toml_from_kit", "a kit did not read back");
  std::string out;
  write_table(*tree, "", out);
  return out;
}

}  // namespace redd::intake
