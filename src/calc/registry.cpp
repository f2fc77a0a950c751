#include "calc/registry.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "quantities/verbatim.h"

namespace redd::calc {

namespace formulas {
#define REDD_ITEM(name) Formula name();
#include "calc/formulas_list.inc"
#undef REDD_ITEM
}  // namespace formulas

namespace {

/// Fewest single-letter changes that turn one word into the other.
std::size_t letters_apart(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0u : 1u)});
      diagonal = above;
    }
  }
  return row[b.size()];
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

/// " Did you mean X?" when one of the names is close enough to be a slip.
Phrase suggestion(std::string_view typed, const std::vector<std::string>& names) {
  if (typed.empty() || names.empty() || typed.size() > 80) return {};
  const auto nearest = std::ranges::min_element(names, {}, [&](const std::string& name) { return letters_apart(typed, name); });
  if (letters_apart(typed, *nearest) <= std::max<std::size_t>(2, typed.size() / 3)) return said(" Did you mean {0}?", *nearest);
  // A name typed without its unit, or half of one.
  for (const std::string& name : names)
    if (name.starts_with(typed) && typed.size() >= 2) return said(" Did you mean {0}?", name);
  return {};
}

/// Long input is cut in messages.
Phrase in_quotes(std::string_view text) {
  constexpr std::size_t longest = 60;
  return verbatim("\"" + std::string(text.substr(0, longest)) + (text.size() > longest ? "..." : "") + "\"");
}

Phrase shown(const Range& range) { return said("{0} to {1}", text_from_number(range.low), text_from_number(range.high)); }

Phrase with_unit(const Phrase& words, const Input& input) { return input.unit.empty() ? words : said("{0} {1}", words, input.unit); }

/// What this input accepts, as the end of a sentence.
Phrase accepted_by(const Input& input) {
  switch (input.kind) {
    case InputKind::flag: return "true or false";
    case InputKind::choice: return said("one of {0}", joined(input.choices));
    case InputKind::series:
      return said("numbers separated by commas, each {0}", input.possible ? with_unit(shown(*input.possible), input) : Phrase("with a decimal point"));
    case InputKind::text: return "a word";
    case InputKind::number: break;
  }
  return input.possible ? said("a number from {0}", with_unit(shown(*input.possible), input)) : with_unit("a number", input);
}

std::string hint_for_number(std::string_view text) {
  if (text.find(',') != std::string_view::npos) return " Write the decimals with a point, not a comma.";
  if (text.empty()) return " Nothing was given.";
  return {};
}

Problem not_a_number(const Input& input, std::string_view text) {
  return {"not_a_number", input.name,
          said("{0}={1} is not a number. It accepts {2}.{3}", verbatim(input.name), in_quotes(text), accepted_by(input), hint_for_number(text))};
}

std::optional<bool> flag_from_text(std::string_view text) {
  if (text == "true" || text == "yes" || text == "1") return true;
  if (text == "false" || text == "no" || text == "0") return false;
  return std::nullopt;
}

/// Keeps `value` within what can exist; nullopt when it does.
std::optional<Problem> impossible(const Input& input, double value) {
  if (!input.possible || (value >= input.possible->low && value <= input.possible->high)) return std::nullopt;
  return Problem{"out_of_range", input.name,
                 said("{0}={1} is impossible for {2}. It accepts {3}.", input.name, text_from_number(value), input.meaning.empty() ? input.name : input.meaning, accepted_by(input))};
}

Result<Value> number_value(const Input& input, std::string_view text) {
  const auto number = number_from_text(text);
  if (!number) return not_a_number(input, text);
  if (auto problem = impossible(input, *number)) return *std::move(problem);
  return Value{*number};
}

Result<Value> series_value(const Input& input, std::string_view text) {
  std::vector<double> numbers;
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find(',', start), text.size());
    std::string_view item = text.substr(start, end - start);
    while (item.starts_with(' ')) item.remove_prefix(1);
    while (item.ends_with(' ')) item.remove_suffix(1);
    const auto number = number_from_text(item);
    if (!number)
      return Problem{"not_a_number", input.name, said("{0} has {1} as value {2}, which is not a number. It accepts {3}.", input.name, in_quotes(item), numbers.size() + 1, accepted_by(input))};
    if (auto problem = impossible(input, *number)) return *std::move(problem);
    numbers.push_back(*number);
    start = end + 1;
  }
  return Value{std::move(numbers)};
}

Result<Value> value_from_text(const Input& input, const std::string& text) {
  switch (input.kind) {
    case InputKind::flag:
      if (const auto flag = flag_from_text(text)) return Value{*flag};
      return Problem{"not_a_flag", input.name, said("{0}={1} is neither true nor false.", input.name, in_quotes(text))};
    case InputKind::choice:
      if (std::ranges::find(input.choices, text) != input.choices.end()) return Value{text};
      return Problem{"not_a_choice", input.name, said("{0}={1} is not known. It accepts {2}.{3}", input.name, in_quotes(text), accepted_by(input), suggestion(text, input.choices))};
    case InputKind::series: return series_value(input, text);
    case InputKind::text: return Value{text};
    case InputKind::number: break;
  }
  return number_value(input, text);
}

std::vector<std::string> names_of(const Formula& formula) {
  std::vector<std::string> names;
  for (const Input& input : formula.inputs) names.push_back(input.name);
  return names;
}

/// The texts given, in the formula's own order; nullptr where none.
using GivenTexts = std::vector<const std::string*>;

GivenTexts sorted_out(const Formula& formula, const RawInputs& raw, Problems& problems) {
  GivenTexts given(formula.inputs.size(), nullptr);
  for (const auto& [key, text] : raw) {
    const auto input = std::ranges::find_if(formula.inputs, [&](const Input& each) {
      return each.name == key || (!each.also.empty() && each.also == key);
    });
    if (input == formula.inputs.end()) {
      const auto names = names_of(formula);
      problems.push_back({"unknown_input", key,
                          said("{0} has no input {1}. It accepts {2}.{3}", formula.name, in_quotes(key), joined(names), suggestion(key, names))});
      continue;
    }
    auto& slot = given[static_cast<std::size_t>(input - formula.inputs.begin())];
    if (slot != nullptr)
      problems.push_back({"duplicate_input", input->name, said("{0} is given more than once. Give it once.", input->name)});
    slot = &text;
  }
  return given;
}

/// Members of the set `one_of` and which of them were given.
struct OneOfSet {
  std::vector<std::string> members;
  std::vector<std::string> given;
  bool required = false;
};

OneOfSet one_of_set(const Formula& formula, const GivenTexts& given, const std::string& set) {
  OneOfSet found;
  for (std::size_t i = 0; i < formula.inputs.size(); ++i) {
    if (formula.inputs[i].one_of != set) continue;
    found.members.push_back(formula.inputs[i].name);
    if (given[i] != nullptr) found.given.push_back(formula.inputs[i].name);
    found.required = found.required || formula.inputs[i].required;
  }
  return found;
}

void check_presence(const Formula& formula, const GivenTexts& given, Problems& problems) {
  std::vector<std::string> sets_checked;
  for (std::size_t i = 0; i < formula.inputs.size(); ++i) {
    const Input& input = formula.inputs[i];
    if (input.one_of.empty()) {
      if (input.required && given[i] == nullptr)
        problems.push_back({"missing_input", input.name,
                            said("{0} needs {1}{2}. It accepts {3}.", formula.name, input.name, input.meaning.empty() ? "" : " (" + input.meaning + ")", accepted_by(input))});
      continue;
    }
    if (std::ranges::find(sets_checked, input.one_of) != sets_checked.end()) continue;
    sets_checked.push_back(input.one_of);
    const OneOfSet set = one_of_set(formula, given, input.one_of);
    if (set.given.size() > 1)
      problems.push_back({"exclusive_inputs", set.given[1], said("Give only one of {0}; {1} were given.", joined(set.members), joined(set.given))});
    if (set.given.empty() && set.required)
      problems.push_back({"missing_input", set.members.front(), said("{0} needs one of {1}.", formula.name, joined(set.members))});
  }
}

std::vector<NamedValue> values_of(const Formula& formula, const GivenTexts& given, Problems& problems) {
  std::vector<NamedValue> values;
  for (std::size_t i = 0; i < formula.inputs.size(); ++i) {
    const Input& input = formula.inputs[i];
    const bool default_applies = given[i] == nullptr && !input.default_text.empty() &&
                                 (input.one_of.empty() || one_of_set(formula, given, input.one_of).given.empty());
    if (given[i] == nullptr && !default_applies) continue;
    auto value = value_from_text(input, given[i] != nullptr ? *given[i] : input.default_text);
    if (value)
      values.push_back({input.name, std::move(value).value()});
    else
      problems.insert(problems.end(), value.problems().begin(), value.problems().end());
  }
  return values;
}

/// Says for each input outside its fitted range that the answer extrapolates.
bool note_unfitted(const Formula& formula, const std::vector<NamedValue>& values, std::vector<Phrase>& notes) {
  bool all_fitted = true;
  for (const Input& input : formula.inputs) {
    if (!input.fitted) continue;
    const auto given = std::ranges::find(values, input.name, &NamedValue::name);
    if (given == values.end()) continue;
    const double* number = std::get_if<double>(&given->value);
    if (number == nullptr || (*number >= input.fitted->low && *number <= input.fitted->high)) continue;
    all_fitted = false;
    notes.push_back(said("{0}={1} lies outside the fitted range {2}; the answer extrapolates.", input.name, text_from_number(*number), with_unit(shown(*input.fitted), input)));
  }
  return all_fitted;
}

bool all_finite(const std::vector<NamedValue>& values) {
  return std::ranges::all_of(values, [](const NamedValue& each) {
    if (const double* number = std::get_if<double>(&each.value)) return std::isfinite(*number);
    if (const auto* series = std::get_if<std::vector<double>>(&each.value))
      return std::ranges::all_of(*series, [](double number) { return std::isfinite(number); });
    return true;
  });
}

}  // namespace

std::optional<double> number_from_text(std::string_view text) {
  if (text.starts_with('+') && !text.starts_with("+-") && !text.starts_with("++")) text.remove_prefix(1);
  // from_chars would also read "inf", "nan" and hexadecimal-like starts; only digits, signs, a point and an exponent may pass.
  if (text.empty() || text.size() > 400 || text.find_first_not_of("0123456789+-.eE") != std::string_view::npos) return std::nullopt;
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value == 0.0 ? 0.0 : value;  // no negative zero
}

std::string text_from_number(double value) {
  std::array<char, 40> buffer{};
  // Plain digits where people expect them; 1e+07 only beyond.
  const double size = std::fabs(value);
  const bool plain = size == 0.0 || (size >= 1e-5 && size < 1e15);
  const auto [end, error] = plain ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed)
                                  : std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  require(error == std::errc{}, "text_from_number", "the buffer is too small");
  return std::string(buffer.data(), end);
}

std::vector<Formula> all_formulas() {
  std::vector<Formula> all{
#define REDD_ITEM(name) formulas::name(),
#include "calc/formulas_list.inc"
#undef REDD_ITEM
  };
  std::ranges::sort(all, {}, &Formula::name);
  return all;
}

Result<Answer> evaluate(std::string_view name, const RawInputs& inputs) {
  const std::vector<Formula> all = all_formulas();
  const auto formula = std::ranges::find(all, name, &Formula::name);
  if (formula != all.end()) return evaluate(*formula, inputs);
  std::vector<std::string> names;
  for (const Formula& each : all) names.push_back(each.name);
  return Problem{"unknown_formula", std::string(name),
                 said("There is no formula {0}. Known are {1}.{2}", in_quotes(name), joined(names), suggestion(name, names))};
}

Result<Answer> evaluate(const Formula& formula, const RawInputs& inputs) {
  Problems problems;
  const GivenTexts given = sorted_out(formula, inputs, problems);
  check_presence(formula, given, problems);
  std::vector<NamedValue> values = values_of(formula, given, problems);
  if (!problems.empty()) return problems;

  Answer answer{.name = formula.name, .inputs = values, .outputs = {}, .in_range = true, .notes = {}, .source = formula.source};
  answer.in_range = note_unfitted(formula, values, answer.notes);
  auto findings = formula.evaluate(Arguments(std::move(values)));
  if (!findings) return findings.problems();
  Findings found = std::move(findings).value();
  if (!all_finite(found.outputs))
    return Problem{"no_answer", "", said("{0} gives no finite number for these inputs; they lie too far outside what it describes.", formula.name)};
  answer.outputs = std::move(found.outputs);
  answer.in_range = answer.in_range && found.in_range;
  answer.notes.insert(answer.notes.end(), found.notes.begin(), found.notes.end());
  if (!found.source.empty()) answer.source = std::move(found.source);
  return answer;
}

}  // namespace redd::calc
