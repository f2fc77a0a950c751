// Handlers of what-ifs: the base for the page, and the answer of the server to one place of the sliders.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "desk/what_if_question.h"
#include "season/what_if_look.h"
#include "wire/json.h"

namespace redd::desk {
namespace {

using wire::Json;

Result<season::WhatIfLook> look_of(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return asked.problems();
  const auto filter = filter_at_hand(call, *asked);
  return season::look_at_what_if({asked->look->zone}, asked->look->records, asked->now, filter.outlook.get(), filter.state == FilterState::working);
}

}  // namespace

Response what_if_base(const Call& call) {
  const auto look = look_of(call);
  if (!look) return refused(look.problems());
  return json_response(wire::printed(Json{{"what_if_base", report::what_if_base_json(*look, call.reader)}}));
}

Response what_if(const Call& call) {
  const auto look = look_of(call);
  if (!look) return refused(look.problems());
  const auto body = wire::parsed(call.request.body);
  if (!body) return refused(body.problems());
  if (!body->is_object() || body->size() != 1 || !body->contains("sliders"))
    return refused({{"missing", "/sliders", "Send the sliders: {\"sliders\": {\"room_warmer_c\": 5, \"food_factor\": 1.3}}."}});
  const Json answer = what_if_answered(report::what_if_asked(*look), (*body)["sliders"], call.reader);
  if (!answer.contains("problems")) return json_response(wire::printed(answer));
  Problems problems;
  for (const Json& each : answer["problems"]) problems.push_back({each["code"], each["field"], each["sentence"]});
  return refused(problems);
}

}  // namespace redd::desk
