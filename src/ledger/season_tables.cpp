#include "ledger/season_tables.h"

#include <map>

#include "ledger/detail/table_schema.h"
#include "ledger/detail/water_quality.h"
#include "ledger/season_file.h"
#include "wire/codec.h"
#include "wire/csv_table.h"
#include "wire/json.h"

namespace redd::ledger {
namespace {

using records::Record;
using wire::Column;
using wire::Json;

constexpr int tables_version = 1;
constexpr std::string_view descriptor = "datapackage.json", records_path = "data/records.csv";

// --- Out -----------------------------------------------------------------------------------------------------------------------------------------

/// A text as a cell. Empty cells are fields that were not given, so an empty text that was given needs a sign.
std::string text_cell(const std::string& text) {
  if (text.empty()) return "'";
  return text == "'" ? "''" : wire::csv_cell(text);
}
std::string cell(const Json& value) {
  if (value.is_string()) return text_cell(value.get_ref<const std::string&>());
  return wire::csv_cell(wire::printed(value));
}
std::string row_of(const Json& object, const std::vector<Column>& columns) {
  std::string row;
  for (const Column& column : columns) {
    const auto found = object.find(column.name);
    if (&column != &columns.front()) row += ',';
    if (found != object.end()) row += cell(*found);
  }
  return row + "\r\n";
}
std::string head_of(const std::vector<Column>& columns) {
  std::string row;
  for (const Column& column : columns) row += (row.empty() ? "" : ",") + column.name;
  return row + "\r\n";
}

Json tree(const std::string& text) {
  auto parsed = wire::parsed(text);
  require(parsed.has_value(), "season_tables", "a record's own JSON can't be read");
  return std::move(parsed).value();
}

std::vector<Column> columns_of_table(std::string_view kind) {
  auto columns = wire::columns_of_kind(kind);
  columns.insert(columns.begin(), record_column());
  return columns;
}

std::string path_of(std::string_view table) { return "data/" + std::string(table) + ".csv"; }

// --- Back ----------------------------------------------------------------------------------------------------------------------------------------

struct Table {
  std::string name{};
  std::map<std::string, std::size_t> columns{};
  std::vector<wire::CsvRow> rows{};

  const std::string* cell(const wire::CsvRow& row, const std::string& column) const {
    const auto found = columns.find(column);
    if (found == columns.end() || found->second >= row.cells.size() || row.cells[found->second].empty()) return nullptr;
    return &row.cells[found->second];
  }
};

const NamedFile* find_file(std::span<const NamedFile> files, std::string_view name) {
  for (const NamedFile& file : files)
    if (file.name == name) return &file;
  return nullptr;
}

Result<Table> table_in(std::span<const NamedFile> files, std::string_view name, const std::vector<Column>& columns) {
  const NamedFile* file = find_file(files, path_of(name));
  if (!file) return Problem{"missing_table", path_of(name), said("The table {0} is missing: give the folder or the .zip as Redd wrote it.", path_of(name))};
  std::string_view text = file->bytes;
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  auto rows = wire::read_csv(text, ',');
  if (!rows) return rows.problems();
  Table table{std::string(name), {}, std::move(rows).value()};
  if (!table.rows.empty()) {
    for (std::size_t i = 0; i < table.rows.front().cells.size(); ++i) table.columns.emplace(table.rows.front().cells[i], i);
    table.rows.erase(table.rows.begin());
  }
  for (const Column& column : columns)
    if (column.filled && !table.columns.contains(column.name))
      return Problem{"missing_column", path_of(name), said("The table {0} has no column \"{1}\": give the tables as Redd wrote them.", path_of(name), column.name)};
  return table;
}

/// A cell as JSON. What does not fit the column stays text, and the record's own reader says what is wrong with it.
Json value_of(const std::string& cell, Column::Type type) {
  if (cell == "'") return "";
  std::string text = wire::without_guard(cell);
  if (type == Column::Type::text || type == Column::Type::date) return text;
  auto parsed = wire::parsed(text);
  return parsed && !parsed->is_string() ? std::move(parsed).value() : Json(text);
}

Json object_of(const Table& table, const wire::CsvRow& row, const std::vector<Column>& columns) {
  Json object = Json::object();
  for (const Column& column : columns)
    if (const std::string* cell = table.cell(row, column.name)) object[column.name] = value_of(*cell, column.type);
  return object;
}

/// The bodies of one kind by the record's number as it is written.
Result<std::map<std::string, Json>> bodies_of(std::span<const NamedFile> files, const std::string& kind) {
  const auto columns = columns_of_table(kind);
  const auto table = table_in(files, kind, columns);
  if (!table) return table.problems();
  std::map<std::string, Json> bodies;
  for (const wire::CsvRow& row : table->rows) {
    const std::string* id = table->cell(row, columns.front().name);
    Json body = object_of(*table, row, columns);
    body.erase(columns.front().name);
    if (!bodies.emplace(id ? *id : "", std::move(body)).second)
      return Problem{"row_without_record", path_of(kind), said("In the table {0} two rows speak of record {1}: keep one.", path_of(kind), id ? *id : "")};
  }
  return bodies;
}

Problems wrong_descriptor(std::span<const NamedFile> files) {
  const Problems not_one{{"not_an_export", "", "This is no season that Redd wrote as tables: there must be a datapackage.json, and beside it a folder \"data\"."}};
  const NamedFile* file = find_file(files, descriptor);
  const auto tree = file ? wire::parsed(file->bytes) : Result<Json>(not_one);
  if (!tree || !tree->is_object() || !tree->contains("redd_tables") || !(*tree)["redd_tables"].is_number_integer()) return not_one;
  if ((*tree)["redd_tables"] != tables_version) return {{"newer_export", "", "This season was saved by a newer Redd: use the newer program."}};
  return {};
}

}  // namespace

std::vector<NamedFile> season_tables(std::span<const Record> records) {
  const auto columns = record_columns();
  std::map<std::string, std::string> rows;  // of each kind
  std::string list = head_of(columns);
  const auto standing = records::standings(records);
  for (std::size_t i = 0; i < records.size(); ++i) {
    Json record = tree(wire::json_from_record(records[i]));
    record["counts"] = standing[i].counts();
    Json body = std::move(record["body"]);
    const std::string kind(records::kind_name(records[i].entry.body));
    body["record"] = records[i].id;
    rows[kind] += row_of(body, columns_of_table(kind));
    list += row_of(record, columns);
  }

  Json package{{"$schema", "https://datapackage.org/profiles/2.0/datapackage.json"}, {"profile", "tabular-data-package"}, {"name", "redd-season-tables"}, {"redd_tables", tables_version},
               {"title", std::string(title_of(records))},
               {"description", "One season of a classroom fish tank, as logged: one table for each kind of record, tied together by the record's number. Times are UTC. Rows whose record does not count "
                               "were corrected or taken back. A text behind an apostrophe is meant to be text, not a formula; an apostrophe alone is an empty text."},
               {"resources", Json::array()}};
  std::vector<NamedFile> files{{std::string(descriptor), ""}, {std::string(records_path), std::move(list)}};
  package["resources"].push_back(resource("records", "Everything that was logged, in the order it was written down", columns));
  for (const auto kind : records::kind_names()) {
    const auto found = rows.find(std::string(kind));
    if (found == rows.end()) continue;
    const auto of_kind = columns_of_table(kind);
    package["resources"].push_back(resource(kind, title_of_kind(kind), of_kind));
    files.push_back({path_of(kind), head_of(of_kind) + found->second});
  }
  if (rows.contains("reading") || rows.contains("temperature")) {
    const auto of_water = water_quality_columns();
    package["resources"].push_back(resource("water_quality", "Each test and temperature once more, worked out: the range that it stands for", of_water));
    std::string text = head_of(of_water);
    for (const Json& row : water_quality_rows(records)) text += row_of(row, of_water);
    files.push_back({path_of("water_quality"), std::move(text)});
  }
  files.front().bytes = package.dump(1) + "\n";
  return files;
}

Result<std::vector<Record>> records_of_season_tables(std::span<const NamedFile> files) {
  if (Problems wrong = wrong_descriptor(files); !wrong.empty()) return wrong;
  const auto columns = record_columns();
  const auto list = table_in(files, "records", columns);
  if (!list) return list.problems();
  std::map<std::string, std::map<std::string, Json>> bodies;
  // The file of one piece knows all that can be wrong with a list of records.
  std::string season = "{\"format\":\"redd-season\",\"version\":1,\"records\":[";
  for (const wire::CsvRow& row : list->rows) {
    Json record = object_of(*list, row, columns);
    record.erase("counts");
    const std::string* id = list->cell(row, "id");
    const std::string kind = record.contains("kind") ? record["kind"].get<std::string>() : "";
    if (records::body_of_kind(kind)) {
      if (!bodies.contains(kind)) {
        auto found = bodies_of(files, kind);
        if (!found) return found.problems();
        bodies.emplace(kind, std::move(found).value());
      }
      const auto body = bodies[kind].extract(id ? *id : "");
      if (body.empty()) return Problem{"record_without_row", path_of(kind), said("Record {0} has no row in the table {1}.", id ? *id : "", path_of(kind))};
      record["body"] = body.mapped();
    }
    season += (&row == &list->rows.front() ? "" : ",") + wire::printed(record);
  }
  for (const auto& [kind, left] : bodies)
    if (!left.empty()) return Problem{"row_without_record", path_of(kind), said("The table {0} has a row for record {1}, which is no record of that kind.", path_of(kind), left.begin()->first)};
  return records_of_season_file(season + "]}");
}

}  // namespace redd::ledger
