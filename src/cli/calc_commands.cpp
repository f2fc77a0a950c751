// calc and engine: formulas by name, without any season.
#include <algorithm>
#include <istream>
#include <ostream>

#include "calc/registry.h"
#include "cli/commands.h"
#include "desk/calc_json.h"
#include "engine/page_engine.h"
#include "quantities/verbatim.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

std::string value_text(const calc::Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return calc::text_from_number(*number);
  if (const auto* flag = std::get_if<bool>(&value)) return *flag ? "true" : "false";
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  std::string list;
  for (const double each : std::get<std::vector<double>>(value))
    list += (list.empty() ? "" : ",") + calc::text_from_number(each);
  return list;
}

Phrase range_text(const std::optional<calc::Range>& range) {
  if (!range) return "";
  return said("{0} to {1}", calc::text_from_number(range->low), calc::text_from_number(range->high));
}

std::string accepted(const Console& console, const calc::Input& input) {
  std::string text;
  switch (input.kind) {
    case calc::InputKind::number:
      text = console.say(input.fitted ? range_text(input.fitted) : range_text(input.possible));
      break;
    case calc::InputKind::flag:
      text = console.say("true or false");
      break;
    case calc::InputKind::series:
      text = console.say("numbers with commas between");
      break;
    case calc::InputKind::choice:
      for (const std::string& choice : input.choices) text += (text.empty() ? "" : ", ") + choice;
      break;
    case calc::InputKind::text:
      break;
  }
  if (!input.default_text.empty())
    text += (text.empty() ? "" : "; ") + console.say(said("else {0}", input.default_text));
  else if (!input.one_of.empty())
    text += (text.empty() ? "" : "; ") + console.say("one of its group");
  else if (!input.required)
    text += (text.empty() ? "" : "; ") + console.say("may be left out");
  return text;
}

void print_formula(const Console& console, const calc::Formula& formula) {
  console.out << formula.name << "\n  " << wrapped(console.say(formula.summary), 96, 2) << "\n";
  std::vector<std::vector<std::string>> rows;
  for (const calc::Input& input : formula.inputs)
    rows.push_back({"  " + console.say("in"), input.name, input.unit, accepted(console, input), console.say(input.meaning)});
  for (const calc::Output& output : formula.outputs)
    rows.push_back({"  " + console.say("out"), output.name, output.unit, "", console.say(output.meaning)});
  console.out << table(rows, 130) << "  " << console.say("source") << ": " << wrapped(console.say(formula.source), 96, 10) << "\n\n";
}

}  // namespace

Exit calc_list(const Console& console, bool json) {
  const auto formulas = calc::all_formulas();
  if (json) {
    wire::Json list = wire::Json::array();
    for (const calc::Formula& formula : formulas) list.push_back(desk::json_from_formula(formula, console.reader));
    console.out << wire::printed(wire::Json{{"formulas", list}}) << "\n";
    return Exit::ok;
  }
  for (const calc::Formula& formula : formulas) print_formula(console, formula);
  return Exit::ok;
}

Exit calc(const Console& console, const std::string& name, const std::vector<std::string>& inputs, bool json) {
  calc::RawInputs raw;
  Problems problems;
  for (const std::string& input : inputs) {
    const std::size_t equals = input.find('=');
    if (equals == std::string::npos || equals == 0)
      problems.push_back(
          {"not_an_input", input, said("\"{0}\" is not an input: write key=value, for example temperature_c=10.", verbatim(input))});
    else
      raw.emplace_back(input.substr(0, equals), input.substr(equals + 1));
  }
  if (!problems.empty()) return complain(console, problems);
  const auto answer = calc::evaluate(name, raw);
  if (!answer) return complain(console, answer.problems());
  if (json) {
    console.out << wire::printed(desk::json_from_answer(*answer, console.reader)) << "\n";
    return Exit::ok;
  }

  const auto formulas = calc::all_formulas();
  const auto formula = std::ranges::find(formulas, answer->name, &calc::Formula::name);
  require(formula != formulas.end(), "calc", "an answered formula is not in the registry");
  std::vector<std::vector<std::string>> rows;
  for (const auto& [key, value] : answer->inputs) {
    const auto input = std::ranges::find(formula->inputs, key, &calc::Input::name);
    const bool known = input != formula->inputs.end();
    rows.push_back(
        {console.say("in"), key, value_text(value), known ? input->unit : std::string(), known ? console.say(input->meaning) : std::string()});
  }
  for (const auto& [key, value] : answer->outputs) {
    const auto output = std::ranges::find(formula->outputs, key, &calc::Output::name);
    const bool known = output != formula->outputs.end();
    rows.push_back(
        {console.say("out"), key, value_text(value), known ? output->unit : std::string(), known ? console.say(output->meaning) : std::string()});
  }
  console.out << console.say(formula->summary) << "\n\n" << table(rows, 130) << "\n";
  if (!answer->in_range) console.out << console.say("Outside the range the source covers: take it as a rough guide.") << "\n";
  for (const Phrase& note : answer->notes) console.out << wrapped(console.say(said("Note: {0}", note)), 96, 6) << "\n";
  console.out << wrapped(console.say(said("Source: {0}", answer->source)), 96, 8) << "\n";
  return Exit::ok;
}

Exit engine(const Console& console) {
  engine::PageEngine core;
  std::string line;
  while (std::getline(console.in, line))
    if (!line.empty()) console.out << core.answer(line) << "\n" << std::flush;
  return Exit::ok;
}

}  // namespace redd::cli
