#include "planning/detail/what_if_heat.h"

#include <algorithm>
#include <cmath>

namespace redd::planning::detail {
namespace {

constexpr double seconds_a_day = 86400.0;
constexpr double set_point_c_per_day = 1.0;  // as planned elsewhere: no faster than a degree a day

/// Straight between the nodes of the table, its ends held.
double damp_w(const WhatIfHeat& heat, double room_c, double water_c) {
  if (heat.damp_w.empty()) return 0.0;
  const auto place = [](const auto& nodes, double at) {
    const double step = nodes[1] - nodes[0];
    const double position = std::clamp((at - nodes.front()) / step, 0.0, static_cast<double>(nodes.size() - 1) - 1e-9);
    return std::pair(static_cast<std::size_t>(position), position - std::floor(position));
  };
  const auto [r, rest_r] = place(WhatIfHeat::damp_room_c, room_c);
  const auto [w, rest_w] = place(WhatIfHeat::damp_water_c, water_c);
  const auto at = [&](std::size_t i, std::size_t j) { return heat.damp_w[i * WhatIfHeat::damp_water_c.size() + j]; };
  return (1.0 - rest_r) * ((1.0 - rest_w) * at(r, w) + rest_w * at(r, w + 1)) + rest_r * ((1.0 - rest_w) * at(r + 1, w) + rest_w * at(r + 1, w + 1));
}

/// Where one world settles in a room, chilled and not, and how much of the way there a day goes.
struct Ends {
  double coldest_c, warmest_c, to_coldest, to_warmest;
};

Ends ends_in(const WhatIfHeat& heat, const heat::HeatWorld& world, double room_c, double water_c) {
  const Temperature room = Temperature::from_c(room_c);
  heat::TankHeat tank{HeatCapacity::from_j_per_k(heat.capacity_j_per_k), world.conductance};
  tank.pump = world.own_heat;
  tank.damp = Power::from_w(damp_w(heat, room_c, water_c));
  const double ua = world.conductance.w_per_k();
  const auto part = [&](double loss_w_per_k) { return 1.0 - std::exp(-seconds_a_day * loss_w_per_k / heat.capacity_j_per_k); };
  Ends ends{-273.0, 0.0, 1.0, part(ua)};
  // Damp is never counted on to keep the water warm.
  heat::TankHeat dry = tank;
  dry.damp = Power::from_w(0.0);
  ends.warmest_c = heat::settles_at(heat.plate ? tank : dry, std::nullopt, room).c() + heat.heater_w / ua;
  if (!heat.plate) return ends;
  heat::Chiller chiller = *heat.plate;
  chiller.rated = world.chiller_factor * chiller.rated;
  const Temperature settles = heat::settles_at(tank, chiller, room);
  ends.coldest_c = settles.c();
  ends.to_coldest = part(ua + chiller.water_slope_per_c * heat::cooling_power(chiller, settles, room).w());
  return ends;
}

/// The ends over the rooms of all days, straight between a few of them.
class EndsByRoom {
 public:
  EndsByRoom(const WhatIfHeat& heat, const heat::HeatWorld& world, double low_c, double high_c, double water_c) : low_c_(low_c), step_c_(std::max(1e-3, (high_c - low_c) / (nodes - 1))) {
    for (int i = 0; i < nodes; ++i) at_.push_back(ends_in(heat, world, low_c_ + step_c_ * i, water_c));
  }
  Ends at(double room_c) const {
    const double position = std::clamp((room_c - low_c_) / step_c_, 0.0, nodes - 1.0 - 1e-9);
    const auto i = static_cast<std::size_t>(position);
    const double rest = position - static_cast<double>(i);
    const auto between = [&](double Ends::*member) { return (1.0 - rest) * at_[i].*member + rest * at_[i + 1].*member; };
    return {between(&Ends::coldest_c), between(&Ends::warmest_c), between(&Ends::to_coldest), between(&Ends::to_warmest)};
  }

 private:
  static constexpr int nodes = 4;
  double low_c_, step_c_;
  std::vector<Ends> at_{};
};

}  // namespace

std::vector<double> wished_path(const WhatIfHeat& heat, const WhatIfSliders& sliders) {
  std::vector<double> wished = heat.plan_c;
  const double change = sliders.set_point_warmer_c;
  for (std::size_t i = 0; i < wished.size(); ++i) wished[i] += std::copysign(std::min(std::abs(change), set_point_c_per_day * static_cast<double>(i)), change);
  return wished;
}

WorldPaths temperature_paths(const WhatIfHeat& heat, const WhatIfSliders& sliders) {
  const std::vector<double> wished = wished_path(heat, sliders);
  const auto [coldest, warmest] = std::ranges::minmax(heat.room_c);
  double mean_c = 0.0;
  for (const double c : wished) mean_c += c / static_cast<double>(wished.size());
  WorldPaths paths;
  paths.reserve(heat.worlds.size());
  for (const heat::HeatWorld& world : heat.worlds) {
    const EndsByRoom ends(heat, world, coldest + sliders.room_warmer_c, warmest + sliders.room_warmer_c, mean_c);
    std::vector<double> path{wished.front()};
    for (std::size_t i = 0; i + 1 < wished.size(); ++i) {
      Ends day = ends.at(heat.room_c[i] + sliders.room_warmer_c);
      // What the log shows held can be held again; as a plan takes it too (day_abilities()).
      if (heat.held) {
        const double warmer = std::max(0.0, heat.room_warmest_c[i] + sliders.room_warmer_c - heat.held->room.c());
        day.coldest_c = std::min(day.coldest_c, heat.held->water.c() + held_within.c() + held_per_room_c * warmer);
      }
      const double now = path.back();
      const double floor_c = now + day.to_coldest * (day.coldest_c - now);
      double ceiling_c = now + day.to_warmest * (day.warmest_c - now);
      // A heater that is not on record is taken to be there where the plan is warmer than the room makes it.
      if (!heat.heater_known) ceiling_c = std::max(ceiling_c, wished[i + 1]);
      path.push_back(std::max(floor_c, std::min(wished[i + 1], ceiling_c)));
    }
    paths.push_back(std::move(path));
  }
  return paths;
}

}  // namespace redd::planning::detail
