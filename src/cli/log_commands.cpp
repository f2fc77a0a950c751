// init, log, correct, undo: the commands that write.
#include <charconv>
#include <algorithm>
#include <cstdlib>
#include <ostream>
#include <set>

#include "biology/species.h"
#include "cli/commands.h"
#include "quantities/verbatim.h"
#include "report/record_text.h"
#include "season/lessons_look.h"
#include "wire/codec.h"
#include "zones/zones.h"

namespace redd::cli {
namespace {

/// Problems of an entry with the flags named that caused them.
Exit complain_of(const Console& console, std::string_view kind, const Problems& problems) {
  return complain(console, as_flags(kind, problems));
}

/// Says what was kept, in the words the history uses.
Exit report_kept(const Console& console, const Opened& opened, const logbook::Appended& appended) {
  const auto look = opened.desk->look();
  if (!look) return complain(console, look.problems());
  const records::Body& body = appended.record.entry.body;
  const std::string text = report::record_text(body, (*look)->records, console.in_zone((*look)->zone));
  console.out << console.say(said(appended.already_known ? "Already in the log as record {0}: {1}: {2}" : "Kept as record {0}: {1}: {2}", appended.record.id, report::kind_text(body), verbatim(text))) << "\n";
  return Exit::ok;
}

/// Says which readings a change of kits made unreadable, so that nobody finds out from an answer that lacks them.
Exit kept_with_kits(const Console& console, const Opened& opened, const logbook::Appended& appended) {
  const auto after = opened.desk->look();
  if (!after) return complain(console, after.problems());
  const Exit told = report_kept(console, opened, appended);
  for (const Phrase& sentence : (*after)->of_copies) console.err << "redd: " << console.say(sentence) << "\n";
  if (std::holds_alternative<records::Kit>(appended.record.entry.body))
    for (const Phrase& sentence : server::lost_readings(opened.look->records, (*after)->records))
      console.err << "redd: " << console.say(sentence) << "\n";
  return told;
}

/// Numbers of the records that count; an undo only says which do.
std::set<records::RecordId> counting(const std::vector<records::Record>& all) {
  std::set<records::RecordId> ids;
  for (const records::Record& record : records::effective(all, Instant::max()))
    if (!std::holds_alternative<records::Undo>(record.entry.body)) ids.insert(record.id);
  return ids;
}

/// "Record 3 counts", "Records 3 and 5 count". In: pattern: of how many there are and their numbers.
Phrase those_count(const std::set<records::RecordId>& ids, const char* pattern) {
  Phrase all;
  for (const records::RecordId id : ids) all = all.empty() ? Phrase(std::to_string(id)) : said("{0} and {1}", all, id);
  return said(pattern, ids.size(), all);
}

std::set<records::RecordId> without(std::set<records::RecordId> ids, const std::set<records::RecordId>& others) {
  std::erase_if(ids, [&](records::RecordId id) { return others.contains(id); });
  return ids;
}

/// The one kit in force that has this test, so that a household with one kit need not name it.
std::optional<std::string> only_kit_with(const std::vector<records::Kit>& kits, const std::string& test) {
  std::optional<std::string> found;
  for (const records::Kit& kit : kits) {
    if (!records::find_test(kit, test)) continue;
    if (found) return std::nullopt;
    found = kit.key;
  }
  return found;
}

Result<records::Entry> entry_from(const Opened& opened, const std::string& kind, const std::string& json,
                                  const Writing& writing, std::optional<Instant> at) {
  auto body = wire::body_from_json(kind, json, "/body");
  if (!body) return body.problems();
  records::Entry entry;
  entry.at = at.value_or(opened.now);
  if (writing.at) {
    const auto typed = instant_from_typed(*writing.at, opened.look->zone, opened.now);
    if (!typed) return typed.problems();
    entry.at = *typed;
  }
  entry.author = author_of(writing);
  if (entry.author.size() > 64)
    return Problem{"too_long", "--author", "--author is longer than 64 characters: use a short label."};
  entry.entry_key = writing.entry_key;
  entry.body = std::move(body).value();
  return entry;
}

/// Adds it; but a guess that would count for nothing is refused, not kept silently.
Result<logbook::Appended> added(const Opened& opened, const records::Entry& entry) {
  Problems problems = season::problems_of_guess({opened.look->zone}, opened.look->records, entry, opened.written_at());
  if (!problems.empty()) return problems;
  return opened.desk->add(entry, opened.written_at());
}

/// Ends of a guess at a temperature with their unit typed behind them, in °C as they are kept. A reader of °F must say which is meant.
Problems degrees_to_c(Typed& typed, const report::Reader& reader) {
  const auto question = typed.find("question");
  if (question == typed.end() || !question->second.front().starts_with("temperature/")) return {};
  for (const char* end : {"low", "high"}) {
    const auto found = typed.find(end);
    if (found == typed.end()) continue;
    std::string& text = found->second.front();
    double value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    const std::string unit = text.substr(static_cast<std::size_t>(read.ptr - text.data()));
    if (read.ec != std::errc()) continue;  // said later, as for any number
    if (unit.empty() && reader.fahrenheit) return {{"needs_unit", "--" + std::string(end), said("--{0} {1} lacks its unit: write {2}{3} or {4}{5} if that is what it is.", verbatim(end), verbatim(text), verbatim(text), verbatim("F"), verbatim(text), verbatim("C"))}};
    if (unit == "F" || unit == "°F") {
      char buffer[32];
      const auto written = std::to_chars(buffer, buffer + sizeof buffer, Temperature::from_f(value).c());
      text.assign(buffer, written.ptr);
    } else if (unit == "C" || unit == "°C") {
      text.resize(text.size() - unit.size());
    }
  }
  return {};
}

/// Flags and --json at once would leave it open which counts.
std::optional<Problem> both_ways(const Typed& typed, const Writing& writing) {
  if (!writing.json || typed.empty()) return std::nullopt;
  return Problem{"exclusive_flags", "--json",
                 said("--json gives the whole record: leave --{0} and the like out.", verbatim(typed.begin()->first))};
}

struct Question {
  const char* flag;
  const char* words;
  const char* example;
  bool needed;
};
constexpr Question questions[] = {
    {"name", "Name of the season", "Brook trout 2031", true},
    {"place", "School or room (no person's name)", "", false},
    {"time-zone", "Time zone of the school", "America/Denver", true},
    {"first-day", "Day the tank is filled", "2031-01-06", true},
    {"volume", "Water in the whole system, with its unit", "200L or 55gal", true},
    {"elevation-m", "Height above the sea in metres (it decides how much oxygen water holds)", "0", false},
    {"species", "Species", "brook_trout", true},
    {"target", "Temperature for the eggs, with its unit", "8C or 46F", true},
    {"warm", "Temperature while the filter ripens, with its unit", "20C", false},
    {"egg-day", "Day the eggs arrive, if it is fixed", "2031-02-10", false},
    {"egg-count", "Number of eggs expected", "100", false},
};

/// Asks for what the flags left open. Answers that can't be right are asked again at once.
bool ask_for_the_rest(const Console& console, Typed& typed, Instant now) {
  console.out << console.say("A new season. Press Enter to leave a question that is not needed.") << "\n";
  for (const Question& question : questions) {
    if (typed.contains(question.flag)) continue;
    std::string otherwise;
    if (std::string_view(question.flag) == "time-zone") otherwise = zones::machine_zone_name();
    if (std::string_view(question.flag) == "first-day") otherwise = iso_from_date(local_day({}, now));
    if (std::string_view(question.flag) == "species") {
      std::string known;
      for (const auto& species : biology::all_species())
        known += (known.empty() ? "" : ", ") + std::string(species.key);
      console.out << wrapped(console.say(said("Species known: {0}", known)), 100, 2) << "\n";
    }
    const Phrase words = *question.example && otherwise.empty() ? said("{0}, e.g. {1}", question.words, question.example) : Phrase(question.words);
    while (true) {
      const auto answer = asked(console, console.say(words), otherwise);
      if (!answer) return false;
      if (answer->empty() && !question.needed) break;
      const auto tried = body_json("season_setup", {{question.flag, {*answer}}});
      Problems problems;
      if (answer->empty())
        problems.push_back({"missing", "", said("{0} is needed.", question.words)});
      else if (!tried)
        problems = tried.problems();
      else if (const auto body = wire::body_from_json("season_setup", *tried); !body)
        for (const Problem& problem : as_flags("season_setup", body.problems()))
          if (problem.field == "--" + std::string(question.flag)) problems.push_back(problem);
      if (problems.empty() && std::string_view(question.flag) == "species")
        if (const auto species = biology::find_species(*answer); !species) problems = species.problems();
      if (problems.empty()) {
        typed[question.flag] = {*answer};
        break;
      }
      complain(console, problems);
    }
  }
  return true;
}

}  // namespace

std::string author_of(const Writing& writing) {
  if (writing.author) return *writing.author;
  const char* own = std::getenv("REDD_AUTHOR");
  return own != nullptr && *own != '\0' ? own : "keeper";
}

Exit init(const Console& console, const Place& place, const Typed& given, const Writing& writing) {
  if (place.demo)
    return complain(console, {{"exclusive_flags", "--demo",
                               "The demo season is set up already: leave --demo out to begin your own."}});
  if (auto problem = both_ways(given, writing)) return complain(console, {*problem});
  auto desk = server::SeasonDesk::open(place.file(), server::system_now);
  if (!desk) return complain(console, desk.problems());
  const auto before = (*desk)->look();
  if (!before) return complain(console, before.problems());
  if ((*before)->season)
    return complain(console, {{"second_season", "",
                               said("The season \"{0}\" is kept in {1} already, and one file is one season of one tank. Use another folder: redd init --data DIR. To change it: redd correct.", verbatim((*before)->season->name), verbatim(place.file().string()))}});
  const Instant now = server::system_now();
  Typed typed = given;
  if (!writing.json) {
    if (console.can_ask) {
      if (!ask_for_the_rest(console, typed, now))
        return complain(console,
                        {{"not_finished", "", "The questions were not answered to the end: nothing was set up."}});
    } else if (!typed.contains("time-zone")) {
      typed["time-zone"] = {zones::machine_zone_name()};
      console.out << console.say(said("Time zone taken from this machine: {0} (--time-zone says otherwise).", verbatim(typed["time-zone"].front()))) << "\n";
    }
  }
  const auto json = writing.json ? Result<std::string>(*writing.json) : body_json("season_setup", typed);
  if (!json) return complain(console, json.problems());
  Opened opened{std::move(desk).value(), *before, now};
  const auto entry = entry_from(opened, "season_setup", *json, writing, std::nullopt);
  if (!entry) return complain_of(console, "season_setup", entry.problems());
  const auto kept = opened.desk->add(*entry, now);
  if (!kept) return complain_of(console, "season_setup", kept.problems());
  console.out << console.say(said("The season \"{0}\" is set up in {1}", verbatim(std::get<records::SeasonSetup>(kept->record.entry.body).name), verbatim(place.file().string()))) << "\n"
              << console.say("Next: choose a test kit (redd kit list), or open the page (redd serve).") << "\n";
  return Exit::ok;
}

Exit log(const Console& console, const Place& place, const std::string& kind, const Typed& given,
         const Writing& writing) {
  if (auto problem = both_ways(given, writing)) return complain(console, {*problem});
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  Typed typed = given;
  if (kind == "reading" && !writing.json && !typed.contains("kit") && typed.contains("test")) {
    const auto kits = server::kits_in_force(*opened->look, opened->now);
    if (kits.empty())
      return complain(console, {{"unknown_kit", "--kit",
                                 "There is no kit in this season yet, so the steps of its cards are not known. Choose one first: redd kit list"}});
    if (const auto kit = only_kit_with(kits, typed["test"].front())) typed["kit"] = {*kit};
    else if (kits.size() == 1) typed["kit"] = {kits.front().key};  // whose tests the refusal will name
  }
  if (kind == "guess")
    if (Problems problems = degrees_to_c(typed, console.reader); !problems.empty()) return complain(console, problems);
  const auto json = writing.json ? Result<std::string>(*writing.json) : body_json(kind, typed);
  if (!json) return complain(console, json.problems());
  const auto entry = entry_from(*opened, kind, *json, writing, std::nullopt);
  if (!entry) return complain_of(console, kind, entry.problems());
  const auto kept = added(*opened, *entry);
  if (!kept) return complain_of(console, kind, kept.problems());
  return kept_with_kits(console, *opened, *kept);
}

Exit correct(const Console& console, const Place& place, std::int64_t id, const Typed& given, const Writing& writing) {
  Typed typed = given;
  // Whoever corrects the egg day knows it.
  if (typed.contains("egg-day") && !typed.contains("egg-day-assumed")) typed["egg-day-assumed"] = {"false"};
  if (auto problem = both_ways(typed, writing)) return complain(console, {*problem});
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto& records = opened->look->records;
  const auto old = std::ranges::find(records, id, &records::Record::id);
  if (old == records.end())
    return complain(console, {{"unknown_record", "",
                               said("There is no record {0}: \"redd list --all\" shows them.", id)}});
  if (typed.empty() && !writing.json && !writing.at)
    return complain(console,
                    {{"nothing_to_change", "",
                      said("Say what is to change, for example: redd correct {0} --at 07:50", id)}});
  const std::string kind(records::kind_name(old->entry.body));
  const auto json =
      writing.json ? Result<std::string>(*writing.json) : body_json(kind, typed, wire::json_from_body(old->entry.body));
  if (!json) return complain(console, json.problems());
  auto entry = entry_from(*opened, kind, *json, writing, old->entry.at);
  if (!entry) return complain_of(console, kind, entry.problems());
  entry.value().supersedes = id;
  const auto kept = added(*opened, *entry);
  if (!kept) return complain_of(console, kind, kept.problems());
  return kept_with_kits(console, *opened, *kept);
}

Exit undo(const Console& console, const Place& place, std::int64_t id, const Writing& writing) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto& records = opened->look->records;
  if (std::ranges::find(records, id, &records::Record::id) == records.end())
    return complain(console, {{"unknown_record", "",
                               said("There is no record {0}: \"redd list --all\" shows them.", id)}});
  records::Entry entry;
  entry.at = opened->now;
  entry.author = author_of(writing);
  entry.body = records::Undo{id};
  const auto kept = opened->desk->add(entry, opened->written_at());
  if (!kept) return complain_of(console, "undo", kept.problems());
  const auto after = opened->desk->look();
  if (!after) return complain(console, after.problems());
  const auto counted = counting(records), counts = counting((*after)->records);
  const auto lost = without(counted, counts), gained = without(counts, counted);
  if (!gained.empty()) console.out << console.say(those_count(gained, "{0, plural, one {Record {1} counts} other {Records {1} count}} again.")) << " ";
  if (!lost.empty()) console.out << console.say(those_count(lost, "{0, plural, one {Record {1} no longer counts} other {Records {1} no longer count}} (it stays in the file).")) << " ";
  console.out << console.say(said("\"redd undo {0}\" takes this back.", kept->record.id)) << "\n";
  for (const Phrase& sentence : server::lost_readings(records, (*after)->records))
    console.err << "redd: " << console.say(sentence) << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
