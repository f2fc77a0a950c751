// report: the whole season, to hand on.
#include <ostream>

#include "cli/commands.h"
#include "report/season_report_view.h"
#include "wire/json.h"

namespace redd::cli {

Exit report(const Console& console, const Place& place, bool json) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  for (const std::string& doubt : server::doubts_of(*opened->look, server::system_now())) console.err << "redd: " << doubt << "\n";
  const auto look = season::look_at_report({opened->look->zone}, opened->look->records, opened->now);
  if (!look) return complain(console, look.problems());
  console.out << (json ? wire::printed(report::season_report_json(*look)) + "\n" : report::season_report_text(*look));
  return Exit::ok;
}

}  // namespace redd::cli
