// engine/calc_json.h
// The calculator's answers as JSON (desk/calc_json.h) under the engine's own name.
#pragma once

#include "desk/calc_json.h"

namespace redd::engine {

using desk::inputs_from_json;
using desk::json_from_answer;
using desk::json_from_formula;
using desk::json_from_problems;

}  // namespace redd::engine
