// Chum salmon. Default: the log-inverse curves of Beacham & Murray, the only published ones held here for chum.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile chum() {
  const ThermalBand egg = {
      Temperature::from_c(4.0), Temperature::from_c(6.0), Temperature::from_c(10.0), Temperature::from_c(12.0),
      "No survival to hatch at 2 C (Murray & McPhail 1988); best at 8 C of 4, 8 and 12 (Beacham & Murray 1985)"};
  return {
      .key = "chum",
      .common_name = "chum salmon",
      .scientific_name = "Oncorhynchus keta",
      .aliases = {},
      .models = {{"beacham1990", Stage::hatch, LogInverseBelehradek{7.049, -1.209, -2.407}, Temperature::from_c(4.0),
                  Temperature::from_c(14.0),
                  "Beacham & Murray 1990, Table A.2, model 4 (constants as transcribed by a third party)"},
                 {"beacham1990", Stage::swim_up, LogInverseBelehradek{6.307, -0.764, -0.039}, Temperature::from_c(4.0),
                  Temperature::from_c(14.0),
                  "Beacham & Murray 1990, Table A.3, model 4 (constants as transcribed by a third party); greatest "
                  "alevin wet weight"}},
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Young Pacific salmon preferred 12-14 C and died within a week at 25 C, chilled ones within days at 0 C "
              "(Brett 1952); the inner limits and 16 C are common practice"},
      .swim_up_weight = {Mass::from_g(0.3), Mass::from_g(0.35), Mass::from_g(0.45), Support::assumed},
      .swim_up_weight_source = "common hatchery value, from memory",
  };
}

}  // namespace redd::biology::species
