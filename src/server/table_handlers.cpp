// Handlers that take a table in, a logger's temperatures or a log kept by hand: first shown, then kept.
#include "desk/handlers.h"
#include "intake/import.h"
#include "server/own_routes.h"
#include "wire/json.h"

namespace redd::server {
namespace {

using wire::Json;

/// What is sent: {"text": "date,pH…", "settings": {"date_order": "dmy", "columns/pH": "card/ph"}}, and to keep it also
/// {"author": "Team Otter", "confirmed": true, "keep_good_rows": false}.
struct Sent {
  std::string text{};
  std::map<std::string, std::string> words{};
  intake::Decision decision{};
};

void read_settings(const Json& value, Sent& sent, Problems& problems) {
  if (!value.is_object()) return problems.push_back({"wrong_type", "/settings", "settings is an object of words, such as {\"date_order\": \"dmy\"}."});
  for (const auto& [name, word] : value.items()) {
    if (word.is_string()) sent.words[name] = word.get<std::string>();
    else problems.push_back({"wrong_type", "/settings/" + name.substr(0, 80), "A setting is a word in quotes."});
  }
}

Result<Sent> sent_from(const std::string& body, bool to_keep) {
  const auto tree = wire::parsed(body);
  if (!tree) return tree.problems();
  if (!tree->is_object()) return Problem{"not_an_object", "", "Send an object such as {\"text\": \"date,pH\\n2031-02-28,7.2\"}."};
  Sent sent;
  Problems problems;
  const auto truth = [&](const std::string& key, const Json& value, bool& field) {
    if (value.is_boolean()) field = value.get<bool>();
    else problems.push_back({"wrong_type", "/" + key, said("{0} is true or false.", key)});
  };
  for (const auto& [key, value] : tree->items()) {
    if (key == "text" && value.is_string()) sent.text = value.get<std::string>();
    else if (key == "text") problems.push_back({"wrong_type", "/text", "text is the whole of the table's file."});
    else if (key == "settings") read_settings(value, sent, problems);
    else if (to_keep && key == "confirmed") truth(key, value, sent.decision.accept_guesses);
    else if (to_keep && key == "keep_good_rows") truth(key, value, sent.decision.keep_good_rows);
    else if (to_keep && key == "author" && value.is_string()) sent.words["author"] = value.get<std::string>();
    else if (to_keep && key == "author") problems.push_back({"wrong_type", "/author", "author is a label."});
    else problems.push_back({"unknown_field", "/" + key.substr(0, 40), to_keep ? "Known fields are: text, settings, author, confirmed, keep_good_rows." : "Known fields are: text, settings."});
  }
  if (!tree->contains("text")) problems.push_back({"missing", "/text", "text is missing: the whole of the table's file."});
  if (!problems.empty()) return problems;
  return sent;
}

Json preview_json(const intake::Preview& preview, const report::Reader& reader) {
  auto tree = wire::parsed(intake::json_from_preview(preview, 200, [&](const Phrase& words) { return report::text_of(words, reader); }));
  require(tree.has_value(), "preview_json", "a preview is not JSON");
  return std::move(tree).value();
}

/// Both handlers up to the preview.
struct Shown {
  Sent sent;
  Instant written_at{};
  intake::Preview preview;
};

Result<Shown> shown(const Call& call, bool to_keep) {
  auto sent = sent_from(call.request.body, to_keep);
  if (!sent) return sent.problems();
  const auto look = call.desk.look();
  if (!look) return look.problems();
  if (!(*look)->season) return Problem{"no_season", "", "There is no season yet. Set one up first."};
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return now.problems();
  const auto settings = intake::settings_from_words(sent->words);
  if (!settings) return settings.problems();
  const intake::Context context{desk::kits_in_force(**look, *now), (*look)->zone, (*look)->season->first_day, *now};
  auto preview = intake::preview_import(sent->text, *settings, context);
  if (!preview) return preview.problems();
  return Shown{std::move(sent).value(), call.desk.written_at(**look, *now), std::move(preview).value()};
}

}  // namespace

Response preview_table(const Call& call) {
  const auto seen = shown(call, false);
  if (!seen) return desk::refused(seen.problems());
  return json_response(wire::printed(Json{{"preview", preview_json(seen->preview, call.reader)}}));
}

Response keep_table(const Call& call) {
  const auto seen = shown(call, true);
  if (!seen) return desk::refused(seen.problems());
  const auto entries = intake::entries_to_keep(seen->preview, seen->sent.decision);
  if (!entries) return desk::refused(entries.problems());
  const auto kept = call.desk.add_all(*entries, seen->written_at);
  if (!kept) return desk::refused(kept.problems());
  std::size_t known = 0;
  for (const auto& one : *kept) known += one.already_known;
  return json_response(wire::printed(Json{{"added", kept->size() - known}, {"known", known}}), known == kept->size() ? 200 : 201);
}

}  // namespace redd::server
