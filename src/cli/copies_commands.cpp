// copies, restore, check, salvage, delete-season: the safety of the season file.
#include <algorithm>
#include <charconv>
#include <ostream>

#include "cli/commands.h"
#include "cli/record_list.h"
#include "logbook/check.h"
#include "logbook/removal.h"
#include "logbook/restore.h"
#include "logbook/salvage.h"
#include "quantities/verbatim.h"
#include "server/found_copies.h"
#include "zones/zones.h"

namespace redd::cli {
namespace {

namespace fs = std::filesystem;

/// So many record numbers are listed.
constexpr std::size_t most_numbers = 50;

/// The zone of the season in a file; nothing when it can't be told.
std::optional<ZoneOffsets> zone_in(const fs::path& file) {
  auto book = logbook::Logbook::open(file, logbook::OpenMode::read_only);
  if (!book) return std::nullopt;
  const auto contents = book.value().records();
  if (!contents) return std::nullopt;
  const auto counting = records::effective(contents->records, Instant::max());
  const records::SeasonSetup* season = records::find_season(counting);
  if (!season) return std::nullopt;
  auto zone = zones::season_zone(*season);
  return zone ? std::optional(std::move(zone).value()) : std::nullopt;
}

/// The school's zone as the season or, when it can't be read, its newest readable copy knows it.
ZoneOffsets zone_of(const fs::path& season, const std::vector<logbook::Copy>& copies) {
  if (auto zone = zone_in(season)) return *zone;
  for (const logbook::Copy& copy : copies)
    if (auto zone = zone_in(copy.file)) return *zone;
  return {};
}

/// A copy by its number, a day ("the newest of that day or before"), or the name of a file.
Result<fs::path> copy_named(const std::string& given, const std::vector<logbook::Copy>& copies, const ZoneOffsets& zone) {
  if (const auto day = date_from_iso(given)) {
    for (const logbook::Copy& copy : copies) {
      if (copy.why == logbook::Why::damaged || local_day(zone, copy.made_at) > *day) continue;
      if (const auto check = logbook::check_file(copy.file); check && check->whole()) return copy.file;
    }
    return Problem{"no_such_copy", "", said("There is no copy of {0} or before it: \"redd copies\" shows what there is.", verbatim(given))};
  }
  int number = 0;
  const auto [end, error] = std::from_chars(given.data(), given.data() + given.size(), number);
  if (error == std::errc() && end == given.data() + given.size()) {
    const auto copy = std::ranges::find(copies, number, &logbook::Copy::number);
    const auto twin = copy == copies.end() ? copy : std::find_if(copy + 1, copies.end(), [&](const logbook::Copy& other) { return other.number == number; });
    if (twin != copies.end())
      return Problem{"no_such_copy", "", said("Two copies have the number {0}, as two programs made one at the same time. Give the name of the one you mean: {1} or {2}", number, verbatim(shell_word(copy->file.string())), verbatim(shell_word(twin->file.string())))};
    if (copy != copies.end()) return copy->file;
    return Problem{"no_such_copy", "", said("There is no copy {0}: \"redd copies\" shows what there is.", verbatim(given))};
  }
  return fs::path(given);
}

/// "3, 7, 8"; the first ones when there are too many to name.
std::string numbers_text(const std::vector<records::RecordId>& ids) {
  std::string text;
  for (std::size_t i = 0; i < ids.size() && i < most_numbers; ++i) text += (i == 0 ? "" : ", ") + std::to_string(ids[i]);
  return ids.size() > most_numbers ? text + ", …" : text;
}

void print_plan(const Console& console, const fs::path& season, const fs::path& copy, const logbook::PlannedRestore& planned, const ZoneOffsets& zone) {
  if (planned.copy.older_layout)
    console.out << console.say(said("Copy: {0}: {1, plural, one {# record} other {# records}}, its pages whole. It was written by an older Redd, so its records were not looked into.", verbatim(copy.string()), planned.copy.rows)) << "\n";
  else
    console.out << console.say(said("Copy: {0}: {1, plural, one {# record} other {# records}} of \"{2}\", whole.", verbatim(copy.string()), planned.copy.rows, verbatim(planned.copy.season))) << "\n";
  if (!planned.copy.lost.empty())
    console.out << console.say(said("In the copy {0, plural, one {a note stands in the place of # record that was} other {notes stand in the place of # records that were}} lost with an earlier damaged file: {1}.", planned.copy.lost.size(), numbers_text(planned.copy.lost))) << "\n";
  if (!planned.present_exists) return void(console.out << console.say(said("There is no {0} now; nothing is replaced.", verbatim(season.string()))) << "\n");
  if (!planned.present) {
    console.out << console.say(said("{0} can't be read as it is now. Its bytes are kept beside the copies, for \"redd salvage\".", verbatim(season.string()))) << "\n";
    return;
  }
  if (planned.present->whole())
    console.out << console.say(said("Now: {0}: {1, plural, one {# record} other {# records}} of \"{2}\".", verbatim(season.string()), planned.present->rows, verbatim(planned.present->season))) << "\n";
  else if (planned.present->read_to_end)
    console.out << console.say(said("Now: {0} is damaged; {1, plural, one {# record} other {# records}} of it can be read.", verbatim(season.string()), planned.present->readable)) << "\n";
  else
    console.out << console.say(said("Now: {0} is damaged, and could not be read to its end; {1, plural, one {# record was} other {# records were}} read before that.", verbatim(season.string()), planned.present->readable)) << "\n";
  if (planned.present->season.empty()) console.out << console.say("Whose season it is can't be read any more.") << "\n";
  else if (planned.present->season != planned.copy.season && !planned.copy.season.empty())
    console.out << console.say("The copy is of another season.") << "\n";
  if (!planned.only_here)
    return void(console.out << console.say("What the season holds beyond the copy can't be listed: one of the two can't be read through. What is there now is kept; look with \"redd salvage\" what more it holds before you go on.") << "\n");
  const auto& gone = *planned.only_here;
  if (gone.empty()) return void(console.out << console.say("The copy holds every record that can be read now.") << "\n");
  console.out << console.say(said("{0, plural, one {# record is} other {# records are}} not in the copy and would no longer count:", gone.size())) << "\n";
  print_records(console, gone, planned.records, zone);
}

/// The copies that may hold more of a damaged file: its own, or, for one that lies among the copies itself, its neighbours.
Result<std::vector<fs::path>> copies_for(const fs::path& damaged) {
  fs::path season = fs::absolute(damaged);
  const std::string name = season.filename().string();
  if (season.parent_path().filename() == "copies" && name.find("-copy-") != std::string::npos)
    season = season.parent_path().parent_path() / (name.substr(0, name.find("-copy-")) + ".redd");
  const auto copies = logbook::copies_of(season);
  if (!copies) return copies.problems();
  std::vector<fs::path> files;
  for (const logbook::Copy& copy : *copies) files.push_back(copy.file);
  std::erase(files, fs::absolute(damaged));
  return files;
}

}  // namespace

Exit copies(const Console& console, const Place& place, bool make) {
  if (place.demo) return complain(console, {server::no_copies_of_the_demo()});
  if (make) {
    const auto opened = open_season(place);
    if (!opened) return complain(console, opened.problems());
    const auto copy = opened->desk->keep_copy(logbook::Why::by_hand);
    if (!copy) return complain(console, copy.problems());
    if (!copy->whole) return complain(console, {logbook::not_whole(*copy)});
    console.out << console.say(said("Copy {0} is made, read back and whole: {1}", copy->number, verbatim(copy->file.string()))) << "\n";
    return Exit::ok;
  }
  const auto all = logbook::copies_of(place.file());
  if (!all) return complain(console, all.problems());
  const ZoneOffsets zone = zone_of(place.file(), *all);
  std::vector<std::vector<std::string>> rows;
  bool damaged = false;
  for (const logbook::Copy& copy : *all) {
    const server::FoundCopy found = server::found_copy(copy);
    damaged |= found.state == server::CopyState::damaged || found.state == server::CopyState::unreadable;
    rows.push_back({std::to_string(copy.number), moment_text(zone, copy.made_at), found.records ? std::to_string(*found.records) : "–",
                    console.say(server::why_text(copy.why)), console.say(found.said)});
  }
  if (rows.empty()) {
    console.out << console.say(said("There is no copy in {0} yet. The first entry of each day makes one; \"redd copies --make\" makes one now.", verbatim(logbook::copies_folder(place.file()).string()))) << "\n";
    return Exit::ok;
  }
  rows.insert(rows.begin(), {console.say("Copy"), console.say("Made"), console.say("Records"), console.say("Why"), console.say("Read just now")});
  console.out << console.say(said("Copies in {0}, newest first:", verbatim(logbook::copies_folder(place.file()).string()))) << "\n"
              << table(rows) << console.say("\"redd restore NUMBER\" puts one back. They lie on the same disk as the season: copy this folder, or an export, to another one now and then.") << "\n";
  return damaged ? Exit::problem : Exit::ok;
}

Exit restore(const Console& console, const Place& place, const std::string& given, bool yes) {
  if (place.demo) return complain(console, {server::no_copies_of_the_demo()});
  const auto all = logbook::copies_of(place.file());
  if (!all) return complain(console, all.problems());
  const ZoneOffsets zone = zone_of(place.file(), *all);
  const auto file = copy_named(given, *all, zone);
  if (!file) return complain(console, file.problems());
  const auto planned = logbook::planned_restore(place.file(), *file);
  if (!planned) return complain(console, planned.problems());
  print_plan(console, place.file(), *file, *planned, zone);
  if (!yes && !(console.can_ask && confirmed(console, console.say("Put the copy back? What is there now is kept as a copy first."))))
    return complain(console, {{"not_confirmed", "", "Nothing was changed. If the above is right, give the command again with --yes."}});
  if (const Problems problems = made_folder(place); !problems.empty()) return complain(console, problems);
  const auto done = logbook::restored(place.file(), *file, server::system_now(), zone);
  if (!done) return complain(console, done.problems());
  console.out << console.say(said("{0} now holds what is in the copy: {1, plural, one {# record} other {# records}}.", verbatim(place.file().string()), done->records)) << "\n";
  if (done->kept && done->kept->whole)
    console.out << console.say(said("What was there before is copy {0}: \"redd restore {0}\" takes this back.", done->kept->number)) << "\n";
  else if (done->kept)
    console.out << console.say(said("The bytes that were there before are in {0}: \"redd salvage\" reads out what can be read.", verbatim(done->kept->file.string()))) << "\n";
  return Exit::ok;
}

Exit check(const Console& console, const Place& place, const std::string& given) {
  const fs::path file = given.empty() ? place.file() : fs::path(given);
  const auto found = logbook::check_file(file);
  if (!found) return complain(console, found.problems());
  const ZoneOffsets zone = zone_of(file, {});
  if (found->whole() && found->older_layout) {
    console.out << console.say(said("{0}: {1, plural, one {# record} other {# records}}, its pages whole. It was written by an older Redd: open it once, then check again.", verbatim(file.string()), found->rows)) << "\n";
    return Exit::ok;
  }
  if (found->whole()) {
    const Phrase name = verbatim(file.string()), season = verbatim(found->season);
    console.out << console.say(found->lost.empty()
        ? said("{0} is whole: {1, plural, one {# record} other {# records}} of \"{2}\", each read and its sum right, none missing.", name, found->rows, season)
        : said("{0} is whole: {1, plural, one {# record} other {# records}} of \"{2}\", each read and its sum right. {3, plural, one {# record was} other {# records were}} lost with an earlier damaged file, and a note stands in the place of each: {4}.", name, found->rows, season, found->lost.size(), numbers_text(found->lost))) << "\n";
    if (found->last_logged_at) console.out << console.say(said("The last one was logged {0}.", moment_text(zone, *found->last_logged_at))) << "\n";
    return Exit::ok;
  }
  complain(console, found->damage);
  for (std::size_t i = 0; i < found->unreadable.size() && i < most_named; ++i) complain(console, found->unreadable[i].problems);
  if (found->unreadable.size() > most_named) console.err << "redd: " << console.say(said("… and {0} more", found->unreadable.size() - most_named)) << "\n";
  const Phrase name = verbatim(file.string()), as_typed = verbatim(shell_word(file.string()));
  return complain(console, {{"damaged", "", found->read_to_end
      ? said("{0} is damaged; {1, plural, one {# record} other {# records}} of it can be read. Put a copy back (\"redd copies\", then \"redd restore NUMBER\"), or read out what can be read: redd salvage {2} NEW_FILE", name, found->readable, as_typed)
      : said("{0} is damaged, and could not be read to its end; {1, plural, one {# record was} other {# records were}} read before that. Put a copy back (\"redd copies\", then \"redd restore NUMBER\"), or read out what can be read: redd salvage {2} NEW_FILE", name, found->readable, as_typed)}});
}

Exit salvage(const Console& console, const std::string& damaged, const std::string& target, bool without_copies) {
  const auto copies = without_copies ? Result<std::vector<fs::path>>(std::vector<fs::path>{}) : copies_for(damaged);
  if (!copies) return complain(console, copies.problems());
  const auto done = logbook::salvaged(damaged, *copies, target);
  if (!done) return complain(console, done.problems());
  console.out << console.say(said("{0} holds {1, plural, one {# record} other {# records}} found in {2} and {3} more found in copies, up to number {4}.", verbatim(target), done->from_file, verbatim(damaged), done->from_copies, done->last_id)) << "\n";
  if (!done->lost.empty()) {
    console.out << console.say(said("LOST: {0, plural, one {record} other {# records:}} {1}. A note stands in the place of each. What corrected or undid an older record may be among them: then the older one counts again.", done->lost.size(), numbers_text(done->lost))) << "\n";
  }
  console.out << console.say(said("Whether there were records after number {0} can't be told.", done->last_id)) << "\n";
  if (!done->has_season) console.out << console.say("The season's set-up is lost, so the new file can't be opened as a season: a copy or an export is needed.") << "\n";
  else console.out << console.say(said("To go on with it: redd restore {0}", verbatim(shell_word(target)))) << "\n";
  return done->lost.empty() && done->has_season ? Exit::ok : Exit::problem;
}

Exit delete_season(const Console& console, const Place& place, const std::string& typed_name) {
  const auto files = logbook::files_of_season(place.file());
  if (files.empty())
    return complain(console, {{"file_missing", "", said("There is no season {0} and no copy of it: there is nothing to delete.", verbatim(place.file().string()))}});
  const auto found = logbook::check_file(place.file());
  // What can't be read has no name; then its file's name is asked for.
  const std::string name = found && !found->season.empty() ? found->season : place.file().filename().string();
  console.out << console.say(said("This deletes the season \"{0}\" and every copy of it here, for good:", verbatim(name))) << "\n";
  for (const fs::path& file : files) console.out << "  " << file.string() << "\n";
  std::string typed = typed_name;
  if (typed.empty() && console.can_ask) typed = asked(console, console.say("Type the season's name to delete it")).value_or("");
  if (typed != name)
    return complain(console, {{"not_confirmed", "", said("Nothing was deleted: the name given is not \"{0}\". For a script: redd delete-season --name {1}", verbatim(name), verbatim(shell_word(name)))}});
  const auto gone = logbook::delete_season(place.file());
  if (!gone) return complain(console, gone.problems());
  console.out << console.say(said("{0, plural, one {# file is} other {# files are}} deleted.", *gone)) << "\n"
              << wrapped(console.say("Not reached from here: exports and copies you made yourself (also on sticks, in cloud folders and backups of the computer), redd.html files with entries, printed sheets, and what a browser keeps (on each device: clear the data of Redd's page in the browser's settings). A disk may hold traces of deleted files until it writes over them."), 110) << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
