// engine/engine.h
// One question in JSON, one answer in JSON: the door through which the browser and the tests ask the core.
// Start at answer(). Pure: no files, no clock, no memory between two questions.
#pragma once

#include <string>
#include <string_view>

namespace redd::engine {

/// The answer to one question.
///
/// In      request_json: one object with exactly one known question, for example
///           {"ping": any value}                                   gives {"pong": the same value}
///           {"calc": "name", "inputs": {"temperature_c": 10}}     gives {"calc": {name, inputs, outputs, …}}
///         Numbers, flags and words are all accepted as inputs; a formula checks them itself.
/// Out     one object, on one line; numbers are unrounded.
/// Errors  {"problems": [{"code", "field", "sentence"}, …]}, never an exception.
std::string answer(std::string_view request_json);

}  // namespace redd::engine
