// Stoichiometric factors, against values worked out elsewhere and those of [epa1975].
#include "chemistry/dosing.h"
#include "chemistry/nitrification.h"
#include "quantities/nitrogen.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

using namespace chemistry;

std::map<std::string, double> factors() {
  const Volume litre = Volume::from_l(1.0);
  const auto german = [](auto one) { return one.german_degrees(); };
  EXPECT_NEAR(german(Hardness::from_german_degrees(1.0)), 1.0, 1e-15);
  return {{"thiosulfate_mg_per_mg_cl2", thiosulfate_for(litre, 1.0).mg()},
          {"chloramine_releases_mg_n_per_mg_cl2", ammonia_released_by(1.0).mg_n_per_l()},
          {"bicarbonate_mg_per_mg_caco3", sodium_bicarbonate_for(litre, Alkalinity::from_mg_caco3_per_l(1.0)).mg()},
          {"bicarbonate_mg_per_german_degree", sodium_bicarbonate_for(litre, Alkalinity::from_german_degrees(1.0)).mg()},
          {"calcium_chloride_mg_per_german_degree", calcium_chloride_for(litre, Hardness::from_german_degrees(1.0)).mg()},
          {"magnesium_sulfate_mg_per_german_degree", magnesium_sulfate_for(litre, Hardness::from_german_degrees(1.0)).mg()},
          {"chloride_mg_per_german_degree", Hardness::from_german_degrees(1.0).meq_per_l() * calcium_chloride_adds_chloride_mg_per_meq},
          {"ammonium_chloride_mg_per_mg_n", ammonium_chloride_for(litre, NitrogenConc::from_mg_n_per_l(1.0)).mg()},
          {"oxygen_ammonia_to_nitrite", ammonia_to_nitrite_mg_o2_per_mg_n},
          {"oxygen_nitrite_to_nitrate", nitrite_to_nitrate_mg_o2_per_mg_n},
          {"oxygen_ammonia_to_nitrate", ammonia_to_nitrate_mg_o2_per_mg_n},
          {"alkalinity_mg_caco3_per_mg_n", Alkalinity::from_meq_per_l(nitrification_alkalinity_meq_per_mg_n).mg_caco3_per_l()},
          {"no2_per_n", mass_per_mass_n(NitrogenBasis::no2)},
          {"no3_per_n", mass_per_mass_n(NitrogenBasis::no3)}};
}

TEST(Dosing, FactorsAgreeWithThoseWorkedOutElsewhere) {
  const auto ours = factors();
  for (const Row& row : table("dosing")) {
    ASSERT_TRUE(ours.contains(row.text("factor"))) << row.line();
    EXPECT_NEAR(ours.at(row.text("factor")), row.number("expected"), row.number("tolerance")) << row.line();
  }
}

}  // namespace
}  // namespace redd::reference
