#include "desk/day_question.h"

#include "desk/calc_json.h"
#include "desk/zone_json.h"
#include "report/day_json.h"
#include "season/season.h"
#include "wire/codec.h"

namespace redd::desk {

using wire::Json;

Result<DayAsked> day_from(const Json& day, const std::string& path) {
  const auto now = day.is_object() ? instant_in(day, "now") : std::nullopt;
  if (!now || !day.contains("records") || !day["records"].is_array()) return Problem{"not_a_day", path, "A day is asked as {\"now\": a time, \"records\": [...]}."};
  auto zone = day.contains("zone") ? zone_from(day["zone"], path + "/zone") : ZoneOffsets{};
  if (!zone) return zone.problems();
  DayAsked asked{*now, std::move(zone).value()};
  for (const Json& each : day["records"]) {
    auto record = wire::record_from_json(wire::printed(each));
    if (!record) return record.problems();
    asked.records.push_back(std::move(record).value());
  }
  return asked;
}

Json day_asked(const Json& request, const report::Reader& reader) {
  const auto asked = day_from(request["day"], "/day");
  if (!asked) return json_from_problems(asked.problems(), reader);
  const auto view = season::look_at_day({asked->zone}, asked->records, asked->now);
  if (!view) return json_from_problems(view.problems(), reader);
  Json out = Json::object();
  auto shown = wire::parsed(report::day_json(*view, reader));
  out["day"] = shown ? std::move(shown).value() : Json(nullptr);
  return out;
}

}  // namespace redd::desk
