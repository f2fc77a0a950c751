#include "engine/engine.h"

#include <array>
#include <utility>

#include "calc/registry.h"
#include "desk/calc_json.h"
#include "desk/day_question.h"
#include "desk/lessons_question.h"
#include "desk/pooled_question.h"
#include "desk/reader.h"
#include "desk/sitting_question.h"
#include "desk/what_if_question.h"
#include "quantities/verbatim.h"
#include "wire/json.h"

namespace redd::engine {
namespace {

using report::Reader;
using wire::Json;

Json keyed(const char* key, Json value) {
  Json object = Json::object();
  object[key] = std::move(value);
  return object;
}

Json pong(const Json& request, const Reader&) { return keyed("pong", request["ping"]); }

Json all_formulas(const Json&, const Reader& reader) {
  Json list = Json::array();
  for (const calc::Formula& formula : calc::all_formulas()) list.push_back(desk::json_from_formula(formula, reader));
  return keyed("formulas", std::move(list));
}

Json calculated(const Json& request, const Reader& reader) {
  const Json& name = request["calc"];
  if (!name.is_string())
    return desk::json_from_problems({{"not_a_name", "calc", "\"calc\" must be the name of a formula; {\"formulas\": true} lists them."}}, reader);
  const auto inputs = request.contains("inputs") ? desk::inputs_from_json(request["inputs"]) : calc::RawInputs{};
  if (!inputs) return desk::json_from_problems(inputs.problems(), reader);
  const auto found = calc::evaluate(name.get<std::string>(), *inputs);
  if (!found) return desk::json_from_problems(found.problems(), reader);
  return keyed("calc", desk::json_from_answer(*found, reader));
}

struct Question {
  const char* key;
  Json (*reply)(const Json& request, const Reader& reader);
};
constexpr std::array questions{
    Question{"ping", pong},
    Question{"formulas", all_formulas},
    Question{"calc", calculated},
    Question{"day", desk::day_asked},
    Question{"bench_schedule", desk::sitting_asked},
    Question{"what_if_base", desk::what_if_base_asked},
    Question{"what_if", desk::what_if_asked},
    Question{"pooled_readings", desk::pooled_asked},
    Question{"lessons", desk::lessons_asked},
};

/// Every question there is, each in quotation marks, as in: "ping", "formulas" or "calc".
std::string names_of_questions() {
  std::string names;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    if (i > 0) names += i + 1 < questions.size() ? ", " : " or ";
    names += "\"" + std::string(questions[i].key) + "\"";
  }
  return names;
}

Json reply_to(const Json& request) {
  if (!request.is_object())
    return desk::json_from_problems({{"not_an_object", "", "The question must be one object, such as {\"ping\": 1}."}});
  const Reader reader = desk::reader_in(request);
  const Question* asked = nullptr;
  for (const Question& question : questions) {
    if (!request.contains(question.key)) continue;
    if (asked != nullptr)
      return desk::json_from_problems({{"two_questions", question.key, said("Ask one thing at a time: \"{0}\" or \"{1}\".", verbatim(asked->key), verbatim(question.key))}}, reader);
    asked = &question;
  }
  if (asked == nullptr)
    return desk::json_from_problems({{"unknown_question", "", said("The object must ask {0}.", names_of_questions())}}, reader);
  return asked->reply(request, reader);
}

}  // namespace

std::string answer(std::string_view request_json) {
  const auto request = wire::parsed(request_json);
  return wire::printed(request ? reply_to(*request) : desk::json_from_problems(request.problems()));
}

}  // namespace redd::engine
