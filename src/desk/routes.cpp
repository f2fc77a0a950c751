#include "desk/routes.h"

#include <algorithm>

#include "desk/handlers.h"

namespace redd::desk {
namespace {

constexpr Route table[] = {
    {"GET", "/api/season", season_state, "Whether a season is set up, whether it is invented, and its story."},
    {"GET", "/api/day", day, "Everything known of one day: today's sentence, actions, water, milestones.", "as_of"},
    {"GET", "/api/filter", filter, "The filter's outlook of one day, or how far it has been worked out; asking begins the work.", "as_of"},
    {"POST", "/api/filter/cancel", cancel_filter, "Stops working out the filter's outlook of one day.", "as_of"},
    {"POST", "/api/filter/start", start_filter, "Begins it anew after it was stopped.", "as_of"},
    {"GET", "/api/plan", plan, "Which temperature to set when, compared with fewest changes and with leaving it as it is.", "as_of"},
    {"GET", "/api/plan.ics", plan_ics, "The plan and its tasks as a calendar (iCalendar).", "as_of closures"},
    {"GET", "/api/wall", wall, "The season ahead day by day, for a wall calendar.", "from to as_of"},
    {"POST", "/api/plan/try", try_plan, "What other set-points, or another day, would lead to.", "as_of"},
    {"GET", "/api/heat", heat, "What the chiller can hold, how long the tank stays cold without it, what bottles and foam buy.", "as_of target_c room_c humidity_percent"},
    {"GET", "/api/counts", counts, "The brood in numbers: alive, losses against what is expected, survival by stage and day.", "as_of"},
    {"GET", "/api/report", season_report, "The season report: animals, losses, what was foretold and seen, temperatures, water, releases, incidents, who kept it.", "as_of"},
    {"GET", "/api/feed", feed, "How much food today and tomorrow and what it does to the water, who feeds while closed, how the fish grow.", "as_of"},
    {"GET", "/api/loading", loading, "How many eggs or fry the tank carries on each day to come, by oxygen, ammonia and room, and which limit binds first.", "as_of"},
    {"GET", "/api/water-plan", water_plan, "The smallest water changes that keep the limits over three weeks, beside the usual one and none.", "as_of"},
    {"POST", "/api/water/try", try_water, "What a proposed water change would do. Nothing is kept.", "as_of"},
    {"GET", "/api/what-if", what_if_base, "What the what-ifs of that moment are reckoned from, for the core in the page.", "as_of"},
    {"POST", "/api/what-if", what_if, "What would become of water and brood with other sliders. Nothing is kept.", "as_of"},
    {"GET", "/api/lessons", lessons, "For a class: guesses at readings to come and their scores, readings by team, graphs with questions, worksheets with answers.", "as_of sheet"},
    {"POST", "/api/lessons/guess", add_guess, "Keeps what a team expects of a reading to come, while the question is open.", "as_of"},
    {"GET", "/api/emergency", emergencies, "What to do when something fails, how long this tank holds, whom to call.", "as_of"},
    {"GET", "/api/emergency/card", emergency_card, "All emergencies on one page for this tank, as text to print.", "as_of"},
    {"GET", "/api/emergency/{key}", one_emergency, "One kind of emergency.", "as_of"},
    {"GET", "/api/history", history, "Records, newest first, with what became of each.", "limit before_id as_of"},
    {"GET", "/api/kits", kits, "Test kits in force, and templates to start from.", "as_of"},
    {"POST", "/api/records", add_record, "Keeps one record; a set-up begins the season.", "as_of"},
    {"POST", "/api/records/{id}/undo", undo_record, "Takes one record back. It stays in the file and no longer counts.",
     "as_of"},
    {"GET", "/api/kinds", kinds, "JSON Schema of the body of each kind of record."},
    {"GET", "/api/species", species, "Species that can be raised, with their development models."},
    {"GET", "/api/calc", calc_list, "Formulas that can be asked by name."},
    {"GET", "/api/calc/{name}", calc_answer, "Answer of one formula; its inputs are the parameters.", "*"},
    {"POST", "/api/bench", ask_bench, "The order of a sitting of tests, or what the readings of several teams say together."},
    {"GET", "/api/export", export_season, "The whole season as one file: a Data Package with its tables inside."},
    {"POST", "/api/import", import_season, "Takes in a saved season: all of it where there is none, else what continues the same season."},
};

bool is_json(std::string_view content_type) {
  std::string kind(content_type.substr(0, content_type.find(';')));
  while (!kind.empty() && kind.back() == ' ') kind.pop_back();
  std::ranges::transform(kind, kind.begin(),
                         [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return kind == "application/json";
}

/// A parameter nobody reads is a slip the sender should hear of: "?as-of=" would otherwise answer for another day.
std::optional<Response> unknown_parameter(const Route& route, const Request& request) {
  if (route.parameters == "*") return std::nullopt;
  Problems problems;
  const std::string known = " " + std::string(route.parameters) + " ";
  for (std::size_t i = 0; i < request.query.size(); ++i) {
    const std::string& key = request.query[i].first;
    const bool is_word = key.find(' ') == std::string::npos && !key.empty();
    if (!is_word || known.find(" " + key + " ") == std::string::npos)
      problems.push_back(
          {"unknown_parameter", key,
           said("\"{0}\" is not a parameter of this address{1}", key, route.parameters.empty() ? "; it takes none." : said("; it takes: {0}.", route.parameters))});
    for (std::size_t j = 0; j < i; ++j)
      if (request.query[j].first == key)
        problems.push_back({"given_twice", key, said("\"{0}\" is given twice: keep one.", key)});
  }
  if (problems.empty()) return std::nullopt;
  return refusal(400, problems);
}

Response call(const Route& route, const Request& request, const Call& call) {
  if (route.method == "POST" && !is_json(request.header("content-type").value_or("")))
    return refusal(415, "not_json", "", "Send the record as JSON, with the header Content-Type: application/json.");
  if (auto refused = unknown_parameter(route, request)) return *refused;
  return route.handle(call);
}

std::string_view next_segment(std::string_view& path) {
  path.remove_prefix(1);  // the slash
  const std::string_view segment = path.substr(0, path.find('/'));
  path.remove_prefix(segment.size());
  return segment;
}

}  // namespace

std::span<const Route> routes() {
  return table;
}

std::optional<Response> answer_by(std::span<const Route> routes, const Request& request, Desk& desk, FilterDoor* filter, PlanDoor& plans, const report::Reader& reader) {
  const std::string_view method = request.method == "HEAD" ? std::string_view("GET") : request.method;
  std::string allowed;
  for (const Route& route : routes) {
    std::vector<std::string> parts;
    if (!path_fits(route.path, request.path, parts)) continue;
    if (route.method == method) return call(route, request, {request, desk, filter, plans, std::move(parts), reader});
    allowed += (allowed.empty() ? "" : ", ") + std::string(route.method == "GET" ? "GET, HEAD" : route.method);
  }
  if (allowed.empty()) return std::nullopt;
  Response response = refusal(405, "wrong_method", "", said("This address does not take {0}; it takes {1}.", request.method.substr(0, 20), allowed));
  response.headers.emplace_back("Allow", allowed);
  return response;
}

bool path_fits(std::string_view pattern, std::string_view path, std::vector<std::string>& parts) {
  parts.clear();
  while (!pattern.empty() && !path.empty()) {
    const std::string_view wanted = next_segment(pattern), given = next_segment(path);
    if (wanted.starts_with('{')) {
      if (given.empty()) return false;
      parts.emplace_back(given);
    } else if (wanted != given) {
      return false;
    }
  }
  return pattern.empty() && path.empty();
}

}  // namespace redd::desk
