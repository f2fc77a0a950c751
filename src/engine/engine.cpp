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
  for (const calc::Formula& formula : calc::all_formulas()) list.push_back(json_from_formula(formula, reader));
  return keyed("formulas", std::move(list));
}

Json calculated(const Json& request, const Reader& reader) {
  const Json& name = request["calc"];
  if (!name.is_string())
    return json_from_problems({{"not_a_name", "calc", "\"calc\" must be the name of a formula; {\"formulas\": true} lists them."}}, reader);
  const auto inputs = request.contains("inputs") ? inputs_from_json(request["inputs"]) : calc::RawInputs{};
  if (!inputs) return json_from_problems(inputs.problems(), reader);
  const auto found = calc::evaluate(name.get<std::string>(), *inputs);
  if (!found) return json_from_problems(found.problems(), reader);
  return keyed("calc", json_from_answer(*found, reader));
}

struct Question {
  const char* key;
  Json (*reply)(const Json& request, const Reader& reader);
};
constexpr std::array questions{
    Question{"ping", pong},
    Question{"formulas", all_formulas},
    Question{"calc", calculated},
    Question{"day", day_asked},
    Question{"bench_schedule", sitting_asked},
};

/// "reader": {"language": "es", "units": "us"}; what is left out, or unknown, is English and metric.
Reader reader_in(const Json& request) {
  Reader reader;
  const auto given = request.find("reader");
  if (given == request.end() || !given->is_object()) return reader;
  const auto word = [&](const char* key) {
    const auto found = given->find(key);
    return found != given->end() && found->is_string() ? found->get<std::string>() : std::string();
  };
  reader.language = report::language_from_tag(word("language")).value_or(report::Language::en);
  reader.fahrenheit = reader.us_gallons = word("units") == "us";
  return reader;
}

Json reply_to(const Json& request) {
  if (!request.is_object())
    return json_from_problems({{"not_an_object", "", "The question must be one object, such as {\"ping\": 1}."}});
  const Reader reader = reader_in(request);
  const Question* asked = nullptr;
  for (const Question& question : questions) {
    if (!request.contains(question.key)) continue;
    if (asked != nullptr)
      return json_from_problems({{"two_questions", question.key, said("Ask one thing at a time: \"{0}\" or \"{1}\".", asked->key, question.key)}}, reader);
    asked = &question;
  }
  if (asked == nullptr)
    return json_from_problems({{"unknown_question", "", "The object must ask \"ping\", \"formulas\", \"calc\", \"day\" or \"bench_schedule\"."}}, reader);
  return asked->reply(request, reader);
}

}  // namespace

std::string answer(std::string_view request_json) {
  const auto request = wire::parsed(request_json);
  return wire::printed(request ? reply_to(*request) : json_from_problems(request.problems()));
}

}  // namespace redd::engine
