// import … and export: real input from files, and the season out again.
#include <algorithm>
#include <ostream>

#include "cli/commands.h"
#include "cli/import_flags.h"
#include "intake/import.h"
#include "ledger/season_file.h"
#include "lessons/game.h"
#include "quantities/verbatim.h"
#include "records/labels.h"
#include "server/single_file.h"

namespace redd::cli {
namespace {

std::string certainty_text(intake::Certainty certainty) {
  switch (certainty) {
    case intake::Certainty::given:
      return "as you said";
    case intake::Certainty::certain:
      return "from the file";
    case intake::Certainty::likely:
      return "likely";
    case intake::Certainty::open:
      return "OPEN";
  }
  broken_promise("certainty_text", "unknown certainty");
}

void print_preview(const Console& console, const Importing& importing, const intake::Preview& preview) {
  constexpr std::size_t most = 10;
  console.out << importing.file << ": " << console.say(said("{0} entries from {1} good rows, {2} bad", preview.entries.size(), preview.good.size(), preview.bad.size())) << "\n\n"
              << console.say("Taken as:") << "\n";
  std::vector<std::vector<std::string>> rows;
  for (const intake::Guess& guess : preview.guesses) {
    const auto flag = typed_flag(importing.what, guess.key, guess.value);
    if (!flag) continue;  // the command itself says it
    std::string others;
    for (const std::string& other : alternatives_of(importing.what, guess)) others += (others.empty() ? "" : ", ") + other;
    rows.push_back({"  " + *flag, console.say(certainty_text(guess.certainty)),
                    console.say(others.empty() ? said("{0}.", guess.reason) : said("{0}. Also possible: {1}.", guess.reason, others))});
  }
  console.out << table(rows, 120);
  rows.clear();
  for (std::size_t i = 0; i < std::min(most, preview.good.size()); ++i)
    rows.push_back({"  " + console.say(said("line {0}", preview.good[i].line)), rfc3339_from_instant(preview.good[i].at),
                    console.say(preview.good[i].text)});
  if (!rows.empty()) console.out << "\n" << console.say("Good rows:") << "\n" << table(rows, 120);
  if (preview.good.size() > most) console.out << "  " << console.say(said("… and {0} more", preview.good.size() - most)) << "\n";
  rows.clear();
  for (const intake::BadRow& bad : preview.bad)
    rows.push_back({"  " + console.say(said("line {0}", bad.line)), bad.column, "\"" + bad.cell + "\"", console.say(bad.problem.sentence)});
  if (!rows.empty()) console.out << "\n" << console.say("Bad rows:") << "\n" << table(rows, 120);
  for (const Phrase& note : preview.notes) console.out << wrapped(console.say(said("Note: {0}", note)), 110, 6) << "\n";
}

/// The settings' own words as the flags of this command.
Problems as_import_flags(const std::string& what, Problems problems) {
  for (Problem& problem : problems) {
    const std::string setting = problem.field.starts_with("/") ? problem.field.substr(1) : problem.field;
    problem.field = flag_of_setting(what, setting).value_or("");
    const std::string own = setting + " ";
    if (!problem.field.empty() && problem.sentence.starts_with(own))
      problem.sentence = Phrase(problem.field + problem.sentence.substr(setting.size()));
  }
  return problems;
}

/// What the file leaves open, each with the flags that settle it.
Problems open_questions(const std::string& what, const intake::Preview& preview) {
  Problems problems;
  for (const intake::Guess& guess : preview.guesses) {
    if (guess.certainty != intake::Certainty::open) continue;
    const auto flag = typed_flag(what, guess.key, guess.value);
    require(flag.has_value(), "open_questions", "an open question has no flag");
    Phrase choices = *flag;
    for (const std::string& other : alternatives_of(what, guess)) choices = said("{0} or {1}", choices, *typed_flag(what, guess.key, other));
    problems.push_back({"open_question", "", said("The file leaves something open: {0}. Say {1}.", guess.reason, choices)});
  }
  return problems;
}

}  // namespace

Exit import_table(const Console& console, const Place& place, const Importing& importing) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto text = file_text(console, importing.file);
  if (!text) return complain(console, text.problems());
  auto words = importing.settings;
  if (importing.what == "temperatures") words["kind"] = "temperature_logger";
  const auto settings = intake::settings_from_words(words);
  if (!settings) return complain(console, as_import_flags(importing.what, settings.problems()));
  const intake::Context context{server::kits_in_force(*opened->look, opened->now), opened->look->zone,
                                opened->look->season->first_day, opened->now};
  const auto preview = intake::preview_import(*text, *settings, context);
  if (!preview) return complain(console, as_import_flags(importing.what, preview.problems()));
  if (importing.what == "readings" && preview->kind == "temperature_logger")
    return complain(console, {{"wrong_kind", "",
                               "This looks like a temperature trace: use \"redd import temperatures\", or say --kind "
                               "readings_long or --kind readings_wide."}});
  if (importing.json)
    console.out << intake::json_from_preview(*preview, 200, [&](const Phrase& words) { return console.say(words); }) << "\n";
  else
    print_preview(console, importing, *preview);

  intake::Decision decision{importing.yes, importing.keep_good_rows};
  if (!importing.yes && console.can_ask && !importing.json) {
    decision.accept_guesses = confirmed(console, "\n" + console.say("Is it taken rightly?"));
    if (!decision.accept_guesses)
      return complain(console,
                      {{"not_confirmed", "", "Nothing was added. Say what is different with the flags shown above."}});
    if (!preview->bad.empty() && !importing.keep_good_rows)
      decision.keep_good_rows = confirmed(console, console.say("Keep the good rows without the bad ones?"));
  }
  const auto entries = intake::entries_to_keep(*preview, decision);
  if (!entries) {
    // The bad rows themselves have been shown; here it is enough to say what to do about them.
    Problems problems = open_questions(importing.what, *preview);
    if (!decision.accept_guesses)
      problems.push_back({"not_confirmed", "",
                          "Nothing was added yet. If the above is right, give the command again with --yes; otherwise "
                          "say what is different with the flags shown."});
    if (!preview->bad.empty() && !decision.keep_good_rows)
      problems.push_back(
          {"bad_rows", "",
           "Nothing was added: there are bad rows. Mend the file, or keep the good rows only with --keep-good-rows."});
    require(!problems.empty(), "import_table", "an import was refused without a reason");
    return complain(console, problems);
  }
  const auto kept = opened->desk->add_all(*entries, opened->written_at());
  if (!kept) return complain(console, kept.problems());
  const auto known = std::ranges::count_if(*kept, &logbook::Appended::already_known);
  console.out << (importing.json ? "" : "\n");
  if (!importing.json)
    console.out << console.say(said("{0} records added, {1} were in the log already.", static_cast<std::ptrdiff_t>(kept->size()) - known, known)) << "\n";
  return Exit::ok;
}

Exit import_season(const Console& console, const Place& place, const std::string& file) {
  const auto records = records_of_saved(console, file);
  if (!records) return complain(console, records.problems());
  if (records->empty()) return complain(console, {{"empty_file", "", "This file holds no records: there is nothing to take in."}});
  if (place.demo)
    return complain(console, {{"demo_season", "", "The demo is invented and keeps no season of yours: give the folder of your own season with --data."}});
  auto desk = server::SeasonDesk::open(place.file(), server::system_now);
  if (!desk) return complain(console, desk.problems());
  const auto added = desk.value()->take_in(*records);
  if (!added) return complain(console, added.problems());
  const std::size_t known = records->size() - *added;
  const std::string into = place.file().string();
  console.out << console.say(known == 0 ? said("{0} records restored into {1}", *added, verbatim(into)) : said("{0} records restored into {1}; {2} were there already", *added, verbatim(into), known)) << "\n";
  if (const std::size_t personal = records::personal_labels(*records); personal > 0)
    console.err << "redd: " << console.say(said("{0, plural, one {# record carries} other {# records carry}} a label that looks like an e-mail address or a telephone number. They are kept as they are; new ones are refused.", personal)) << "\n";
  return Exit::ok;
}

namespace {

/// Teams that have guessed at a reading that is not in yet: what they guessed stands in the file, for anybody who opens it.
bool holds_hidden_guesses(const Opened& opened) {
  const auto game = lessons::game_of(opened.look->records, opened.look->zone, opened.written_at());
  return std::ranges::any_of(game.open, [](const lessons::OpenQuestion& open) { return !open.teams_in.empty(); });
}

}  // namespace

Exit export_season(const Console& console, const Place& place, const std::string& file, bool force) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  // A file with a hole in it could not be opened again, and would be taken for a good copy.
  if (!opened->look->unreadable.empty()) return complain(console, opened->look->unreadable.front().problems);
  if (holds_hidden_guesses(*opened)) console.err << "redd: " << console.say("The file holds guesses that are still hidden from the class: keep it to yourself until their readings are in.") << "\n";
  const std::string text = ledger::season_file(opened->look->records);
  if (file.empty() || file == "-") {
    console.out << text << std::flush;
    if (!console.out) return complain(console, {{"cannot_write", "", "The season could not be written to its end."}});
    return Exit::ok;
  }
  if (const Problems problems = write_file(file, text, force); !problems.empty()) return complain(console, problems);
  console.out << console.say(said("{0} records written to {1}", opened->look->records.size(), verbatim(file))) << "\n";
  return Exit::ok;
}

Exit edition(const Console& console, const std::string& file, bool force) {
  const auto text = server::single_file();
  if (!text) return complain(console, text.problems());
  if (const Problems problems = write_file(file, *text, force); !problems.empty()) return complain(console, problems);
  console.out << console.say(said("{0} holds the page and its calculations: open it in a browser, without a server.", verbatim(file))) << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
