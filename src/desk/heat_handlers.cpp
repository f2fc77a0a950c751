// Handlers of the tank's heat and of emergencies.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "report/emergency_text.h"
#include "report/heat_text.h"
#include "wire/json.h"

namespace redd::desk {
namespace {

Result<season::EmergencyLook> emergency_look(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return asked.problems();
  return season::look_at_emergencies({asked->look->zone}, asked->look->records, asked->now);
}

}  // namespace

Response emergencies(const Call& call) {
  const auto found = emergency_look(call);
  if (!found) return refused(found.problems());
  return json_response(wire::printed(wire::Json{{"emergencies", report::emergencies_json(*found, call.reader)}}));
}

Response one_emergency(const Call& call) {
  const auto found = emergency_look(call);
  if (!found) return refused(found.problems());
  const auto one = emergency::emergency(found->kinds, call.parts.front());
  if (!one) return refusal(404, one.problems());
  return json_response(wire::printed(wire::Json{{"emergency", report::emergency_json(*one, in_zone(call.reader, found->zone))}}));
}

Response emergency_card(const Call& call) {
  const auto found = emergency_look(call);
  if (!found) return refused(found.problems());
  Response response;
  response.content_type = "text/plain; charset=utf-8";
  response.body = report::emergency_card(*found, call.reader);
  return response;
}

Response heat(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  if (!(*look)->season) return refused({Problem{"no_season", "", "There is no season yet. Set one up first."}});
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  const auto target = number_parameter(call.request, "target_c", -2, 45), room = number_parameter(call.request, "room_c", -2, 45);
  const auto humidity = number_parameter(call.request, "humidity_percent", 5, 100);
  Problems problems;
  for (const Problems* each : {now ? nullptr : &now.problems(), target ? nullptr : &target.problems(), room ? nullptr : &room.problems(), humidity ? nullptr : &humidity.problems()})
    if (each) problems.insert(problems.end(), each->begin(), each->end());
  if (!problems.empty()) return refused(problems);
  planning::HeatAsked asked;
  if (*target) asked.target = Temperature::from_c(**target);
  if (*room) asked.room = Temperature::from_c(**room);
  if (*humidity) asked.humidity_fraction = **humidity / 100.0;
  const auto found = season::look_at_heat({(*look)->zone}, (*look)->records, *now, asked);
  if (!found) return refused(found.problems());
  return json_response(wire::printed(wire::Json{{"heat", report::heat_json(*found, call.reader)}}));
}

}  // namespace redd::desk
