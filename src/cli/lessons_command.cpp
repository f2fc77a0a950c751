// lessons: the guessing game, readings by team, worksheets.
#include <ostream>

#include "cli/commands.h"
#include "report/lessons_view.h"
#include "wire/json.h"

namespace redd::cli {

Exit lessons(const Console& console, const Place& place, const LessonsQuestion& question) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  for (const Phrase& doubt : server::doubts_of(*opened->look, server::system_now())) console.err << "redd: " << console.say(doubt) << "\n";
  const auto look = season::look_at_lessons({opened->look->zone}, opened->look->records, opened->now, question.sheet.value_or(1), console.reader.fahrenheit);
  if (!look) return complain(console, look.problems());
  if (question.json) console.out << wire::printed(report::lessons_json(*look, console.reader)) << "\n";
  else if (question.level.empty()) console.out << report::lessons_text(*look, console.reader);
  else console.out << report::worksheet_text(*look, question.level == "older" ? redd::lessons::Level::older : redd::lessons::Level::younger, question.answers, console.reader);
  return Exit::ok;
}

}  // namespace redd::cli
