#include "planning/evaporation.h"

#include <algorithm>

#include "heat/moist_air.h"

namespace redd::planning {
namespace {

std::optional<Evaporation> by_top_ups(std::span<const records::Record> log, Instant now) {
  constexpr double looked_back_days = 28.0, least_span_days = 3.0, within = 0.3;  // Assumed: filled to the same mark each time, to 30 % over some weeks
  Evaporation e;
  std::optional<Instant> first, last;
  double litres = 0;
  for (const auto& record : log) {
    const auto* top_up = std::get_if<records::TopUp>(&record.entry.body);
    if (!top_up || record.entry.at > now || days_between(record.entry.at, now).count() > looked_back_days) continue;
    if (first) litres += top_up->volume.l();  // the first one replaces what was lost before it
    else first = record.entry.at;
    last = record.entry.at;
    e.records.push_back(record.id);
  }
  if (e.records.size() < 2 || days_between(*first, *last).count() < least_span_days) return std::nullopt;
  const double rate = litres / days_between(*first, *last).count();
  e.l_per_day = {(1.0 - within) * rate, rate, (1.0 + within) * rate, Support::measured};
  e.basis = Evaporation::Basis::top_ups;
  e.rests_on = {"By {0} top-ups logged in the last four weeks.", {Number{static_cast<long long>(e.records.size())}}};
  return e;
}

double lost_l_per_day(double area_m2, Temperature water, Temperature room, double humidity_fraction) {
  return 24.0 * area_m2 * std::max(0.0, heat::surface_exchange(water, {room, humidity_fraction}).evaporation_kg_per_m2_h);
}

}  // namespace

Evaporation evaporation_of(const records::SeasonSetup& season, std::span<const records::Record> log, const inference::Belief& belief, Instant now) {
  if (auto found = by_top_ups(log, now)) return *found;
  constexpr double dry_fraction = 0.3, moist_fraction = 0.6, through_lid = 0.1, depth_m = 0.5, usual_room_c = 20.0;
  const auto* build = records::find_tank_build(log);
  const bool measured = build && build->length_cm && build->width_cm;
  const double area_m2 = measured ? 1e-4 * *build->length_cm * *build->width_cm : 1e-3 * season.volume.l() / depth_m;
  const Temperature room = build && build->room_day ? *build->room_day : Temperature::from_c(usual_room_c);
  const Temperature water = belief.temperature.latest.value_or(season.target);
  const double dry = lost_l_per_day(area_m2, water, room, dry_fraction), moist = lost_l_per_day(area_m2, water, room, moist_fraction);
  const auto lid = build ? build->lid : records::TankBuild::Lid::unknown;
  Evaporation e;
  if (lid == records::TankBuild::Lid::none) {
    e.l_per_day = {moist, 0.5 * (dry + moist), dry, Support::inferred};
    e.rests_on = {"By the open surface in a room of 30 to 60 % relative humidity (assumed); top-ups that are logged would say it better."};
  } else if (lid == records::TankBuild::Lid::unknown) {
    e.l_per_day = {through_lid * moist, 0.3 * dry, dry, Support::assumed};
    e.rests_on = {"Nobody said whether the tank has a lid: from a lidded tank to an open one in dry air. Log top-ups, and it is known."};
  } else {
    e.l_per_day = {through_lid * moist, 0.5 * through_lid * (dry + moist), 2.0 * through_lid * dry, Support::inferred};
    e.rests_on = {"By the surface under a lid, which keeps about nine tenths in (assumed); top-ups that are logged would say it better."};
  }
  return e;
}

}  // namespace redd::planning
