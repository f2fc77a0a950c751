// report and next-year: the whole season, to hand on, and what it teaches.
#include <ostream>

#include "cli/commands.h"
#include "report/next_year_view.h"
#include "report/season_report_view.h"
#include "wire/json.h"

namespace redd::cli {

Exit report(const Console& console, const Place& place, bool json) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto look = season::look_at_report({opened->look->zone}, opened->look->records, opened->now);
  if (!look) return complain(console, look.problems());
  // It is handed on: what makes it doubtful stands in it.
  const auto doubts = server::doubts_of(*opened->look, server::system_now());
  if (json) {
    auto shown = report::season_report_json(*look, console.reader);
    for (const Phrase& doubt : doubts) shown["doubt"].push_back(console.say(doubt));
    console.out << wire::printed(shown) << "\n";
    return Exit::ok;
  }
  console.out << report::season_report_text(*look, console.reader);
  for (const Phrase& doubt : doubts) console.out << "  - " << console.say(doubt) << "\n";
  return Exit::ok;
}

Exit next_year(const Console& console, const Place& place, bool json) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto look = season::look_at_next_year({opened->look->zone}, opened->look->records, opened->now);
  if (!look) return complain(console, look.problems());
  console.out << (json ? wire::printed(report::next_year_json(*look, console.reader)) + "\n" : report::next_year_text(*look, console.reader));
  return Exit::ok;
}

}  // namespace redd::cli
