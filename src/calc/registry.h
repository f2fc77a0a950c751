#pragma once
// Every formula of the program by name, and the one way to ask it. Used by `redd calc`, the server and the browser alike.
// Start at evaluate().

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "calc/formula.h"
#include "quantities/result.h"

namespace redd::calc {

/// All formulas, sorted by name.
std::vector<Formula> all_formulas();

/// Inputs as typed: key and text.
using RawInputs = std::vector<std::pair<std::string, std::string>>;

/// Answers one question.
///
/// In      name: a formula's name.  inputs: as typed, in any order.
/// Out     the answer; `in_range` is false, with a note naming the input, when a value lies outside the fitted range.
/// Errors  unknown_formula, unknown_input, duplicate_input, missing_input, exclusive_inputs, not_a_number, not_a_flag,
///         not_a_choice, out_of_range (impossible value), no_answer. All problems of the question at once; `field` is the key.
Result<Answer> evaluate(std::string_view name, const RawInputs& inputs);

/// The same for a formula at hand (the registry is not consulted).
Result<Answer> evaluate(const Formula& formula, const RawInputs& inputs);

/// A plain decimal number, whole text: optional sign, digits with a decimal point, optional exponent. Nothing else, never nan.
std::optional<double> number_from_text(std::string_view text);

/// Shortest text that reads back as the same number, e.g. "0.1"; independent of locale.
std::string text_from_number(double value);

}  // namespace redd::calc
