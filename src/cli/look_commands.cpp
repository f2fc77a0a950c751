// today, milestones, list: the commands that look.
#include <chrono>
#include <ostream>

#include "cli/commands.h"
#include "cli/shown_list.h"
#include "quantities/verbatim.h"
#include "report/day_json.h"
#include "report/day_text.h"
#include "report/diary_view.h"
#include "report/emergency_text.h"
#include "report/feed_view.h"
#include "report/filter_view.h"
#include "report/heat_text.h"
#include "report/loading_view.h"
#include "report/plan_view.h"
#include "report/record_text.h"
#include "season/feed_look.h"
#include "season/season.h"
#include "server/filter_keeper.h"
#include "wire/codec.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

using wire::Json;

void warn_of_doubts(const Console& console, const server::Look& look) {
  for (const Phrase& doubt : server::doubts_of(look, server::system_now())) console.err << "redd: " << console.say(doubt) << "\n";
}

/// The filter's outlook, with a line of progress for who watches when it takes long; nothing when it is not wanted.
server::FilterWorker::Result filter_found(const Console& console, const Opened& opened, bool quick) {
  if (quick) return {};
  const auto begun = std::chrono::steady_clock::now();
  int shown = -1;
  server::FilterWorker worker;
  auto found = worker.outlook(*opened.look, opened.now, [&](double done) {
    const int percent = static_cast<int>(100.0 * done);
    if (console.can_ask && percent != shown && std::chrono::steady_clock::now() - begun > std::chrono::milliseconds(400)) {
      shown = percent;
      console.err << "\r" << console.say(said("Working out the filter: {0} % (Ctrl-C stops)", percent)) << std::flush;
    }
    return true;
  });
  if (shown >= 0) console.err << "\r" << std::string(60, ' ') << "\r" << std::flush;
  return found;
}

Result<season::DayView> day_with_filter(const Console& console, const Opened& opened, bool quick) {
  const auto found = filter_found(console, opened, quick);
  auto view = season::look_at_day({opened.look->zone}, opened.look->records, opened.now, found.outlook.get());
  if (view && !quick && found.end == server::FilterWorker::Result::End::failed) view.value().filter_progress.state = season::FilterProgress::State::failed;
  return view;
}

std::string text_of(const Json& row, const char* key) {
  const auto found = row.find(key);
  return found != row.end() && found->is_string() ? found->get<std::string>() : "";
}

}  // namespace

Exit today(const Console& console, const Place& place, const Looking& looking) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto view = day_with_filter(console, *opened, looking.quick);
  if (!view) return complain(console, view.problems());
  console.out << (looking.json ? report::day_json(*view, console.reader) + "\n" : report::day_text(*view, console.reader, 80, looking.all));
  if (!looking.json) keep_shown(place, local_day(opened->look->zone, opened->now), view->advice.actions);
  return Exit::ok;
}

Exit outlook(const Console& console, const Place& place, const Looking& looking) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto view = day_with_filter(console, *opened, false);
  if (!view) return complain(console, view.problems());
  console.out << (looking.json ? wire::printed(report::filter_json(*view, console.reader)) + "\n" : report::filter_text(*view, console.reader));
  return Exit::ok;
}

Exit plan(const Console& console, const Place& place, const Looking& looking) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto view = season::look_at_plan({opened->look->zone}, opened->look->records, opened->now);
  if (!view) return complain(console, view.problems());
  console.out << (looking.json ? wire::printed(report::plan_json(*view, console.reader)) + "\n" : report::plan_text(*view, console.reader));
  return Exit::ok;
}

Exit plan_file(const Console& console, const Place& place, const PlanFile& wanted) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto view = season::look_at_plan({opened->look->zone}, opened->look->records, opened->now);
  if (!view) return complain(console, view.problems());
  const std::string text = report::diary_ics(view->diary, view->diary.now, {wanted.closures, true}, console.in_zone(opened->look->zone));
  if (wanted.file == "-") {
    console.out << text << std::flush;
    return console.out ? Exit::ok : complain(console, {{"cannot_write", "", "The calendar could not be written to its end."}});
  }
  if (const Problems problems = write_file(wanted.file, text, wanted.force); !problems.empty()) return complain(console, problems);
  console.out << console.say(said("The plan's calendar is written to {0}. Take it into a calendar of its own: plans move, and a newer file should replace all of it.", verbatim(wanted.file))) << "\n";
  return Exit::ok;
}

Exit heat(const Console& console, const Place& place, const HeatQuestion& question) {
  Problems problems;
  const auto temperature = [&](const char* flag, const std::string& typed) -> std::optional<Temperature> {
    if (typed.empty()) return std::nullopt;
    // Read as `redd log temperature` reads one, so that both take the same spellings and refuse the same slips.
    const auto json = body_json("temperature", {{"temperature", {typed}}});
    const auto body = json ? wire::body_from_json("temperature", *json) : Result<records::Body>(json.problems());
    if (body) return std::get<records::TemperatureReading>(*body).temperature;
    for (Problem problem : body.problems()) problems.push_back({problem.code, flag, said("{0}: {1}", verbatim(std::string(flag) + " " + typed), problem.sentence)});
    return std::nullopt;
  };
  planning::HeatAsked asked{.target = temperature("--target", question.target), .room = temperature("--room", question.room)};
  if (const auto percent = question.humidity_percent) {
    if (!(*percent >= 5.0 && *percent <= 100.0)) problems.push_back({"out_of_range", "--humidity", "--humidity is a percentage from 5 to 100."});
    else asked.humidity_fraction = *percent / 100.0;
  }
  if (!problems.empty()) return complain(console, problems);
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto look = season::look_at_heat({opened->look->zone}, opened->look->records, opened->now, asked);
  if (!look) return complain(console, look.problems());
  console.out << (question.json ? wire::printed(report::heat_json(*look, console.reader)) + "\n" : report::heat_text(*look, console.reader));
  return Exit::ok;
}

Exit feed(const Console& console, const Place& place, const Looking& looking) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto found = filter_found(console, *opened, looking.quick);
  const auto look = season::look_at_feed({opened->look->zone}, opened->look->records, opened->now, found.outlook.get());
  if (!look) return complain(console, look.problems());
  console.out << (looking.json ? wire::printed(report::feed_json(*look, console.reader)) + "\n" : report::feed_text(*look, console.reader));
  return Exit::ok;
}

Exit emergency(const Console& console, const Place& place, const EmergencyQuestion& question) {
  if (question.card && !question.which.empty()) return complain(console, {{"exclusive_flags", "--card", "--card prints all emergencies on one page: leave the name out."}});
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto look = season::look_at_emergencies({opened->look->zone}, opened->look->records, opened->now);
  if (!look) return complain(console, look.problems());
  const report::Reader reader = console.in_zone(look->zone);
  if (question.which.empty()) {
    console.out << (question.json ? wire::printed(report::emergencies_json(*look, console.reader)) + "\n" : question.card ? report::emergency_card(*look, console.reader) : report::emergencies_text(*look, console.reader));
    return Exit::ok;
  }
  const auto one = emergency::emergency(look->kinds, question.which);
  if (!one) return complain(console, one.problems());
  console.out << (question.json ? wire::printed(report::emergency_json(*one, reader)) + "\n" : report::emergency_text(*one, reader));
  return Exit::ok;
}

Exit loading(const Console& console, const Place& place, const Looking& looking) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto found = filter_found(console, *opened, looking.quick);
  const auto look = season::look_at_loading({opened->look->zone}, opened->look->records, opened->now, found.outlook.get());
  if (!look) return complain(console, look.problems());
  console.out << (looking.json ? wire::printed(report::loading_json(*look, console.reader)) + "\n" : report::loading_text(*look, console.reader));
  return Exit::ok;
}

Exit milestones(const Console& console, const Place& place, bool json) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto view = season::look_at_day({opened->look->zone}, opened->look->records, opened->now);
  if (!view) return complain(console, view.problems());
  const report::Reader reader = console.in_zone(opened->look->zone);
  console.out << (json ? report::milestones_json(*view, reader) + "\n" : report::milestones_text(*view, reader));
  return Exit::ok;
}

Exit list(const Console& console, const Place& place, const Listing& listing) {
  constexpr std::size_t shown_unless_all = 30;
  if (listing.kind && !records::body_of_kind(*listing.kind)) {
    std::string known;
    for (const auto name : records::kind_names()) known += (known.empty() ? "" : ", ") + dashed(name);
    return complain(
        console, {{"unknown_kind", "--kind",
                   said("--kind {0} is not a kind of record; known kinds are: {1}.", dashed(*listing.kind), known)}});
  }
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  warn_of_doubts(console, *opened->look);
  const auto& look = *opened->look;
  const auto tree = wire::parsed(report::history_json(look.records, console.in_zone(look.zone),
                                                      static_cast<int>(look.records.size()) + 1, 0, opened->now));
  require(tree.has_value() && tree->contains("records"), "list", "a history is not JSON");
  Json rows = Json::array();
  bool more = false;
  for (const Json& row : (*tree)["records"]) {
    if (listing.kind && text_of(row, "kind") != *listing.kind) continue;
    more = !listing.all && rows.size() == shown_unless_all;
    if (more) break;
    rows.push_back(row);
  }
  if (listing.json) {
    console.out << wire::printed(Json{{"records", rows}, {"more", more}}) << "\n";
    return Exit::ok;
  }
  std::vector<std::vector<std::string>> lines;
  for (const Json& row : rows) {
    const std::string status = text_of(row, "status");
    lines.push_back({std::to_string(row.value("id", 0LL)), text_of(row, "day_text") + " " + text_of(row, "time_text"),
                     text_of(row, "author"), text_of(row, "kind_text"),
                     text_of(row, "text") + (status == "current" ? "" : " (" + console.say(status) + ")")});
  }
  console.out << table(lines);
  if (rows.empty()) console.out << console.say("There are no such records.") << "\n";
  if (more) console.out << console.say("Older records are left out; --all shows them.") << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
