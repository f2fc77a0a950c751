// Handlers of the live thermometer: how it stands, be quiet, try the alarm.
#include "desk/handlers.h"
#include "server/own_routes.h"
#include "server/thermometer_keeper.h"
#include "server/visit.h"
#include "wire/json.h"

namespace redd::server {
namespace {

using thermometer::Standing;
using wire::Json;

const char* word_of(Standing standing) {
  switch (standing) {
    case Standing::no_word_yet: return "no_word_yet";
    case Standing::working: return "working";
    case Standing::silent: return "silent";
    case Standing::stuck: return "stuck";
  }
  broken_promise("word_of", "unknown standing");
}

ThermometerKeeper* keeper_of(const Call& call) { return visit_of(call).season.thermometer(); }

Json sent_json(const std::vector<sensors::Sent>& all, const report::Reader& reader) {
  Json out = Json::array();
  for (const auto& one : all) out.push_back({{"way", one.way}, {"failure", one.failure ? Json(report::text_of(*one.failure, reader)) : Json(nullptr)}});
  return out;
}

Json temperature_json(double c, const report::Reader& reader) {
  const Temperature t = Temperature::from_c(c);
  return {{"c", c}, {"text", report::temperature_text(t, reader)}};
}

/// A moment on the clock that only goes forward, as the clock on the wall shows it now.
std::string wall_text(std::chrono::seconds up, const ThermometerKeeper::Moment& now) { return rfc3339_from_instant(now.at - (now.up - up)); }

Json state_json(const ThermometerState& state, const ThermometerKeeper::Moment& now, const report::Reader& reader) {
  Json out{{"set_up", state.set_up}, {"name", state.name}, {"standing", word_of(state.standing)}};
  Json problems = Json::array();
  for (const Problem& problem : state.problems) problems.push_back(report::text_of(problem.sentence, reader));
  for (const Phrase& sentence : state.not_logged) problems.push_back(report::say(reader, "The last hour could not be logged: {0}", sentence));
  if (!state.trouble.empty()) problems.push_back(report::say(reader, "The line to the sensor: {0}.", state.trouble));
  out["problems"] = problems;
  out["last"] = state.last ? temperature_json(state.last->c, reader) : Json(nullptr);
  if (state.last) out["last"]["at"] = wall_text(state.last->up, now);
  out["failing"] = state.failing ? Json(report::text_of(thermometer::failure_text(*state.failing), reader)) : Json(nullptr);
  out["limits"] = state.limits ? Json{{"low", temperature_json(state.limits->low_c, reader)}, {"high", temperature_json(state.limits->high_c, reader)}, {"from_season", state.limits->from_season}} : Json(nullptr);
  Json alarms = Json::array();
  for (const auto& one : state.ringing)
    alarms.push_back({{"alarm", thermometer::word_of(one.alarm)}, {"sentence", report::text_of(one.sentence, reader)}, {"since", wall_text(one.since, now)}, {"quiet", one.quiet}});
  out["alarms"] = alarms;
  out["sent"] = sent_json(state.sent, reader);
  out["sent_at"] = state.sent_at ? Json(rfc3339_from_instant(*state.sent_at)) : Json(nullptr);
  return out;
}

Response answer_of(const ThermometerKeeper* keeper, const Call& call) {
  const ThermometerState state = keeper ? keeper->state() : ThermometerState{};
  return json_response(wire::printed(Json{{"thermometer", state_json(state, ThermometerKeeper::moment(), call.reader)}}));
}

Problem none() { return {"no_thermometer", "", "No thermometer is set up here."}; }

}  // namespace

Response thermometer(const Call& call) { return answer_of(keeper_of(call), call); }

Response quiet_thermometer(const Call& call) {
  ThermometerKeeper* keeper = keeper_of(call);
  if (!keeper || !keeper->state().set_up) return desk::refused({none()});
  keeper->quiet();
  return answer_of(keeper, call);
}

Response try_thermometer(const Call& call) {
  ThermometerKeeper* keeper = keeper_of(call);
  if (!keeper) return desk::refused({none()});
  const auto sent = keeper->try_alarm(call.desk.clock());
  if (!sent) return desk::refused(sent.problems());
  return json_response(wire::printed(Json{{"sent", sent_json(*sent, call.reader)}}));
}

}  // namespace redd::server
