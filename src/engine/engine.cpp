#include "engine/engine.h"

#include <array>
#include <utility>

#include "calc/registry.h"
#include "engine/calc_json.h"
#include "engine/day_question.h"
#include "engine/sitting_question.h"
#include "wire/json.h"

namespace redd::engine {
namespace {

using wire::Json;

Json keyed(const char* key, Json value) {
  Json object = Json::object();
  object[key] = std::move(value);
  return object;
}

Json pong(const Json& request) { return keyed("pong", request["ping"]); }

Json all_formulas(const Json&) {
  Json list = Json::array();
  for (const calc::Formula& formula : calc::all_formulas()) list.push_back(json_from_formula(formula));
  return keyed("formulas", std::move(list));
}

Json calculated(const Json& request) {
  const Json& name = request["calc"];
  if (!name.is_string())
    return json_from_problems({{"not_a_name", "calc", "\"calc\" must be the name of a formula; {\"formulas\": true} lists them."}});
  const auto inputs = request.contains("inputs") ? inputs_from_json(request["inputs"]) : calc::RawInputs{};
  if (!inputs) return json_from_problems(inputs.problems());
  const auto found = calc::evaluate(name.get<std::string>(), *inputs);
  if (!found) return json_from_problems(found.problems());
  return keyed("calc", json_from_answer(*found));
}

struct Question {
  const char* key;
  Json (*reply)(const Json& request);
};
constexpr std::array questions{
    Question{"ping", pong},
    Question{"formulas", all_formulas},
    Question{"calc", calculated},
    Question{"day", day_asked},
    Question{"bench_schedule", sitting_asked},
};

Json reply_to(const Json& request) {
  if (!request.is_object())
    return json_from_problems({{"not_an_object", "", "The question must be one object, such as {\"ping\": 1}."}});
  const Question* asked = nullptr;
  for (const Question& question : questions) {
    if (!request.contains(question.key)) continue;
    if (asked != nullptr)
      return json_from_problems({{"two_questions", question.key, "Ask one thing at a time: \"" + std::string(asked->key) +
                                                                     "\" or \"" + question.key + "\"."}});
    asked = &question;
  }
  if (asked == nullptr)
    return json_from_problems({{"unknown_question", "", "The object must ask \"ping\", \"formulas\", \"calc\", \"day\" or \"bench_schedule\"."}});
  return asked->reply(request);
}

}  // namespace

std::string answer(std::string_view request_json) {
  const auto request = wire::parsed(request_json);
  return wire::printed(request ? reply_to(*request) : json_from_problems(request.problems()));
}

}  // namespace redd::engine
