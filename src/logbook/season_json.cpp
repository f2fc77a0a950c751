#include "logbook/season_json.h"

#include "wire/codec.h"
#include "wire/json.h"

namespace redd::logbook {

std::string export_json(std::span<const records::Record> records) {
  std::string text = "{\"format\":\"redd-season\",\"version\":1,\"records\":[";
  const char* separator = "\n";
  for (const records::Record& record : records) {
    text += separator + wire::json_from_record(record);
    separator = ",\n";
  }
  return text + "\n]}\n";
}

Result<std::vector<records::Record>> records_from_export(std::string_view json) {
  auto tree = wire::parsed(json);
  if (!tree) return tree.problems();
  const Problem not_an_export{"not_an_export", "", "This is not an exported Redd season: it must be {\"format\":\"redd-season\",\"version\":1,\"records\":[…]}."};
  if (!tree->is_object()) return not_an_export;
  const auto format = tree->find("format"), version = tree->find("version"), list = tree->find("records");
  if (format == tree->end() || *format != "redd-season" || list == tree->end() || !list->is_array()) return not_an_export;
  if (version == tree->end() || *version != 1)
    return Problem{"newer_export", "/version", "This season was exported by a newer Redd: use the newer program."};
  std::vector<records::Record> records;
  Problems problems;
  for (std::size_t i = 0; i < list->size() && problems.size() < 200; ++i) {
    auto record = wire::record_from_json(wire::printed((*list)[i]));
    if (record) {
      records.push_back(std::move(record).value());
      continue;
    }
    for (Problem p : record.problems()) {
      p.field = "/records/" + std::to_string(i) + p.field;
      p.sentence = said("Record {0} of the list: {1}", i + 1, p.sentence);
      problems.push_back(std::move(p));
    }
  }
  if (!problems.empty()) return problems;
  return records;
}

}  // namespace redd::logbook
