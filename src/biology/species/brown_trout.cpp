// Brown trout. Default: Crisp's power law, which agrees with the handbook rows and with Ojanguren & Brana within 9 %.

#include "biology/species.h"

namespace redd::biology::species {

SpeciesProfile brown_trout() {
  const ThermalBand egg = {
      Temperature::from_c(3.0), Temperature::from_c(6.0), Temperature::from_c(9.0), Temperature::from_c(11.0),
      "Best 6-8 C in a Belgian stock, 55 % at 10 C and 1 % at 12 C (Realis-Doyelle et al. 2016), best 8-10 C in a "
      "Spanish one (Ojanguren & Brana 2003), 21 % at 12.5 C (Altan & Engin 2022)"};
  return {
      .key = "brown_trout",
      .common_name = "brown trout",
      .scientific_name = "Salmo trutta",
      .aliases = {},
      .models = {{"crisp1981", Stage::hatch, CrispPower{-13.9306, -80.0, 28.8392}, Temperature::from_c(1.0),
                  Temperature::from_c(12.0), "Crisp 1981, equation 1b (constants from memory)"}},
      .green_egg = egg,
      .eyed_egg = egg,
      .alevin = egg,
      .fry = {Temperature::from_c(3.0), Temperature::from_c(8.0), Temperature::from_c(14.0), Temperature::from_c(16.0),
              "Half of brown trout juveniles died at 20 C, of rainbow at 25 C, within 14 d (Huysman et al. 2020); the "
              "limits below that are common practice"},
      .swim_up_weight = {Mass::from_g(0.1), Mass::from_g(0.15), Mass::from_g(0.2), Support::assumed},
      .swim_up_weight_source = "Altan & Engin 2022: 0.15 g; the interval is an assumption",
      .condition = 1.122,
  };
}

}  // namespace redd::biology::species
