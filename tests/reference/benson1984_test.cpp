// Oxygen saturation: Benson & Krause 1984 [benson1984] as adopted by [usgs2011], pressure by [usgs1981], elevation [colt2012].
#include "chemistry/oxygen.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

double saturation(const Row& row) {
  return chemistry::oxygen_saturation(Temperature::from_c(row.number("temperature_c")), row.number("pressure_mmhg_or_elevation_m"),
                                      row.number("salinity_psu"))
      .mg_o2_per_l();
}

TEST(Benson1984, SaturationIsReproduced) {
  for (const Row& row : table("oxygen_saturation"))
    if (row.text("kind") == "saturation") EXPECT_NEAR(saturation(row), row.number("expected"), row.number("tolerance")) << row.line();
}

TEST(Benson1984, PressureFallsWithElevationAsTabulated) {
  for (const Row& row : table("oxygen_saturation"))
    if (row.text("kind") == "pressure_at_elevation")
      EXPECT_NEAR(chemistry::pressure_mmhg_at_elevation(row.number("pressure_mmhg_or_elevation_m")), row.number("expected"),
                  row.number("tolerance"))
          << row.line();
}

TEST(Benson1984, AMisprintIsNotReproduced) {
  for (const Row& row : table("oxygen_saturation"))
    if (row.text("kind") == "misprint") EXPECT_GT(std::abs(saturation(row) - row.number("expected")), 0.1) << row.line();
}

// Check value of a later refit of the same measurements, from memory: 274.610 umol/kg at 10 C and salinity 35; sea water there weighs 1.02695 kg/L.
TEST(Benson1984, SaltWaterHoldsLess) {
  const double mg_per_l = 274.610e-3 * 31.9988 * 1.02695;
  EXPECT_NEAR(chemistry::oxygen_saturation(Temperature::from_c(10), 760, 35).mg_o2_per_l(), mg_per_l, 0.005);
}

}  // namespace
}  // namespace redd::reference
