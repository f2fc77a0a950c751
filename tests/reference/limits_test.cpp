// Limits that depend on the water: nitrite by chloride [meays2009], copper by hardness [epa_copper1985], monochloramine by time [farrell2001].
#include "chemistry/nitrite.h"
#include "chemistry/toxicants.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

using namespace chemistry;

double computed(const std::string& quantity, double argument) {
  const auto hardness = Hardness::from_mg_caco3_per_l(argument);
  if (quantity == "nitrite_mean") return nitrite_limit(argument).mean.mg_n_per_l();
  if (quantity == "nitrite_maximum") return nitrite_limit(argument).maximum.mg_n_per_l();
  if (quantity == "copper_acute") return copper_acute_ug_per_l(hardness);
  if (quantity == "copper_chronic") return copper_chronic_ug_per_l(hardness);
  EXPECT_EQ(quantity, "monochloramine_lc50");
  return monochloramine_lc50_ug_per_l(argument);
}

TEST(Limits, EveryPrintedValueIsReproduced) {
  for (const Row& row : table("limits"))
    EXPECT_NEAR(computed(row.text("quantity"), row.number("argument")), row.number("expected"), row.number("tolerance")) << row.line();
}

}  // namespace
}  // namespace redd::reference
