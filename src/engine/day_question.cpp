#include "engine/day_question.h"

#include "desk/calc_json.h"
#include "engine/zone_json.h"
#include "report/day_json.h"
#include "season/season.h"
#include "wire/codec.h"

namespace redd::engine {

using wire::Json;

Json day_asked(const Json& request) {
  const Json& day = request["day"];
  const auto now = day.is_object() ? instant_in(day, "now") : std::nullopt;
  if (!now || !day.contains("records") || !day["records"].is_array())
    return desk::json_from_problems({{"not_a_day", "/day", "A day is asked as {\"now\": a time, \"records\": [...]}."}});
  const auto zone = day.contains("zone") ? zone_from(day["zone"], "/day/zone") : ZoneOffsets{};
  if (!zone) return desk::json_from_problems(zone.problems());
  std::vector<records::Record> log;
  for (const Json& each : day["records"]) {
    auto record = wire::record_from_json(wire::printed(each));
    if (!record) return desk::json_from_problems(record.problems());
    log.push_back(std::move(record).value());
  }
  const auto view = season::look_at_day({*zone}, log, *now);
  if (!view) return desk::json_from_problems(view.problems());
  Json out = Json::object();
  auto shown = wire::parsed(report::day_json(*view));
  out["day"] = shown ? std::move(shown).value() : Json(nullptr);
  return out;
}

}  // namespace redd::engine
