// Many dead at once, cause unknown.

#include "emergency/holds.h"

namespace redd::emergency::kinds {

Emergency sudden_deaths(const Case& now) {
  Emergency e;
  e.key = "sudden_deaths", e.rank = 7;
  e.name = "Sudden deaths";
  e.sign = {"More dead {0} within a day than in the week before.", {Word{animals_word(now)}}};
  e.hold.push_back({"the cause works on", std::nullopt, "Act within the hour; most causes are oxygen, temperature, chlorine, ammonia or nitrite, and all of them can be tested."});
  e.steps = {"Strong air and flow now. Do not feed.", "Test before you change anything: temperature, oxygen, ammonia, nitrite, pH, chlorine. Keep a jar of the water.",
             "Then change a quarter of the water, dechlorinated, aerated and at the tank's temperature.", "Take out and count the dead, log them, and look at one closely: fungus, bubbles, gills, colour."};
  for (const auto quantity : {records::Quantity::oxygen, records::Quantity::total_ammonia, records::Quantity::nitrite, records::Quantity::ph, records::Quantity::chlorine})
    e.measure.push_back(test_of(now, quantity));
  const int many = std::max(3, animals_count(now) / 50);
  e.call = {{"Ring the egg supplier or the agency on the permit when more than {0} die in a day (a fiftieth; common practice, no source), or deaths rise three days running.", {Number{many}}},
            "A veterinarian or fish health service decides on treatments: none without them."};
  e.cautions = {"Gloves; wash hands. Dead fish and water go where the permit says, never into a stream or drain to one.", "Release nothing from a tank with unexplained deaths."};
  e.sources = {"common practice, no source"};
  return e;
}

}  // namespace redd::emergency::kinds
