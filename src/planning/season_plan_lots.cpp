#include "planning/season_plan_lots.h"

#include <algorithm>
#include <cmath>

#include "numerics/normal.h"

namespace redd::planning {

Result<std::vector<Lot>> planning_lots(const biology::SpeciesProfile& species, const biology::ModelChoice& choice,
                                       std::span<const biology::LotToGo> lots, Temperature typical, TemperatureChange doubt_to_come,
                                       double release_c_days, double release_log_sd) {
  const auto hatch = biology::model_for(species, biology::Stage::hatch, choice.hatch);
  const auto swim_up = biology::model_for(species, biology::Stage::swim_up, choice.swim_up);
  if (!hatch) return hatch.problems();
  if (!swim_up) return swim_up.problems();
  const auto factor = [&](const biology::DevelopmentModel& model, double shift_sd) {
    const double usual = biology::progress_per_day(model, typical);
    const double shifted = biology::progress_per_day(model, typical + shift_sd * doubt_to_come);
    return usual > 0.0 && shifted > 0.0 ? shifted / usual : 1.0;
  };
  std::vector<Lot> result;
  // Spread through the lots by the golden ratio, so that growth is independent of the rest without chance.
  double place = 0.5;
  for (const biology::LotToGo& each : lots) {
    const double of_hatch = factor(*hatch, each.shift_to_come_sd), of_swim_up = factor(*swim_up, each.shift_to_come_sd);
    const auto& h = each.stages[1];
    const auto& s = each.stages[2];
    place += 0.6180339887498949;
    place -= std::floor(place);
    const double growth = std::exp(release_log_sd * numerics::normal_quantile(std::clamp(place, 1e-6, 1.0 - 1e-6)));
    result.push_back({each.weight, {h.need / of_hatch, h.done / of_hatch}, {s.need / of_swim_up, s.done / of_swim_up}, release_c_days * growth});
  }
  return result;
}

double growth_c_days(Mass from, Mass to, double growth_coefficient) {
  return std::max(0.0, 1000.0 * (std::cbrt(to.g()) - std::cbrt(from.g())) / growth_coefficient);
}

}  // namespace redd::planning
