#include "calc/listing.h"

#include "calc/registry.h"

namespace redd::calc {
namespace {

std::string range_text(const Range& range) { return text_from_number(range.low) + " to " + text_from_number(range.high); }

std::string input_text(const Input& input) {
  std::string text = "    " + input.name + (input.unit.empty() ? "" : " [" + input.unit + "]") + ": " + input.meaning;
  for (std::size_t i = 0; i < input.choices.size(); ++i) text += (i == 0 ? "; one of " : ", ") + input.choices[i];
  if (input.kind == InputKind::flag) text += "; true or false";
  if (input.kind == InputKind::series) text += "; numbers separated by commas";
  if (input.fitted) text += "; valid " + range_text(*input.fitted);
  if (input.possible) text += "; accepted " + range_text(*input.possible);
  if (!input.one_of.empty()) text += (input.required ? "; give exactly one of the set \"" : "; at most one of the set \"") + input.one_of + "\"";
  if (!input.default_text.empty()) text += "; default " + input.default_text;
  else if (!input.required) text += "; optional";
  return text + "\n";
}

}  // namespace

std::string list_text() {
  std::string text;
  for (const Formula& formula : all_formulas()) {
    text += formula.name + "\n  " + formula.summary + "\n  inputs\n";
    for (const Input& input : formula.inputs) text += input_text(input);
    text += "  outputs\n";
    for (const Output& output : formula.outputs)
      text += "    " + output.name + (output.unit.empty() ? "" : " [" + output.unit + "]") + ": " + output.meaning + "\n";
    text += "  source: " + formula.source + "\n\n";
  }
  return text;
}

}  // namespace redd::calc
