// undo --logged-since: back to a moment, by undo records, so that nothing leaves the log.
#include <algorithm>
#include <iterator>
#include <ostream>

#include "cli/commands.h"
#include "cli/record_list.h"

namespace redd::cli {

Exit undo_since(const Console& console, const Place& place, const std::string& since, bool yes, const Writing& writing) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto& look = *opened->look;
  const auto day = date_from_iso(since);
  auto moment = day ? Result<Instant>(start_of_day(look.zone, *day)) : instant_from_typed(since, look.zone, opened->now);
  if (!moment) {
    Problems problems = moment.problems();
    for (Problem& problem : problems) problem.field = "--logged-since";
    return complain(console, problems);
  }
  // Set-ups after the first one go like any other record; the first one stays, or there would be no season.
  const auto set_up = std::ranges::find_if(look.records, [](const records::Record& one) { return std::holds_alternative<records::SeasonSetup>(one.entry.body); });
  const auto stays = [&](const records::Record& one) {
    if (set_up == look.records.end()) return false;
    // After a loss the first one left may be a correction; then what stands in the place of the corrected one stays with it.
    return one.id == set_up->id || one.id == set_up->entry.supersedes;
  };
  std::vector<records::Record> since_then;
  std::ranges::copy_if(look.records, std::back_inserter(since_then), [&](const records::Record& one) { return one.logged_at >= *moment && !stays(one); });
  // Newest first: each undo then meets the log as it was just after its record was written, whatever that corrected or took back.
  std::vector<records::Entry> entries;
  for (auto record = since_then.rbegin(); record != since_then.rend(); ++record) entries.push_back({opened->written_at(), author_of(writing), {}, {}, records::Undo{record->id}});
  if (entries.empty()) {
    console.out << console.say(said("Nothing was logged since {0}.", rfc3339_local(look.zone, *moment))) << "\n";
    return Exit::ok;
  }
  console.out << console.say(said("{0, plural, one {# record was} other {# records were}} logged since {1}:", entries.size(), rfc3339_local(look.zone, *moment))) << "\n";
  print_records(console, since_then, look.records, look.zone);
  if (!yes && !(console.can_ask && confirmed(console, console.say("Take them all back? They stay in the file and can be brought back."))))
    return complain(console, {{"not_confirmed", "", "Nothing was changed. If the above is right, give the command again with --yes."}});
  // Without a copy nothing is lost either: every record stays in the log.
  if (!place.demo) {
    const auto copy = opened->desk->keep_copy(logbook::Why::before_undo);
    if (!copy) complain(console, copy.problems());
    else if (!copy->whole) complain(console, {logbook::not_whole(*copy)});
  }
  const auto kept = opened->desk->add_all(entries, opened->written_at());
  if (!kept) return complain(console, kept.problems());
  console.out << console.say(said("What counts is as it was then. Records {0} to {1} say so; \"redd undo --logged-since\" with a moment before them takes this back.", kept->front().record.id, kept->back().record.id)) << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
