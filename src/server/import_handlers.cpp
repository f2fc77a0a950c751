// Handlers that take the school's calendar in: first shown, then kept.
#include <algorithm>

#include "desk/handlers.h"
#include "server/calendar_context.h"
#include "server/own_routes.h"
#include "wire/json.h"

namespace redd::server {
namespace {

using wire::Json;

/// What is sent: {"text": "BEGIN:VCALENDAR…", "all": false}, and to keep it also {"author": "Team Otter", "confirmed": true, "keep_good_rows": false}.
struct Sent {
  std::string text{};
  intake::CalendarSettings settings{};
  intake::Decision decision{};
};

Result<Sent> sent_from(const std::string& body, bool to_keep) {
  const auto tree = wire::parsed(body);
  if (!tree) return tree.problems();
  if (!tree->is_object()) return Problem{"not_an_object", "", "Send an object such as {\"text\": \"BEGIN:VCALENDAR…\"}."};
  Sent sent;
  Problems problems;
  const auto truth = [&](const std::string& key, bool& field) {
    if (!(*tree)[key].is_boolean()) problems.push_back({"wrong_type", "/" + key, said("{0} is true or false.", key)});
    else field = (*tree)[key].get<bool>();
  };
  for (const auto& [key, value] : tree->items()) {
    if (key == "text" && value.is_string()) sent.text = value.get<std::string>();
    else if (key == "text") problems.push_back({"wrong_type", "/text", "text is the whole of the calendar's file."});
    else if (key == "all") truth(key, sent.settings.all);
    else if (to_keep && key == "confirmed") truth(key, sent.decision.accept_guesses);
    else if (to_keep && key == "keep_good_rows") truth(key, sent.decision.keep_good_rows);
    else if (to_keep && key == "author" && value.is_string()) sent.settings.author = value.get<std::string>();
    else if (to_keep && key == "author") problems.push_back({"wrong_type", "/author", "author is a label."});
    else problems.push_back({"unknown_field", "/" + key.substr(0, 40), to_keep ? "Known fields are: text, all, author, confirmed, keep_good_rows." : "Known fields are: text, all."});
  }
  if (!tree->contains("text")) problems.push_back({"missing", "/text", "text is missing: the whole of the calendar's file."});
  if (to_keep && (sent.settings.author.empty() || sent.settings.author.size() > 64))
    problems.push_back({"too_long", "/author", "author is a label of 1 to 64 characters."});
  if (!problems.empty()) return problems;
  return sent;
}

Json preview_json(const intake::CalendarPreview& preview, const report::Reader& reader) {
  auto tree = wire::parsed(intake::json_from_calendar_preview(preview, 500, [&](const Phrase& words) { return report::text_of(words, reader); }));
  require(tree.has_value(), "preview_json", "a preview is not JSON");
  return std::move(tree).value();
}

/// Both handlers up to the preview.
struct Shown {
  Sent sent;
  Instant written_at{};
  intake::CalendarPreview preview;
};

Result<Shown> shown(const Call& call, bool to_keep) {
  auto sent = sent_from(call.request.body, to_keep);
  if (!sent) return sent.problems();
  const auto look = call.desk.look();
  if (!look) return look.problems();
  if (!(*look)->season) return Problem{"no_season", "", "There is no season yet. Set one up first."};
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return now.problems();
  auto preview = intake::preview_calendar(sent->text, sent->settings, calendar_context(**look, *now));
  if (!preview) return preview.problems();
  return Shown{std::move(sent).value(), call.desk.written_at(**look, *now), std::move(preview).value()};
}

}  // namespace

intake::CalendarContext calendar_context(const Look& look, Instant now) {
  using std::chrono::days;
  require(look.season.has_value(), "calendar_context", "no season");
  const records::SeasonSetup& season = *look.season;
  const Date last = std::max(season.first_day + days(366), season.release_until.value_or(season.first_day) + days(31));
  return {look.zone, season.first_day, last, now, look.records};
}

Response preview_calendar(const Call& call) {
  const auto seen = shown(call, false);
  if (!seen) return desk::refused(seen.problems());
  return json_response(wire::printed(Json{{"preview", preview_json(seen->preview, call.reader)}}));
}

Response keep_calendar(const Call& call) {
  const auto seen = shown(call, true);
  if (!seen) return desk::refused(seen.problems());
  const auto entries = intake::closures_to_keep(seen->preview, seen->sent.decision);
  if (!entries) return desk::refused(entries.problems());
  const auto kept = call.desk.add_all(*entries, seen->written_at);
  if (!kept) return desk::refused(kept.problems());
  return json_response(wire::printed(Json{{"added", kept->size()}, {"preview", preview_json(seen->preview, call.reader)}}), kept->empty() ? 200 : 201);
}

}  // namespace redd::server
