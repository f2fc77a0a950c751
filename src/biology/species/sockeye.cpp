// Sockeye salmon. Default: the log-inverse curves of Beacham & Murray. The printed hatch row has b and c exchanged; the
// transcriber put them back, and only that order gives days like those of model 2 (within 5 % at 4-12 C).

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile sockeye() {
  const ThermalBand egg = {Temperature::from_c(2.0), Temperature::from_c(4.0), Temperature::from_c(10.0),
                           Temperature::from_c(12.0),
                           "Survives 2 C well, 14 C badly (Murray & McPhail 1988); studied at 2-15 C (Beacham & Murray "
                           "1989); inner limits are our reading"};
  return {
      .key = "sockeye",
      .common_name = "sockeye salmon",
      .scientific_name = "Oncorhynchus nerka",
      .aliases = {},
      .models = {{"beacham1990", Stage::hatch, LogInverseBelehradek{8.734, -1.589, -7.067}, Temperature::from_c(2.0),
                  Temperature::from_c(13.0),
                  "Beacham & Murray 1990, Table A.2, model 4 (constants as transcribed by a third party); b and c "
                  "exchanged against the print"},
                 {"beacham1990", Stage::swim_up, LogInverseBelehradek{7.647, -1.134, -3.514}, Temperature::from_c(2.0),
                  Temperature::from_c(13.0),
                  "Beacham & Murray 1990, Table A.3, model 4 (constants as transcribed by a third party); greatest "
                  "alevin wet weight"},
                 {"beacham1990_thermal_sum", Stage::hatch, ThermalSumAboveThreshold{6.727, -2.394},
                  Temperature::from_c(2.0), Temperature::from_c(13.0),
                  "Beacham & Murray 1990, model 2, modified thermal sums (constants from memory)"}},
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Young Pacific salmon preferred 12-14 C and died within a week at 25 C, chilled ones within days at 0 C "
              "(Brett 1952); the inner limits and 16 C are common practice"},
      .swim_up_weight = {Mass::from_g(0.12), Mass::from_g(0.15), Mass::from_g(0.18), Support::assumed},
      .swim_up_weight_source = "common hatchery value, from memory",
  };
}

}  // namespace redd::biology::species
