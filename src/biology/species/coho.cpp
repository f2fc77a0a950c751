// Coho salmon. Default: the log-inverse curves of Beacham & Murray, the only published ones held here for coho.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile coho() {
  const ThermalBand egg = {Temperature::from_c(2.0), Temperature::from_c(4.0), Temperature::from_c(10.0),
                           Temperature::from_c(11.0),
                           "1.3-12.4 C tolerated, nearly all lost at 14 C (Tang et al. 1987); best survival at 4-5 C "
                           "(Murray et al. 1990); red above 11 C keeps a margin of 1.4 C: assumption"};
  return {
      .key = "coho",
      .common_name = "coho salmon",
      .scientific_name = "Oncorhynchus kisutch",
      .aliases = {},
      .models = {{"beacham1990", Stage::hatch, LogInverseBelehradek{7.889, -1.536, -4.085}, Temperature::from_c(1.5),
                  Temperature::from_c(13.0),
                  "Beacham & Murray 1990, Table A.2, model 4 (constants as transcribed by a third party)"},
                 {"beacham1990", Stage::swim_up, LogInverseBelehradek{7.018, -1.069, -2.062}, Temperature::from_c(1.5),
                  Temperature::from_c(13.0),
                  "Beacham & Murray 1990, Table A.3, model 4 (constants as transcribed by a third party); greatest "
                  "alevin wet weight"}},
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Young Pacific salmon preferred 12-14 C and died within a week at 25 C, chilled ones within days at 0 C "
              "(Brett 1952); the inner limits and 16 C are common practice"},
      .swim_up_weight = {Mass::from_g(0.25), Mass::from_g(0.314), Mass::from_g(0.38), Support::assumed},
      .swim_up_weight_source = "Beacham, Withler & Morley 1985: 0.314 g; the interval is an assumption",
      .condition = 1.034,
  };
}

}  // namespace redd::biology::species
