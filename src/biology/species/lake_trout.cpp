// Lake trout. Default: the exponential through the handbook rows (sd 0.8 %). No observed hatch time of lake trout is
// held here, and swim-up as 1.7 of hatch is a rule read on Salmo and Oncorhynchus.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile lake_trout() {
  const ThermalBand egg = {
      Temperature::from_c(2.0), Temperature::from_c(4.0), Temperature::from_c(8.0), Temperature::from_c(11.0),
      "54 % reached 0.2 g chilled to 3.7-7.7 C, 18 % at 8-11 C (hatchery trial 1984-86, Seneca and Ontario strains)"};
  return {
      .key = "lake_trout",
      .common_name = "lake trout",
      .scientific_name = "Salvelinus namaycush",
      .aliases = {},
      .models = {{"embody1934", Stage::hatch, ExponentialInTemperature{5.323, -0.1437}, Temperature::from_c(1.7),
                  Temperature::from_c(10.0),
                  "Own fit of ln D to four rows of the trout egg table of Embody 1934 as reprinted by Leitritz & Lewis "
                  "1976 and Piper et al. 1982 (rows from memory); sd of ln D 0.008"},
                 {"embody1934_rows", Stage::hatch,
                  TableInLogDays{{{1.67, 162.0}, {4.44, 108.0}, {7.22, 72.0}, {10.0, 49.0}}}, Temperature::from_c(1.67),
                  Temperature::from_c(10.0),
                  "Straight lines in ln D between the rows of the trout egg table of Embody 1934 as reprinted by "
                  "Leitritz & Lewis 1976 and Piper et al. 1982 (rows from memory)"}},
      // Assumed: 0.10, since the curve rests on recalled rows alone.
      .lot_log_sd = 0.1,
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(13.0), Temperature::from_c(15.0),
              "Growth best at 12.5 C, preferred 10.1 C (Edsall & Cleland 2000); outer limits: assumption"},
      .swim_up_weight = {Mass::from_g(0.08), Mass::from_g(0.1), Mass::from_g(0.13), Support::assumed},
      .swim_up_weight_source = "common hatchery value, from memory",
      .condition = 0.754,
  };
}

}  // namespace redd::biology::species
