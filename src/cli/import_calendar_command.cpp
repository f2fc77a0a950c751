// import calendar: the days a school is closed, from its own calendar.
#include <algorithm>
#include <ostream>

#include "cli/commands.h"
#include "intake/calendar.h"
#include "records/school_calendar.h"
#include "server/calendar_context.h"

namespace redd::cli {
namespace {

constexpr std::size_t most_left_out = 30;

Phrase days_text(const records::Closure& closure) {
  const Date last = records::last_day_of(closure);
  if (closure.shut_from) return said("{0}, shut from {1}", iso_from_date(closure.from), *closure.shut_from);
  return last == closure.from ? Phrase(iso_from_date(closure.from)) : said("{0} to {1}", iso_from_date(closure.from), iso_from_date(last));
}

std::string standing_words(intake::RowStanding standing) {
  switch (standing) {
    case intake::RowStanding::added: return "new";
    case intake::RowStanding::known: return "in the log already";
    case intake::RowStanding::changed: return "corrects the log";
    case intake::RowStanding::settled: return "corrected or taken back since, left as it is";
  }
  broken_promise("standing_words", "unknown standing");
}

void print_preview(const Console& console, const ImportingCalendar& importing, const intake::CalendarPreview& preview) {
  console.out << importing.file << (preview.name.empty() ? "" : " (" + preview.name + ")") << ": "
              << console.say(said("{0} closures, {1} other events, {2} unreadable", preview.closures.size(), preview.left_out.size(), preview.bad.size())) << "\n";
  std::vector<std::vector<std::string>> rows;
  for (const intake::ClosureRow& row : preview.closures) rows.push_back({"  " + console.say(days_text(row.closure)), console.say(standing_words(row.standing)), row.closure.name});
  if (!rows.empty()) console.out << "\n" << console.say("The school is closed:") << "\n" << table(rows, 120);
  rows.clear();
  for (std::size_t i = 0; i < std::min(most_left_out, preview.left_out.size()); ++i) {
    const intake::LeftOut& row = preview.left_out[i];
    const Phrase when = row.times > 1 ? said("{0} and {1} more", iso_from_date(row.day), row.times - 1) : row.times > 0 ? Phrase(iso_from_date(row.day)) : said("line {0}", row.line);
    rows.push_back({"  " + console.say(when), row.summary, console.say(row.reason)});
  }
  if (!rows.empty()) console.out << "\n" << console.say("Left out (log what is a closure all the same with redd log closure):") << "\n" << table(rows, 120);
  if (preview.left_out.size() > most_left_out) console.out << "  " << console.say(said("… and {0} more (--json shows them)", preview.left_out.size() - most_left_out)) << "\n";
  rows.clear();
  for (const intake::BadRow& bad : preview.bad) rows.push_back({"  " + console.say(said("line {0}", bad.line)), console.say(bad.problem.sentence)});
  if (!rows.empty()) console.out << "\n" << console.say("Unreadable:") << "\n" << table(rows, 120);
  for (const Phrase& note : preview.notes) console.out << wrapped(console.say(said("Note: {0}", note)), 110, 6) << "\n";
}

}  // namespace

Exit import_calendar(const Console& console, const Place& place, const ImportingCalendar& importing) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto text = file_text(console, importing.file);
  if (!text) return complain(console, text.problems());
  const auto preview = intake::preview_calendar(*text, {importing.all, importing.author}, server::calendar_context(*opened->look, opened->now));
  if (!preview) return complain(console, preview.problems());
  if (importing.json) console.out << intake::json_from_calendar_preview(*preview, 500, [&](const Phrase& words) { return console.say(words); }) << "\n";
  else print_preview(console, importing, *preview);

  intake::Decision decision{importing.yes, importing.keep_good_rows};
  if (!importing.yes && console.can_ask && !importing.json && !preview->entries.empty()) {
    decision.accept_guesses = confirmed(console, "\n" + console.say("Are these the days the school is closed?"));
    if (!decision.accept_guesses)
      return complain(console, {{"not_confirmed", "", "Nothing was added. Log single closures with redd log closure."}});
    if (!preview->bad.empty() && !importing.keep_good_rows) decision.keep_good_rows = confirmed(console, console.say("Keep them without the unreadable events?"));
  }
  const auto entries = intake::closures_to_keep(*preview, decision);
  if (!entries) {
    Problems problems;
    if (!decision.accept_guesses && !preview->entries.empty())
      problems.push_back({"not_confirmed", "", "Nothing was added yet. If the closures above are right, give the command again with --yes; a single wrong one can be taken back afterwards (redd undo)."});
    if (!preview->bad.empty() && !decision.keep_good_rows)
      problems.push_back({"bad_rows", "", "Nothing was added: there are unreadable events that may be closures. Keep the others with --keep-good-rows, and log these by hand."});
    return complain(console, problems);
  }
  const auto kept = opened->desk->add_all(*entries, opened->written_at());
  if (!kept) return complain(console, kept.problems());
  const auto known = std::ranges::count(preview->closures, intake::RowStanding::known, &intake::ClosureRow::standing);
  if (!importing.json) console.out << "\n" << console.say(said("{0} records added, {1} were in the log already.", kept->size(), known)) << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
