// Carbonate system: constants of [plummer1982] against older measurements, whole waters against PHREEQC [parkhurst2013].
#include "chemistry/activity.h"
#include "chemistry/carbonate.h"
#include "chemistry/mixing.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

using namespace chemistry;

Temperature temperature(const Row& row) { return Temperature::from_c(row.number("temperature_c")); }
Alkalinity alkalinity(const Row& row) { return Alkalinity::from_meq_per_l(row.number("alkalinity_meq_per_l")); }
Ph ph(const Row& row) { return Ph::from_ph(row.number("ph")); }

double computed(const Row& row) {
  const std::string& quantity = row.text("quantity");
  const auto constants = carbonate_constants(temperature(row), 0.0);
  if (quantity == "pk1") return constants.pk1;
  if (quantity == "pk2") return constants.pk2;
  if (quantity == "pkh") return constants.pkh;
  if (quantity == "pkw") return constants.pkw;
  if (quantity == "ph_open") return carbonate_from_pco2(temperature(row), alkalinity(row), row.number("pco2_uatm"))->ph;
  if (quantity == "co2") return carbonate_from_ph(temperature(row), alkalinity(row), ph(row))->co2_mg_per_l;
  if (quantity == "co2_per_german_degree") return carbonate_from_ph(temperature(row), Alkalinity::from_german_degrees(4.0), ph(row))->co2_mg_per_l / 4.0;
  EXPECT_EQ(quantity, "ph_mixed");
  const BufferedWater a{temperature(row), ph(row), alkalinity(row)};
  const BufferedWater b{temperature(row), Ph::from_ph(row.number("ph_b")), Alkalinity::from_meq_per_l(row.number("alkalinity_b_meq_per_l"))};
  return mixed(a, b, row.number("fraction_a"))->just_mixed.ph;
}

TEST(Plummer1982, ConstantsAndWholeWatersAreReproduced) {
  for (const Row& row : table("carbonate")) EXPECT_NEAR(computed(row), row.number("expected"), row.number("tolerance")) << row.line();
}

// Debye-Hueckel constants A that PHREEQC computes, to three digits.
TEST(Davies1962, TheActivityConstantFollowsTemperature) {
  const double printed[] = {0.492, 0.495, 0.499, 0.503, 0.507, 0.511};
  for (int i = 0; i < 6; ++i) EXPECT_NEAR(debye_huckel_a(Temperature::from_c(5.0 * i)), printed[i], 0.0006) << 5 * i << " C";
}

}  // namespace
}  // namespace redd::reference
