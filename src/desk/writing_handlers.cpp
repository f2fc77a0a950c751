// Handlers that add to the log.
#include <charconv>

#include "desk/handlers.h"
#include "ledger/season_file.h"
#include "quantities/verbatim.h"
#include "records/labels.h"
#include "report/record_text.h"
#include "season/lessons_look.h"
#include "wire/codec.h"
#include "wire/json.h"
#include "wire/reader.h"

namespace redd::desk {
namespace {

/// What was kept, with its row of the history as the page lists it, and what a change of kits took away.
Response kept(const Call& call, const records::Appended& appended, const Look& before) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  wire::Json warnings = wire::Json::array();
  const records::Body& body = appended.record.entry.body;
  if (std::holds_alternative<records::Kit>(body) || std::holds_alternative<records::Undo>(body))
    for (const Phrase& sentence : lost_readings(before.records, (*look)->records)) warnings.push_back(report::text_of(sentence, call.reader));
  const report::Reader reader = in_zone(call.reader, (*look)->zone);
  const records::RecordId id = appended.record.id;
  return json_response(
      "{\"id\":" + std::to_string(id) + ",\"record\":" + report::history_row_json((*look)->records, id, reader) +
          (warnings.empty() ? "" : ",\"warnings\":" + wire::printed(warnings)) + "}",
      appended.already_known ? 200 : 201);
}

}  // namespace

Response add_record(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  const auto looked_at = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!looked_at) return refused(looked_at.problems());
  const Instant now = call.desk.written_at(**look, *looked_at);
  const auto entry = wire::entry_from_json(call.request.body, *looked_at);
  if (!entry) return refused(entry.problems());
  if (std::holds_alternative<records::Undo>(entry->body))
    return refusal(422, "wrong_address", "/kind", "To take a record back, send to /api/records/{id}/undo.");
  // Kept, it would count for nothing and nobody would be told.
  if (const auto problems = season::problems_of_guess({(*look)->zone}, (*look)->records, *entry, now); !problems.empty()) return refused(problems);
  const auto appended = call.desk.add(*entry, now);
  if (!appended) return refused(appended.problems());
  return kept(call, *appended, **look);
}

Response undo_record(const Call& call) {
  const std::string& text = call.parts.at(0);
  records::RecordId id = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), id);
  if (read.ec != std::errc() || read.ptr != text.data() + text.size() || id < 1)
    return refusal(404, "unknown_record", "id", said("\"{0}\" is not the number of a record.", verbatim(text.substr(0, 40))));
  const auto tree = wire::parsed(call.request.body);
  if (!tree) return refused(tree.problems());
  if (!tree->is_object())
    return refusal(400, "not_an_object", "", "Send an object such as {\"author\": \"Team Otter\"}.");

  Problems problems;
  wire::Reader reader(*tree, "", problems);
  records::Entry entry;
  reader.text("author", entry.author, "who takes it back: a team or role label, not a person's name");
  reader.text("entry_key", entry.entry_key, "the sender's own key");
  reader.finish();
  if (entry.author.size() > 64)
    problems.push_back({"too_long", "/author", "author is longer than 64 characters: use a short label."});
  if (entry.entry_key && entry.entry_key->size() > 64)
    problems.push_back({"too_long", "/entry_key", "entry_key is longer than 64 characters."});
  if (!problems.empty()) return refused(problems);

  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  const auto looked_at = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!looked_at) return refused(looked_at.problems());
  const Instant now = call.desk.written_at(**look, *looked_at);
  bool exists = false;
  for (const records::Record& record : (*look)->records) exists = exists || record.id == id;
  if (!exists) return refusal(404, "unknown_record", "id", said("There is no record {0}.", id));
  entry.at = *looked_at;
  entry.body = records::Undo{id};
  const auto appended = call.desk.add(entry, now);
  if (!appended) return refused(appended.problems());
  return kept(call, *appended, **look);
}

Response import_season(const Call& call) {
  const auto records = ledger::records_of_season_file(call.request.body);
  if (!records) return refused(records.problems());
  if (records->empty()) return refusal(422, "empty_file", "", "This file holds no records: there is nothing to take in.");
  const auto added = call.desk.take_in(*records);
  if (!added) return refused(added.problems());
  wire::Json answer{{"added", *added}, {"known", records->size() - *added}};
  // An old season is a record as it stands: nothing in it is refused or changed for its labels.
  if (const std::size_t personal = records::personal_labels(*records); personal > 0)
    answer["warnings"] = {report::text_of(said("{0, plural, one {# record carries} other {# records carry}} a label that looks like an e-mail address or a telephone number. They are kept as they are; new ones are refused.", personal), call.reader)};
  return json_response(wire::printed(answer), *added == 0 ? 200 : 201);
}

}  // namespace redd::desk
