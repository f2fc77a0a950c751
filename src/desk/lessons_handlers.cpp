// Handlers of the lessons: everything in one answer, and a guess.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "report/lessons_view.h"
#include "wire/describe.h"
#include "wire/json.h"
#include "wire/reader.h"

namespace redd::desk {

Response lessons(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto sheet = whole_parameter(call.request, "sheet", 1, redd::lessons::most_sheets, 1);
  if (!sheet) return refused(sheet.problems());
  const auto found = season::look_at_lessons({asked->look->zone}, asked->look->records, asked->now, static_cast<int>(*sheet), call.reader.fahrenheit);
  if (!found) return refused(found.problems());
  return json_response(wire::printed(wire::Json{{"lessons", report::lessons_json(*found, call.reader)}}));
}

Response add_guess(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto tree = wire::parsed(call.request.body);
  if (!tree) return refused(tree.problems());
  if (!tree->is_object()) return refusal(400, "not_an_object", "", "Send an object such as {\"question\": …, \"team\": \"Team Otter\", \"low\": 7, \"high\": 9}.");
  Problems problems;
  records::Guess guess;
  records::Entry entry;
  wire::Reader reader(*tree, "", problems);
  wire::describe(reader, guess);
  reader.text("entry_key", entry.entry_key, "the sender's own key");
  reader.finish();
  for (const auto& [text, field] : {std::pair(&guess.team, "/team"), std::pair(&guess.question, "/question")})
    if (text->size() > 120) problems.push_back({"too_long", field, "That is too long: use a short label."});
  if (guess.team.size() > 64) problems.push_back({"too_long", "/team", "team is longer than 64 characters: use a short label."});
  if (entry.entry_key && entry.entry_key->size() > 64) problems.push_back({"too_long", "/entry_key", "entry_key is longer than 64 characters."});
  const Instant now = call.desk.written_at(*asked->look, asked->now);
  entry.at = asked->now;
  entry.author = guess.team;
  entry.body = std::move(guess);
  if (problems.empty()) problems = season::problems_of_guess({asked->look->zone}, asked->look->records, entry, now);
  if (!problems.empty()) return refused(problems);
  const auto appended = call.desk.add(entry, now);
  if (!appended) return refused(appended.problems());
  return json_response("{\"id\":" + std::to_string(appended->record.id) + "}", appended->already_known ? 200 : 201);
}

}  // namespace redd::desk
