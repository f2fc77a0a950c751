// Atlantic salmon. Default: Crisp's power law, the only curve held here that was built for water near 0 C; 16 observed
// rows came 3 % later, sd 7 %.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile atlantic_salmon() {
  const ThermalBand egg = {
      Temperature::from_c(3.0), Temperature::from_c(6.0), Temperature::from_c(10.0), Temperature::from_c(12.0),
      "Best 8-10 C, heavy losses at 12 C (Gunnes 1979); alevins died most at 12 C of 6, 10 and 12 (Brannas 1988)"};
  return {
      .key = "atlantic_salmon",
      .common_name = "Atlantic salmon",
      .scientific_name = "Salmo salar",
      .aliases = {},
      .models = {{"crisp1981", Stage::hatch, CrispPower{-2.6562, -11.0, 5.1908}, Temperature::from_c(0.2),
                  Temperature::from_c(12.0), "Crisp 1981, equation 1b (constants from memory)"}},
      .green_egg = {Temperature::from_c(4.0), Temperature::from_c(6.0), Temperature::from_c(10.0),
                    Temperature::from_c(12.0),
                    "Over 20 % lost when started below 4 C, best near 6 C to eyeing (Peterson et al. 1977); best 8-10 "
                    "C, heavy losses at 12 C (Gunnes 1979)"},
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Raised to 12-14 C at first feeding on farms (egg producer's report, 2008); outer limits are common "
              "practice"},
      .swim_up_weight = {Mass::from_g(0.12), Mass::from_g(0.16), Mass::from_g(0.195), Support::assumed},
      .swim_up_weight_source = "0.12-0.195 g (Srivastava 1991; Kazakov 1981; Van Leeuwen 2016)",
      // 0.64 and 1.14 worked back from Refstie 1976 and McCarthy 2003.
      .growth_coefficient = {0.6, 0.9, 1.2, Support::assumed},
  };
}

}  // namespace redd::biology::species
