// engine/engine.h
// One question in JSON, one answer in JSON: the door through which the browser and the tests ask the core.
// Start at answer(). Pure: no files, no clock, no memory between two questions.
#pragma once

#include <string>
#include <string_view>

namespace redd::engine {

/// The answer to one question.
///
/// In      request_json: one object that asks exactly one thing,
///           {"ping": anything}                                  gives {"pong": the same}
///           {"formulas": true}                                  gives {"formulas": [description, …]}
///           {"calc": "name", "inputs": {"temperature_c": 10}}   gives {"calc": answer}, as in desk/calc_json.h
///           {"day": {"now", "zone"?, "records"}}                gives {"day": day view}, see desk/day_question.h
///           {"bench_schedule": {"kit", …}}                      gives {"bench_schedule": timetable}, see desk/sitting_question.h
///           {"pooled_readings": {"kit", "readings"}}            gives {"pooled_readings": …}, see desk/pooled_question.h
///           {"what_if_base": {"now", "zone"?, "records"}}       gives {"what_if_base": base}, see desk/what_if_question.h
///           {"what_if": {"base", "sliders"}}                    gives {"what_if": answer}
///           {"lessons": {"now", "zone"?, "records", "sheet"?}}  gives {"lessons": lessons}, see desk/lessons_question.h
///         With "reader": {"language": "es", "units": "us"} beside it, sentences and texts are worded for that reader.
/// Out     one object on one line; numbers are unrounded.
/// Errors  {"problems": [{"code", "field", "sentence"}, …]}; nothing is thrown.
std::string answer(std::string_view request_json);

}  // namespace redd::engine
