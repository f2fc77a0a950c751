#include "desk/calc_json.h"

#include "quantities/verbatim.h"

#include <string>
#include <string_view>
#include <utility>

namespace redd::desk {
namespace {

using wire::Json;

Json json_from_value(const calc::Value& value) {
  return std::visit([](const auto& plain) { return Json(plain); }, value);
}

Json json_from_values(const std::vector<calc::NamedValue>& values) {
  Json object = Json::object();
  for (const calc::NamedValue& each : values) object[each.name] = json_from_value(each.value);
  return object;
}

std::string_view word_for(calc::InputKind kind) {
  switch (kind) {
    case calc::InputKind::number: return "number";
    case calc::InputKind::flag: return "flag";
    case calc::InputKind::choice: return "choice";
    case calc::InputKind::series: return "series";
    case calc::InputKind::text: return "text";
  }
  broken_promise("word_for", "an input of no known kind");
}

Json json_from_range(const calc::Range& range) { return {{"low", range.low}, {"high", range.high}}; }

Json json_from_input(const calc::Input& input, const report::Reader& reader) {
  Json object{{"name", input.name},
              {"kind", word_for(input.kind)},
              {"unit", input.unit},
              {"meaning", report::say(reader, input.meaning)},
              {"required", input.required}};
  if (!input.default_text.empty()) object["default"] = input.default_text;
  if (input.fitted) object["fitted"] = json_from_range(*input.fitted);
  if (input.possible) object["possible"] = json_from_range(*input.possible);
  if (!input.choices.empty()) object["choices"] = input.choices;
  if (!input.one_of.empty()) object["one_of"] = input.one_of;
  return object;
}

// The text of one input as a person would have typed it; empty when the value can be none.
std::string text_from_json(const Json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "true" : "false";
  if (value.is_number()) return calc::text_from_number(value.get<double>());
  std::string text;
  if (!value.is_array()) return text;
  for (const Json& item : value) {
    if (!item.is_number()) return {};
    if (!text.empty()) text += ',';
    text += calc::text_from_number(item.get<double>());
  }
  return text;
}

}  // namespace

Json json_from_answer(const calc::Answer& answer, const report::Reader& reader) {
  Json notes = Json::array();
  for (const Phrase& note : answer.notes) notes.push_back(report::text_of(note, reader));
  return {{"name", answer.name},         {"inputs", json_from_values(answer.inputs)}, {"outputs", json_from_values(answer.outputs)},
          {"in_range", answer.in_range}, {"notes", std::move(notes)},                 {"source", report::say(reader, answer.source)}};
}

Json json_from_formula(const calc::Formula& formula, const report::Reader& reader) {
  Json inputs = Json::array();
  for (const calc::Input& input : formula.inputs) inputs.push_back(json_from_input(input, reader));
  Json outputs = Json::array();
  for (const calc::Output& output : formula.outputs)
    outputs.push_back({{"name", output.name}, {"unit", output.unit}, {"meaning", report::say(reader, output.meaning)}});
  return {{"name", formula.name},
          {"summary", report::say(reader, formula.summary)},
          {"inputs", std::move(inputs)},
          {"outputs", std::move(outputs)},
          {"source", report::say(reader, formula.source)}};
}

Json json_from_problems(const Problems& problems, const report::Reader& reader) {
  Json list = Json::array();
  for (const Problem& problem : problems)
    list.push_back({{"code", problem.code}, {"field", problem.field}, {"sentence", report::text_of(problem.sentence, reader)}});
  Json object = Json::object();
  object["problems"] = std::move(list);
  return object;
}

Result<calc::RawInputs> inputs_from_json(const Json& object) {
  if (!object.is_object())
    return Problem{"not_an_object", "inputs", "The inputs must be one object, such as {\"temperature_c\": 10}."};
  calc::RawInputs inputs;
  Problems problems;
  for (const auto& [key, value] : object.items()) {
    std::string text = text_from_json(value);
    if (text.empty())
      problems.push_back({"not_an_input", key, said("\"{0}\" must be a number, true or false, a word, or a list of numbers.", verbatim(key))});
    else
      inputs.emplace_back(key, std::move(text));
  }
  if (!problems.empty()) return problems;
  return inputs;
}

}  // namespace redd::desk
