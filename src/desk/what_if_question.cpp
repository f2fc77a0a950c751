#include "desk/what_if_question.h"

#include "desk/calc_json.h"
#include "desk/day_question.h"

namespace redd::desk {

using wire::Json;

Json what_if_base_asked(const Json& request, const report::Reader& reader) {
  const auto asked = day_from(request["what_if_base"], "/what_if_base");
  if (!asked) return json_from_problems(asked.problems(), reader);
  const auto look = season::look_at_what_if({asked->zone}, asked->records, asked->now);
  if (!look) return json_from_problems(look.problems(), reader);
  Json out = Json::object();
  out["what_if_base"] = report::what_if_base_json(*look, reader);
  return out;
}

Json what_if_answered(const report::WhatIfAsked& asked, const Json& given, const report::Reader& reader) {
  const auto sliders = report::what_if_sliders_from_json(given);
  if (!sliders) return json_from_problems(sliders.problems(), reader);
  const auto told = planning::what_if(asked.base, *sliders);
  if (!told) return json_from_problems(told.problems(), reader);
  Json out = Json::object();
  out["what_if"] = report::what_if_json(asked, *told, reader);
  return out;
}

Json what_if_asked(const Json& request, const report::Reader& reader) {
  const Json& question = request["what_if"];
  if (!question.is_object() || !question.contains("base") || !question.contains("sliders"))
    return json_from_problems({{"not_an_object", "/what_if", "A what-if is asked as {\"base\": …, \"sliders\": {…}}; the base comes from \"what_if_base\"."}}, reader);
  const auto asked = report::what_if_asked_from_json(question["base"]);
  if (!asked) return json_from_problems(asked.problems(), reader);
  return what_if_answered(*asked, question["sliders"], reader);
}

}  // namespace redd::desk
