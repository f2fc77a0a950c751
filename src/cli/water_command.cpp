// redd water: the programme of changes, or what a proposed change would do.
#include <chrono>
#include <ostream>

#include "cli/commands.h"
#include "quantities/verbatim.h"
#include "report/water_plan_view.h"
#include "season/water_look.h"
#include "server/filter_keeper.h"
#include "wire/codec.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

/// Read as `redd log` reads the same flag, so that both take the same spellings and refuse the same slips.
template <class Body>
std::optional<Body> body_of(const char* kind, const char* field, const char* flag, const std::string& typed, Problems& problems) {
  const auto json = body_json(kind, {{field, {typed}}});
  const auto body = json ? wire::body_from_json(kind, *json) : Result<records::Body>(json.problems());
  if (body) return std::get<Body>(*body);
  for (const Problem& problem : body.problems()) problems.push_back({problem.code, flag, said("{0}: {1}", verbatim(std::string(flag) + " " + typed), problem.sentence)});
  return std::nullopt;
}

/// "30 %", "30%" as a share; nothing when no percentage was typed.
std::optional<double> percentage(std::string typed) {
  const auto sign = typed.find('%');
  if (sign == std::string::npos || typed.find_first_not_of(" ", sign + 1) != std::string::npos) return std::nullopt;
  typed.erase(sign);
  char* end = nullptr;
  const double value = std::strtod(typed.c_str(), &end);
  while (end && *end == ' ') ++end;
  return end && *end == '\0' && end != typed.c_str() ? std::optional(value / 100.0) : std::nullopt;
}

Result<planning::ChangeWished> wished_change(const WaterQuestion& question, Volume tank) {
  Problems problems;
  planning::ChangeWished wished;
  wished.vacuum = question.vacuum;
  wished.stood = !question.unaired;
  wished.dechlorinated = !question.chlorinated;
  if (!question.source.empty()) wished.source = question.source;
  if (const auto share = percentage(question.change)) wished.fraction = *share;
  else if (const auto change = body_of<records::WaterChange>("water_change", "volume", "--change", question.change, problems)) wished.fraction = change->volume.l() / tank.l();
  if (!question.temperature.empty())
    if (const auto reading = body_of<records::TemperatureReading>("temperature", "temperature", "--temp", question.temperature, problems)) wished.new_water = reading->temperature;
  if (problems.empty() && !(wished.fraction > 0.0 && wished.fraction <= 1.0))
    problems.push_back({"out_of_range", "--change", said("--change {0}: a change is more than nothing and at most the whole tank.", question.change)});
  if (!problems.empty()) return problems;
  return wished;
}

/// The filter's outlook, with a line of progress for who watches when it takes long.
std::shared_ptr<const planning::FilterOutlook> filter_of(const Console& console, const Opened& opened) {
  const auto begun = std::chrono::steady_clock::now();
  int shown = -1;
  server::FilterWorker worker;
  const auto found = worker.outlook(*opened.look, opened.now, [&](double done) {
    const int percent = static_cast<int>(100.0 * done);
    if (console.can_ask && percent != shown && std::chrono::steady_clock::now() - begun > std::chrono::milliseconds(400)) {
      shown = percent;
      console.err << "\r" << console.say(said("Working out the filter: {0} % (Ctrl-C stops)", percent)) << std::flush;
    }
    return true;
  });
  if (shown >= 0) console.err << "\r" << std::string(60, ' ') << "\r" << std::flush;
  return found.outlook;
}

}  // namespace

Exit water(const Console& console, const Place& place, const WaterQuestion& question) {
  if (question.change.empty() && (!question.source.empty() || !question.temperature.empty() || question.vacuum || question.unaired || question.chlorinated))
    return complain(console, {{"needs_a_change", "--change", "Say how much to change: --change \"30 %\" or --change 60L."}});
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  for (const Phrase& doubt : server::doubts_of(*opened->look, server::system_now())) console.err << "redd: " << console.say(doubt) << "\n";
  const season::Setup setup{opened->look->zone};
  if (!opened->look->season) return complain(console, {{"no_season", "", "There is no season yet. Set one up first: redd init."}});
  std::optional<planning::ChangeWished> wished;
  if (!question.change.empty()) {
    auto read = wished_change(question, opened->look->season->volume);
    if (!read) return complain(console, read.problems());
    wished = *read;
  }
  const auto filter = question.quick ? nullptr : filter_of(console, *opened);
  if (wished) {
    const auto trial = season::try_water(setup, opened->look->records, opened->now, *wished, filter.get());
    if (!trial) return complain(console, trial.problems());
    console.out << (question.json ? wire::printed(report::tried_water_json(*trial, console.reader)) + "\n" : report::tried_water_text(*trial, console.reader));
    return Exit::ok;
  }
  const auto look = season::look_at_water(setup, opened->look->records, opened->now, filter.get());
  if (!look) return complain(console, look.problems());
  console.out << (question.json ? wire::printed(report::water_plan_json(*look, console.reader)) + "\n" : report::water_plan_text(*look, console.reader));
  return Exit::ok;
}

}  // namespace redd::cli
