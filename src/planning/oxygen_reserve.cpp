#include "planning/oxygen_reserve.h"

#include <algorithm>

#include "chemistry/oxygen.h"
#include "planning/fry_mass.h"

namespace redd::planning {
namespace {

constexpr double disturbed = 2.5, usual_disturbed = 2.0;  // stress and bacteria: common practice, no source (2-3 times)

OxygenConc full_at(double elevation_m, Temperature water) { return chemistry::oxygen_saturation(water, chemistry::pressure_mmhg_at_elevation(elevation_m)); }

}  // namespace

ReserveCase reserve_case(const records::SeasonSetup& season, std::span<const records::Record> records, const inference::Belief& belief, const HeatView& heat, Instant now) {
  const auto& forecast = belief.brood.forecast;
  ReserveCase at{.water = heat.water, .warmed = std::max(heat.water, std::min(heat.rooms.warmest, heat.limits.red_above)), .start = oxygen_at_first(season, belief, heat.water)};
  at.life = life_of(belief);
  at.count = count_of(season, belief);
  at.fry_g = fry_mass_g(belief, inference::growth_belief(records, belief, {}, now), forecast ? forecast->today : local_day({}, now));
  at.hatched_fraction = hatched_fraction(belief);
  at.elevation_m = season.elevation_m;
  at.volume_l = std::max(1.0, season.volume.l());
  const auto& faces = heat.model.faces;
  if (!faces.empty() && faces.back().area_m2 > 0.0) at.depth_m = at.volume_l / 1000.0 / faces.back().area_m2;
  return at;
}

Estimate<OxygenConc> oxygen_at_first(const records::SeasonSetup& season, const inference::Belief& belief, Temperature water) {
  const OxygenConc full = full_at(season.elevation_m, water);
  const auto part = OxygenConc::from_mg_o2_per_l(0.9 * full.mg_o2_per_l());
  const auto* read = belief.find(inference::Quantity::oxygen);
  if (!read || inference::is_stale(*read)) return {part, full, full, Support::assumed};
  const auto at = [](double mg_per_l) { return OxygenConc::from_mg_o2_per_l(std::max(0.0, mg_per_l)); };
  return {std::min(part, at(read->value.low)), std::min(full, at(read->value.mid)), std::min(full, at(read->value.high)), Support::measured};
}

Estimate<double> use_at_rest_mg_o2_per_h(const ReserveCase& at, Temperature water) { return oxygen_use_mg_o2_per_h(at.life, at.count, at.fry_g, at.hatched_fraction, water); }

HoldSpan basket_reserve(const ReserveCase& at, OxygenConc limit) {
  const auto use = use_at_rest_mg_o2_per_h(at, at.water);
  const OxygenConc full = full_at(at.elevation_m, at.water);
  const auto hours = [&](OxygenConc from, double mg_per_h) { return time_to({from, full, mg_per_h / basket_l}, limit); };
  return {hours(at.start.low, disturbed * use.high), hours(at.start.mid, use.mid), hours(at.start.high, 0.5 * use.low)};
}

HoldSpan tank_reserve(const ReserveCase& at, OxygenConc limit) {
  const double litres = std::max(1.0, at.volume_l);
  const auto hours = [&](OxygenConc from, Temperature water, double mg_per_h, double transfer) {
    return time_to({from, full_at(at.elevation_m, water), mg_per_h / litres, transfer, at.depth_m}, limit);
  };
  const auto cold = use_at_rest_mg_o2_per_h(at, at.water), warm = use_at_rest_mg_o2_per_h(at, at.warmed);
  return {hours(std::min(at.start.low, full_at(at.elevation_m, at.warmed)), at.warmed, disturbed * warm.high, 0.0),
          hours(at.start.mid, at.water, usual_disturbed * cold.mid, poor_surface_m_per_h), hours(at.start.high, at.water, cold.low, quiet_surface_m_per_h)};
}

bool may_be_told(const HoldSpan& span) { return span.soonest && *span.soonest <= longest_told; }

double hatched_fraction(const inference::Belief& belief) {
  const auto& forecast = belief.brood.forecast;
  return forecast ? forecast->batch_fraction[2] + forecast->batch_fraction[3] : 0.0;
}

}  // namespace redd::planning
