#include "engine/day_question.h"

#include "engine/calc_json.h"
#include "report/day_json.h"
#include "season/season.h"
#include "wire/codec.h"

namespace redd::engine {
namespace {

using wire::Json;

std::optional<Instant> instant_in(const Json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_string()) return std::nullopt;
  return instant_from_rfc3339(found->get_ref<const std::string&>());
}

Result<ZoneOffsets> zone_from(const Json& day) {
  ZoneOffsets zone;
  const auto given = day.find("zone");
  if (given == day.end()) return zone;
  const Problem malformed{"not_a_zone", "/day/zone", "A zone is {\"name\", \"changes\": [{\"from\", \"offset_seconds\"}]}, oldest first."};
  if (!given->is_object() || !given->contains("name") || !(*given)["name"].is_string() || !given->contains("changes") || !(*given)["changes"].is_array())
    return malformed;
  zone.name = (*given)["name"].get<std::string>();
  for (const Json& change : (*given)["changes"]) {
    const auto from = change.is_object() ? instant_in(change, "from") : std::nullopt;
    if (!from || !change.contains("offset_seconds") || !change["offset_seconds"].is_number_integer()) return malformed;
    if (!zone.changes.empty() && *from <= zone.changes.back().from) return malformed;
    zone.changes.push_back({*from, std::chrono::seconds(change["offset_seconds"].get<int>())});
  }
  return zone;
}

}  // namespace

Json day_asked(const Json& request, const report::Reader& reader) {
  const Json& day = request["day"];
  const auto now = day.is_object() ? instant_in(day, "now") : std::nullopt;
  if (!now || !day.contains("records") || !day["records"].is_array())
    return json_from_problems({{"not_a_day", "/day", "A day is asked as {\"now\": a time, \"records\": [...]}."}}, reader);
  const auto zone = zone_from(day);
  if (!zone) return json_from_problems(zone.problems(), reader);
  std::vector<records::Record> log;
  for (const Json& each : day["records"]) {
    auto record = wire::record_from_json(wire::printed(each));
    if (!record) return json_from_problems(record.problems(), reader);
    log.push_back(std::move(record).value());
  }
  const auto view = season::look_at_day({*zone}, log, *now);
  if (!view) return json_from_problems(view.problems(), reader);
  Json out = Json::object();
  auto shown = wire::parsed(report::day_json(*view, reader));
  out["day"] = shown ? std::move(shown).value() : Json(nullptr);
  return out;
}

}  // namespace redd::engine
