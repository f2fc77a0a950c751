// bench: the timetable of the next sitting with the season's kit.
#include <algorithm>
#include <ostream>

#include "cli/commands.h"
#include "quantities/verbatim.h"
#include "report/sitting_view.h"
#include "sitting/timetable.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

Result<records::Kit> wanted_kit(const std::vector<records::Kit>& kits, const std::string& key) {
  if (kits.empty()) return Problem{"unknown_kit", "", "No kit is in use yet: redd kit list shows how to begin."};
  std::string known;
  for (const records::Kit& kit : kits) known += (known.empty() ? "" : ", ") + kit.key;
  if (key.empty() && kits.size() > 1) return Problem{"missing", "--kit", said("Say with --kit which one; in use are: {0}.", verbatim(known))};
  const auto kit = key.empty() ? kits.begin() : std::ranges::find(kits, key, &records::Kit::key);
  if (kit == kits.end()) return Problem{"unknown_kit", "--kit", said("There is no kit \"{0}\" in use; there are: {1}.", verbatim(key), verbatim(known))};
  return *kit;
}

}  // namespace

Exit bench(const Console& console, const Place& place, const BenchQuestion& question) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto kit = wanted_kit(server::kits_in_force(*opened->look, opened->now), question.kit);
  if (!kit) return complain(console, kit.problems());
  const auto known = records::effective(opened->look->records, opened->now);
  const auto table = sitting::timetable(*kit, {.tests = question.tests, .hands = question.hands, .expected = sitting::last_read(*kit, known)});
  if (!table) return complain(console, table.problems());
  console.out << (question.json ? wire::printed(report::sitting_json(*kit, *table, question.hands, console.reader)) + "\n" : report::sitting_text(*kit, *table, question.hands, console.reader));
  return Exit::ok;
}

}  // namespace redd::cli
