// Chinook salmon. Default: the log-inverse curves of Beacham & Murray for hatch and swim-up. Crisp's hatch curve agrees
// within 3 % at 4-14 C; the two exponential curves of Rombough fall too fast above 10 C (66-69 d at 12 C against 76)
// and stay as cross-checks.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile chinook() {
  const ThermalBand egg = {Temperature::from_c(3.0), Temperature::from_c(6.0), Temperature::from_c(10.0),
                           Temperature::from_c(12.0),
                           "Working range 4-12 C, best 8 C (USFWS Dworshak 2011); safe to 13.3 C, all lost at 16.7 C "
                           "(USFWS figures in the press)"};
  return {
      .key = "chinook",
      .common_name = "chinook salmon",
      .scientific_name = "Oncorhynchus tshawytscha",
      .aliases = {},
      .models = {{"beacham1990", Stage::hatch, LogInverseBelehradek{7.192, -1.292, -2.056}, Temperature::from_c(2.0),
                  Temperature::from_c(15.0),
                  "Beacham & Murray 1990, Table A.2, model 4 (constants as transcribed by a third party)"},
                 {"beacham1990", Stage::swim_up, LogInverseBelehradek{10.404, -2.043, -7.575}, Temperature::from_c(2.0),
                  Temperature::from_c(15.0),
                  "Beacham & Murray 1990, Table A.3, model 4 (constants as transcribed by a third party); greatest "
                  "alevin wet weight"},
                 {"crisp1981", Stage::hatch, CrispPower{-1.8126, -6.0, 3.9166}, Temperature::from_c(3.0),
                  Temperature::from_c(14.0), "Crisp 1981, equation 1b (constants from memory)"},
                 {"rombough1985", Stage::swim_up, ExponentialWithEggWeight{5.88, -0.152, 0.000513, 300.0},
                  Temperature::from_c(5.0), Temperature::from_c(12.5),
                  "Rombough 1985, abstract: greatest alevin wet weight; egg weight assumed 300 mg, the middle of the "
                  "tested 163-437"},
                 {"rombough1985_ponding", Stage::swim_up, ExponentialInTemperature{5.99, -0.15},
                  Temperature::from_c(4.0), Temperature::from_c(13.0),
                  "Rombough 1985, abstract: ponding dates of 17 hatcheries"}},
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Young Pacific salmon preferred 12-14 C and died within a week at 25 C, chilled ones within days at 0 C "
              "(Brett 1952); the inner limits and 16 C are common practice"},
      .swim_up_weight = {Mass::from_g(0.4), Mass::from_g(0.515), Mass::from_g(0.65), Support::assumed},
      .swim_up_weight_source =
          "Beacham & Murray 1990: 0.515 g from 345 mg eggs; the interval is an assumption, since fry follow egg weight",
      .condition = 0.819,
  };
}

}  // namespace redd::biology::species
