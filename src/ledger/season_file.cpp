#include "ledger/season_file.h"

#include <algorithm>
#include <set>

#include "quantities/verbatim.h"
#include "wire/codec.h"
#include "wire/columns.h"
#include "wire/json.h"

namespace redd::ledger {
namespace {

using records::Record;
using wire::Json;

constexpr int file_version = 1;
constexpr std::size_t most_problems = 200;

Json field(const char* name, const char* type, const char* meaning, bool required) {
  Json made{{"name", name}, {"type", type}, {"description", meaning}};
  if (required) made["constraints"] = {{"required", true}};
  return made;
}

Json table(const char* name, const char* title, Json fields, Json key) {
  return {{"name", name}, {"type", "table"}, {"profile", "tabular-data-resource"}, {"title", title},
          {"schema", {{"fields", std::move(fields)}, {"primaryKey", std::move(key)}}}};
}

Json records_table() {
  return table("records", "Everything that was logged, in the order it was written down",
               {field("id", "integer", "number of the record: 1, 2, 3 without a gap", true),
                field("logged_at", "datetime", "when it was written down, UTC", true),
                field("at", "datetime", "when it happened, UTC", true),
                field("kind", "string", "kind of record", true),
                field("author", "string", "who logged it: a team or role label, never a person's name", true),
                field("supersedes", "integer", "number of the record that this one corrects", false),
                field("entry_key", "string", "the sender's own key: the same key twice is one record", false),
                field("body", "object", "what was logged; its fields are listed in body_fields", true)},
               {"id"});
}

Json body_fields_table() {
  Json made = table("body_fields", "What each field of a body means, and its unit",
                    {field("kind", "string", "kind of record", true), field("field", "string", "name of the field", true),
                     field("type", "string", "type of its value, as in JSON", false), field("unit", "string", "unit of its value", false),
                     field("meaning", "string", "what it says", false)},
                    {"kind", "field"});
  made["data"] = Json::array();
  const auto schemas = wire::parsed(wire::json_schemas());
  require(schemas.has_value(), "body_fields_table", "the schemas are no JSON");
  for (const auto& [kind, schema] : schemas->items())
    for (const auto& [name, property] : schema["properties"].items()) {
      Json row{{"kind", kind}, {"field", name}, {"type", property.value("type", "string")}};
      if (const auto unit = wire::unit_of_field(name); !unit.empty()) row["unit"] = std::string(unit);
      if (property.contains("description")) row["meaning"] = property["description"];
      made["data"].push_back(std::move(row));
    }
  return made;
}

/// The object's text, left open before its closing brace.
std::string left_open(const Json& object) {
  std::string text = wire::printed(object);
  text.pop_back();
  return text;
}

/// The list of records in a parsed file.
Result<const Json*> list_in(const Json& tree) {
  const Problem not_one{"not_an_export", "", "This is not a season saved by Redd: choose the file that Redd saved, its name ends in .json."};
  if (!tree.is_object()) return not_one;
  const bool first_form = tree.value("format", Json()) == "redd-season";
  const auto version = tree.find(first_form ? "version" : "redd_season");
  if (version == tree.end() || !version->is_number_integer()) return not_one;
  if (*version != file_version) return Problem{"newer_export", "/version", "This season was saved by a newer Redd: use the newer program."};
  const Json* holder = first_form ? &tree : nullptr;
  if (!first_form && tree.contains("resources") && tree["resources"].is_array())
    for (const Json& resource : tree["resources"])
      if (resource.is_object() && resource.value("name", Json()) == "records") holder = &resource;
  if (holder == nullptr) return not_one;
  const auto list = holder->find(first_form ? "records" : "data");
  if (list == holder->end() || !list->is_array()) return not_one;
  return &*list;
}

}  // namespace

Phrase title_of(std::span<const Record> records) {
  const auto known = records::effective(records, Instant::max());
  const records::SeasonSetup* season = records::find_season(known);
  return season ? verbatim(season->name) : Phrase("A season");
}

std::string season_file(std::span<const Record> records) {
  const Json package{{"$schema", "https://datapackage.org/profiles/2.0/datapackage.json"}, {"name", "redd-season"}, {"redd_season", file_version},
                     {"title", std::string(title_of(records))},
                     {"description", "One season of a classroom fish tank, as logged. Redd opens this file; times are UTC, numbers carry their unit in their name."}};
  std::string text = left_open(package) + ",\"resources\":[\n" + left_open(records_table()) + ",\"data\":[";
  const char* separator = "\n";
  for (const Record& record : records) {
    text += separator + wire::json_from_record(record);
    separator = ",\n";
  }
  return text + "\n]},\n" + wire::printed(body_fields_table()) + "\n]}\n";
}

Result<std::vector<Record>> records_of_season_file(std::string_view text) {
  auto tree = wire::parsed(text);
  if (!tree) return tree.problems();
  const auto list = list_in(*tree);
  if (!list) return list.problems();
  std::vector<Record> records;
  std::set<std::string> keys;
  Problems problems;
  for (std::size_t i = 0; i < (*list)->size() && problems.size() < most_problems; ++i) {
    const std::string path = "/records/" + std::to_string(i);
    const auto of_this = [&](const Phrase& wrong) { return said("Record {0} of the list: {1}", i + 1, wrong); };
    auto record = wire::record_from_json(wire::printed((**list)[i]));
    if (!record)
      for (const Problem& p : record.problems()) problems.push_back({p.code, path + p.field, of_this(p.sentence)});
    else if (record->id != static_cast<records::RecordId>(i) + 1)
      problems.push_back({"ids_not_in_order", path + "/id", of_this("records must be numbered 1, 2, 3 and so on without gaps.")});
    else if (record->entry.entry_key && !keys.insert(*record->entry.entry_key).second)
      problems.push_back({"given_twice", path + "/entry_key", of_this("another record carries the same key; a season keeps each once.")});
    else records.push_back(std::move(record).value());
  }
  if (!problems.empty()) return problems;
  return records;
}

Result<std::span<const Record>> new_records(std::span<const Record> here, std::span<const Record> file) {
  const std::size_t common = std::min(here.size(), file.size());
  for (std::size_t i = 0; i < common; ++i) {
    if (wire::json_from_record(here[i]) == wire::json_from_record(file[i])) continue;
    if (i == 0)
      return Problem{"another_season", "", said("The file holds another season (\"{0}\"); here is \"{1}\". Nothing was changed. Save this season and begin anew before you open the other.", title_of(file), title_of(here))};
    return Problem{"gone_apart", "", said("The file and the season here are the same up to record {0} ({1}); since then each has entries that the other lacks. Nothing was changed. Go on with one of them and log the other's entries there by hand.", i, rfc3339_from_instant(here[i - 1].logged_at).substr(0, 10))};
  }
  return file.subspan(common);
}

}  // namespace redd::ledger
