// Pink salmon, odd-year line. Default: the log-inverse curves of Beacham & Murray for this line. The two lines never
// meet and differ by a few percent.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile pink_odd() {
  const ThermalBand egg = {Temperature::from_c(4.0), Temperature::from_c(6.0), Temperature::from_c(10.0),
                           Temperature::from_c(12.0),
                           "No survival to hatch at 2 C (Murray & McPhail 1988); 2 or 4 C within a regime lowers egg "
                           "survival (Murray & Beacham 1986)"};
  return {
      .key = "pink_odd",
      .common_name = "pink salmon, odd-year line",
      .scientific_name = "Oncorhynchus gorbuscha",
      .aliases = {},
      .models = {{"beacham1990", Stage::hatch, LogInverseBelehradek{7.962, -1.382, -5.942}, Temperature::from_c(4.0),
                  Temperature::from_c(14.0),
                  "Beacham & Murray 1990, Table A.2, model 4 (constants as transcribed by a third party)"},
                 {"beacham1990", Stage::swim_up, LogInverseBelehradek{6.233, -0.693, 0.153}, Temperature::from_c(4.0),
                  Temperature::from_c(14.0),
                  "Beacham & Murray 1990, Table A.3, model 4 (constants as transcribed by a third party); greatest "
                  "alevin wet weight"}},
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Young Pacific salmon preferred 12-14 C and died within a week at 25 C, chilled ones within days at 0 C "
              "(Brett 1952); the inner limits and 16 C are common practice"},
      .swim_up_weight = {Mass::from_g(0.18), Mass::from_g(0.23), Mass::from_g(0.27), Support::assumed},
      .swim_up_weight_source = "common hatchery value, from memory",
  };
}

}  // namespace redd::biology::species
