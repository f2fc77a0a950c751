// Rainbow trout. Default: Crisp's power law. Velsen's compilation came 2 % later on average with a sd of 8 %. Above 13
// C Crisp predicts too early and the curve fitted to that compilation is the better choice.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile rainbow_trout() {
  const ThermalBand egg = {Temperature::from_c(3.0), Temperature::from_c(7.0), Temperature::from_c(10.0),
                           Temperature::from_c(12.0),
                           "Lowest mortality at 7-10 C, 3 and 15 C near the thresholds (Kwain 1975); 10 C best of 2, "
                           "5, 10 and 14 (Weber et al. 2016); red above 12 C keeps a margin: assumption"};
  return {
      .key = "rainbow_trout",
      .common_name = "rainbow trout",
      .scientific_name = "Oncorhynchus mykiss",
      .aliases = {"steelhead"},
      .models = {{"crisp1981", Stage::hatch, CrispPower{-2.0961, -6.0, 4.0313}, Temperature::from_c(3.0),
                  Temperature::from_c(13.0), "Crisp 1981, equation 1b (constants from memory)"},
                 {"velsen1987", Stage::hatch, LogInverseBelehradek{10.083, -2.251, -8.53}, Temperature::from_c(2.0),
                  Temperature::from_c(15.5),
                  "Own least-squares fit of ln D to 42 median hatch times compiled by Velsen 1987; sd of ln D 0.069"}},
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Half of brown trout juveniles died at 20 C, of rainbow at 25 C, within 14 d (Huysman et al. 2020); the "
              "limits below that are common practice"},
      .swim_up_weight = {Mass::from_g(0.1), Mass::from_g(0.12), Mass::from_g(0.18), Support::assumed},
      .swim_up_weight_source =
          "0.10-0.13 g in six tanks (Sadoul et al.), 0.167 g from large eggs (From & Rasmussen 1991); steelhead nearer "
          "0.18 g (memory)",
      // 1.21-1.86 worked back from four series at 8.5 and 13.6 C (Sadoul et al., Yanik et al. 2002, Davidson et al. 2014).
      .growth_coefficient = {0.9, 1.3, 1.9, Support::assumed},
      .condition = 1.122,
  };
}

}  // namespace redd::biology::species
