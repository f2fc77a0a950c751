#include "chemistry/dosing.h"

namespace redd::chemistry {

Mass sodium_bicarbonate_for(Volume volume, Alkalinity raise) {
  return Mass::from_mg(volume.l() * raise.meq_per_l() * bicarbonate_mg_per_meq);
}

Mass calcium_chloride_for(Volume volume, Hardness raise) {
  return Mass::from_mg(volume.l() * raise.meq_per_l() * calcium_chloride_mg_per_meq);
}

Mass magnesium_sulfate_for(Volume volume, Hardness raise) {
  return Mass::from_mg(volume.l() * raise.meq_per_l() * magnesium_sulfate_mg_per_meq);
}

Mass ammonium_chloride_for(Volume volume, NitrogenConc raise) {
  return Mass::from_mg(volume.l() * raise.mg_n_per_l() * ammonium_chloride_mg_per_mg_n);
}

Mass thiosulfate_for(Volume volume, double chlorine_mg_per_l) {
  return Mass::from_mg(volume.l() * chlorine_mg_per_l * thiosulfate_mg_per_mg_cl2);
}

NitrogenConc ammonia_released_by(double chloramine_mg_per_l) {
  return NitrogenConc::from_mg_n_per_l(chloramine_mg_per_l * chloramine_releases_mg_n_per_mg_cl2);
}

}  // namespace redd::chemistry
