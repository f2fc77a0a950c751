// desk/calc_json.h
// The calculator's answers and descriptions as JSON: one spelling for the command line, the server and the browser.
// Start at json_from_answer().
#pragma once

#include <vector>

#include "calc/formula.h"
#include "calc/registry.h"
#include "quantities/result.h"
#include "report/numbers.h"
#include "wire/json.h"

namespace redd::desk {

/// {"name", "inputs": {…}, "outputs": {…}, "in_range", "notes": […], "source"}; keys carry units, numbers are unrounded.
wire::Json json_from_answer(const calc::Answer& answer, const report::Reader& reader = {});

/// {"name", "summary", "inputs": [{"name", "kind", "unit", "meaning", "required", …}], "outputs": […], "source"}.
///
/// Shape   an input has "default", "fitted", "possible", "choices" and "one_of" only where the formula states them.
wire::Json json_from_formula(const calc::Formula& formula, const report::Reader& reader = {});

/// {"problems": [{"code", "field", "sentence"}, …]}.
wire::Json json_from_problems(const Problems& problems, const report::Reader& reader = {});

/// Inputs as typed, from a JSON object whose values are numbers, flags, words or lists of numbers.
///
/// Errors  not_an_object, not_an_input (null, a nested object, a list of anything but numbers); `field` is the key.
Result<calc::RawInputs> inputs_from_json(const wire::Json& object);

}  // namespace redd::desk
