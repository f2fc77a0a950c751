// The addresses themselves, with the sentences of docs/openapi.json.
#include "desk/handlers.h"
#include "desk/routes.h"

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
    {"GET", "/api/next-year", next_year, "What the season teaches the next one: filter, water, dates, losses, kits and gaps, with their numbers and how sure.", "as_of"},
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
    {"GET", "/api/water-quality.csv", water_quality_csv, "The tests of the season as the long table of the public WQX conventions (CSV).", "as_of organization project location"},
    {"POST", "/api/import", import_season, "Takes in a saved season: all of it where there is none, else what continues the same season."},
};

}  // namespace

std::span<const Route> routes() { return table; }

}  // namespace redd::desk
