// counts: the brood in numbers.
#include <ostream>

#include "cli/commands.h"
#include "report/counts_view.h"
#include "wire/json.h"

namespace redd::cli {

Exit counts(const Console& console, const Place& place, bool json) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  for (const Phrase& doubt : server::doubts_of(*opened->look, server::system_now())) console.err << "redd: " << console.say(doubt) << "\n";
  const auto look = season::look_at_counts({opened->look->zone}, opened->look->records, opened->now);
  if (!look) return complain(console, look.problems());
  console.out << (json ? wire::printed(report::counts_json(*look, console.reader)) + "\n" : report::counts_text(*look, console.reader));
  return Exit::ok;
}

}  // namespace redd::cli
