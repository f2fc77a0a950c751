// Ammonia criteria: US EPA 2013 [epa2013] and its forerunner of 1985 [epa1985].
#include "chemistry/ammonia.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

double criterion(const std::string& quantity, Temperature temperature, Ph ph) {
  if (quantity == "acute_salmonids") return chemistry::acute_criterion_epa2013(temperature, ph, true).mg_n_per_l();
  if (quantity == "acute_no_salmonids") return chemistry::acute_criterion_epa2013(temperature, ph, false).mg_n_per_l();
  if (quantity == "chronic") return chemistry::chronic_criterion_epa2013(temperature, ph).mg_n_per_l();
  const auto older = chemistry::chronic_criterion_epa1985_salmonids(temperature, ph);
  return quantity == "chronic_1985_as_nh3" ? older.mg_nh3_per_l() : older.mg_n_per_l();
}

TEST(Epa2013, EveryTabulatedCriterionIsReproduced) {
  for (const Row& row : table("ammonia_criteria"))
    EXPECT_NEAR(criterion(row.text("quantity"), Temperature::from_c(row.number("temperature_c")), Ph::from_ph(row.number("ph"))),
                row.number("expected"), row.number("tolerance"))
        << row.line();
}

TEST(Epa2013, TheFourDayLimitIsTwoAndAHalfTimesTheChronic) {  // headline value: 4.8 = 2.5 x 1.9 at pH 7, 20 C
  EXPECT_DOUBLE_EQ(chemistry::four_day_over_chronic_epa2013, 2.5);
}

// The Canadian guideline is 0.019 mg/L un-ionized as NH3, whatever the temperature and pH [ccme2010].
TEST(Ccme2010, TheGuidelineHoldsTheSameUnIonizedAmmoniaEverywhere) {
  for (const double c : {0.0, 5.0, 10.0, 15.0, 20.0})
    for (const double ph : {6.5, 7.5, 8.5}) {
      const auto total = chemistry::long_term_guideline_ccme(Temperature::from_c(c), Ph::from_ph(ph));
      EXPECT_NEAR(chemistry::un_ionized(total, Temperature::from_c(c), Ph::from_ph(ph)).mg_nh3_per_l(), 0.019, 1e-12);
    }
}

}  // namespace
}  // namespace redd::reference
