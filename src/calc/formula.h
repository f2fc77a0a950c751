#pragma once
// What a formula of `redd calc` is: its name, its inputs and outputs with units and ranges, its source, and one function.
// Start at Formula; calc/formulas/<name>.cpp shows how one is written; calc/registry.h finds and evaluates them by name.
//
// A formula file defines exactly one function, `Formula redd::calc::formulas::<name>()`, and is found by its file name.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "quantities/result.h"

namespace redd::calc {

/// How the text of an input is read.
enum class InputKind {
  number,  ///< a plain number with a decimal point
  flag,    ///< true or false (yes/no, 1/0 are taken too)
  choice,  ///< one of Input::choices
  series,  ///< numbers separated by commas
  text     ///< anything; the formula checks it
};

/// Both ends belong to the range.
struct Range {
  double low;
  double high;
};

/// One input. Outside `possible` the question is refused; outside `fitted` it is answered and the answer says so.
struct Input {
  std::string name;                   ///< snake_case, ends in its unit
  InputKind kind = InputKind::number;
  std::string unit = {};              ///< as printed, e.g. "mg N/L"; empty for a pure number or word
  std::string meaning = {};
  bool required = true;
  std::string default_text = {};      ///< used when absent and not empty; must be a text this input accepts
  std::optional<Range> fitted = {};   ///< where the source's formula was fitted or is meant to hold
  std::optional<Range> possible = {}; ///< what can exist at all
  std::vector<std::string> choices = {};
  std::string also = {};              ///< another spelling of the name that is accepted
  std::string one_of = {};            ///< inputs sharing this word exclude each other; if any of them is `required`, one must be given
};

struct Output {
  std::string name;
  std::string unit = {};
  std::string meaning = {};
};

/// A checked input value.
using Value = std::variant<double, bool, std::string, std::vector<double>>;
struct NamedValue {
  std::string name;
  Value value;
};

/// The checked inputs of one question, defaults filled in. Asking for a name or kind the formula never declared stops the program.
class Arguments {
 public:
  explicit Arguments(std::vector<NamedValue> values) : values_(std::move(values)) {}
  bool has(std::string_view name) const { return find(name) != nullptr; }
  double number(std::string_view name) const { return get<double>(name); }
  std::optional<double> number_if(std::string_view name) const {
    return has(name) ? std::optional<double>(number(name)) : std::nullopt;
  }
  bool flag(std::string_view name) const { return get<bool>(name); }
  const std::string& text(std::string_view name) const { return get<std::string>(name); }  ///< choice or text
  const std::vector<double>& series(std::string_view name) const { return get<std::vector<double>>(name); }
  const std::vector<NamedValue>& all() const { return values_; }

 private:
  const Value* find(std::string_view name) const {
    for (const NamedValue& each : values_)
      if (each.name == name) return &each.value;
    return nullptr;
  }
  template <class T>
  const T& get(std::string_view name) const {
    const Value* found = find(name);
    require(found != nullptr && std::holds_alternative<T>(*found), "Arguments::get", "no such input of this kind");
    return *std::get_if<T>(found);
  }
  std::vector<NamedValue> values_;
};

/// What a formula found. Numbers must be finite: the registry turns any other into a Problem, never into an answer.
struct Findings {
  std::vector<NamedValue> outputs = {};
  std::vector<Phrase> notes = {};  ///< plain sentences for the reader: assumptions, cautions
  bool in_range = true;                 ///< false when something beyond the inputs' own fitted ranges is extrapolated; say so in notes
  std::string source = {};              ///< instead of Formula::source, when it depends on the inputs

  void add(std::string name, double value) { outputs.push_back({std::move(name), value}); }
  void add(std::string name, std::string value) { outputs.push_back({std::move(name), std::move(value)}); }
};

/// A formula anyone can ask by name.
struct Formula {
  std::string name;
  std::string summary;           ///< one sentence
  std::vector<Input> inputs;
  std::vector<Output> outputs;   ///< all that may appear; an answer holds those that apply
  std::string source;            ///< author year, title, equation or table
  Result<Findings> (*evaluate)(const Arguments&) = nullptr;
};

/// A formula's reply to one question.
struct Answer {
  std::string name;
  std::vector<NamedValue> inputs;   ///< as understood, defaults included
  std::vector<NamedValue> outputs;
  bool in_range = true;
  std::vector<Phrase> notes;
  std::string source;
};

}  // namespace redd::calc
