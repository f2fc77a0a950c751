// Many dead at once, cause unknown.

#include <algorithm>

#include "emergency/holds.h"

namespace redd::emergency::kinds {
namespace {

/// Deaths in a day that are no longer picking out the odd one: a hundredth of eggs, a fiftieth of what has hatched, at least three.
/// Common practice, no source.
int too_many(const Case& now) {
  const int alive = planning::count_of(now.season, now.belief);
  return std::max(3, are_eggs(life_of(now)) ? alive / 100 : alive / 50);
}

int died_in_a_day(const Case& now) {
  int dead = 0;
  for (const records::Record& record : now.records) {
    const auto* count = std::get_if<records::Count>(&record.entry.body);
    if (!count || record.entry.at > now.now || now.now - record.entry.at > std::chrono::hours(24)) continue;
    if (records::are_dead(count->what)) dead += count->count;
  }
  return dead;
}

}  // namespace

Emergency sudden_deaths(const Case& now) {
  Emergency e;
  e.key = "sudden_deaths", e.rank = 7;
  e.name = "Sudden deaths";
  e.sign = {"More dead {0} within a day than in the week before.", {Word{animals_word(now)}}};
  e.now = has_animals(now) && died_in_a_day(now) > too_many(now);
  e.hold.push_back({"the cause works on", std::nullopt, "Act within the hour; most causes are oxygen, temperature, chlorine, ammonia or nitrite, and all of them can be tested (common practice, no source)."});
  e.steps = {"Strong air and flow now. Do not feed.", "Test before you change anything: temperature, oxygen, ammonia, nitrite, pH, chlorine. Keep a jar of the water.",
             "Then change a quarter of the water, dechlorinated, aerated and at the tank's temperature.", "Take out and count the dead, log them, and look at one closely: fungus, bubbles, gills, colour."};
  for (const auto quantity : {records::Quantity::oxygen, records::Quantity::total_ammonia, records::Quantity::nitrite, records::Quantity::ph, records::Quantity::chlorine})
    e.measure.push_back(test_of(now, quantity));
  e.call = {{"Ring the egg supplier or the agency on the permit when more than {0} die in a day ({1}; common practice, no source), or deaths rise three days running.",
             {Number{too_many(now)}, Word{are_eggs(life_of(now)) ? "a hundredth" : "a fiftieth"}}},
            "A veterinarian or fish health service decides on treatments: none without them."};
  e.cautions = {"Gloves; wash hands. Dead fish and water go where the permit says, never into a stream or drain to one.", "Release nothing from a tank with unexplained deaths.", pull_the_plug()};
  e.sources = {"common practice, no source"};
  return e;
}

}  // namespace redd::emergency::kinds
