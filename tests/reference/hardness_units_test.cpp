// Definitions of hardness units.
#include "quantities/water.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

TEST(HardnessUnits, EachIsWorthWhatItsDefinitionSays) {
  for (const Row& row : table("hardness_units"))
    EXPECT_NEAR(hardness_converted(row.number("value"), *hardness_unit_named(row.text("from")), *hardness_unit_named(row.text("to"))),
                row.number("expected"), row.number("tolerance"))
        << row.line();
}

}  // namespace
}  // namespace redd::reference
