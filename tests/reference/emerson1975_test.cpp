// Un-ionized share of ammonia: Emerson et al. 1975 [emerson1975], and PHREEQC runs [parkhurst2013] for ionic strength.
#include "chemistry/ammonia.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

double fraction(const Row& row) {
  return chemistry::un_ionized_fraction(Temperature::from_c(row.number("temperature_c")), Ph::from_ph(row.number("ph")),
                                        row.number("ionic_strength_mol_per_l"));
}

TEST(Emerson1975, FractionsAndConstantsAreReproduced) {
  for (const Row& row : table("ammonia_fraction")) {
    SCOPED_TRACE(row.line());
    if (row.text("kind") == "fraction") EXPECT_NEAR(fraction(row), row.number("expected"), row.number("tolerance"));
    if (row.text("kind") == "pka")
      EXPECT_NEAR(chemistry::ammonium_pka(Temperature::from_c(row.number("temperature_c"))), row.number("expected"), row.number("tolerance"));
  }
}

TEST(Emerson1975, AMisprintIsNotReproduced) {
  for (const Row& row : table("ammonia_fraction"))
    if (row.text("kind") == "misprint") EXPECT_GT(std::abs(fraction(row) - row.number("expected")), 0.0001) << row.line();
}

TEST(Emerson1975, MolarBasesAgreeWithTheUsualFactors) {  // from memory, five digits
  const auto one = NitrogenConc::from_mg_n_per_l(1.0);
  EXPECT_NEAR(one.mg_nh3_per_l(), 1.21589, 0.00001);
  EXPECT_NEAR(one.mg_nh4_per_l(), 1.28786, 0.00001);
  EXPECT_NEAR(NitrogenConc::from_mg_nh3_per_l(1.0).mg_n_per_l(), 0.82244, 0.00001);
  EXPECT_NEAR(NitrogenConc::from_mg_nh3_per_l(1.0).mg_nh4_per_l(), 1.05919, 0.00001);
}

}  // namespace
}  // namespace redd::reference
