#include "ledger/detail/table_schema.h"

#include <map>

namespace redd::ledger {
namespace {

using wire::Column;
using wire::Json;

constexpr wire::Range any_record{1, 9e15};

std::string_view type_name(Column::Type type) {
  switch (type) {
    case Column::Type::text: return "string";
    case Column::Type::number: return "number";
    case Column::Type::whole: return "integer";
    case Column::Type::truth: return "boolean";
    case Column::Type::date: return "date";
    case Column::Type::list: return "array";
  }
  broken_promise("type_name", "unknown type");
}

bool is_time(std::string_view name) { return name == "at" || name == "logged_at"; }

Json field(const Column& column) {
  Json made{{"name", column.name}, {"type", is_time(column.name) ? "datetime" : std::string(type_name(column.type))}, {"description", column.meaning}};
  if (const auto unit = wire::unit_of_field(column.name); !unit.empty()) made["unit"] = std::string(unit);
  if (column.type == Column::Type::truth) made["trueValues"] = Json::array({"true"}), made["falseValues"] = Json::array({"false"});
  Json constraints = Json::object();
  if (column.filled) constraints["required"] = true;
  if (column.range) {
    const bool whole = column.type == Column::Type::whole;
    const auto number = [&](double value) { return whole ? Json(static_cast<long long>(value)) : Json(value); };
    constraints["minimum"] = number(column.range->low), constraints["maximum"] = number(column.range->high);
  }
  if (!column.words.empty()) constraints["enum"] = column.words;
  if (!constraints.empty()) made["constraints"] = std::move(constraints);
  return made;
}

Json foreign_key(std::string_view column, std::string_view table) {
  return {{"fields", Json::array({std::string(column)})}, {"reference", {{"resource", std::string(table)}, {"fields", Json::array({"id"})}}}};
}

}  // namespace

std::vector<Column> record_columns() {
  using enum Column::Type;
  return {{"id", whole, "number of the record: 1, 2, 3 without a gap", true, any_record, {}},
          {"logged_at", text, "when it was written down, UTC", true, {}, {}},
          {"at", text, "when it happened, UTC", true, {}, {}},
          {"kind", text, "kind of record, and the table that holds what was logged", true, {}, {}},
          {"author", text, "who logged it: a team or role label, never a person's name", true, {}, {}},
          {"supersedes", whole, "number of the record that this one corrects", false, any_record, {}},
          {"entry_key", text, "the sender's own key: the same key twice is one record", false, {}, {}},
          {"counts", truth, "whether it counts: false when it was corrected or taken back. Worked out, and not read when the tables are taken in", false, {}, {}}};
}

Column record_column() { return {"record", Column::Type::whole, "number of the record, see records", true, any_record, {}}; }

std::string title_of_kind(std::string_view kind) {
  std::string words(kind);
  for (char& c : words)
    if (c == '_') c = ' ';
  return "What was logged as \"" + words + "\"";
}

Json resource(std::string_view table, std::string_view title, const std::vector<Column>& columns) {
  Json fields = Json::array(), keys = Json::array();
  for (const Column& column : columns) fields.push_back(field(column));
  if (table == "records") keys.push_back(foreign_key("supersedes", ""));  // "" is the table itself
  else keys.push_back(foreign_key(columns.front().name, "records"));
  if (table == "undo") keys.push_back(foreign_key("target", "records"));
  return {{"name", std::string(table)}, {"type", "table"}, {"profile", "tabular-data-resource"}, {"title", std::string(title)}, {"path", "data/" + std::string(table) + ".csv"},
          {"format", "csv"}, {"mediatype", "text/csv"}, {"encoding", "utf-8"},
          // Said, as readers that guess the delimiter can take a list in a cell for columns.
          {"dialect", {{"delimiter", ","}, {"lineTerminator", "\r\n"}, {"quoteChar", "\""}, {"doubleQuote", true}, {"header", true}}},
          {"schema", {{"fields", std::move(fields)}, {"primaryKey", Json::array({columns.front().name})}, {"foreignKeys", std::move(keys)}}}};
}

}  // namespace redd::ledger
