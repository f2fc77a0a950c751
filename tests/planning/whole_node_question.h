#pragma once
// Small random questions whose daily progress is a whole number of nodes at every set-point. Then the search's linear interpolation is exact, and a
// general-purpose solver of mixed-integer programs can be asked the very same question (tests/oracles/glpk_season_plan.cpp).

#include <cmath>
#include <vector>

#include "numerics/random.h"
#include "planning/detail/season_plan_search.h"
#include "planning/invented_question.h"

namespace redd::planning::testing {

struct WholeNodeQuestion {
  SeasonQuestion question{.species = *biology::find_species("rainbow_trout")};
  detail::ProgressNodes nodes;
  bool two_clocks = false;
  std::vector<int> hatch_nodes, swim_up_nodes;  ///< a day's progress by set-point, coldest first
};

/// The same seed gives the same question. Odd seeds have two clocks.
inline WholeNodeQuestion whole_node_question(std::uint64_t seed) {
  constexpr int per_unit = 64;
  numerics::RandomStream stream(seed, 7);
  WholeNodeQuestion w;
  w.two_clocks = seed % 2 == 1;
  SeasonQuestion& q = w.question;
  const int temperatures = 4 + static_cast<int>(stream.index_below(2)), days = 8 + static_cast<int>(stream.index_below(4));
  const double coldest_c = 5.0;
  biology::TableInLogDays hatch, swim_up;
  for (int t = 0; t < temperatures; ++t) {
    // Two clocks: even steps of hatch, so that half of them plus a whole deviation is whole.
    const int h = 2 * (1 + t / 2 + (t % 2)), s = h / 2 + (w.two_clocks ? static_cast<int>(stream.index_below(2)) : 0);
    w.hatch_nodes.push_back(h);
    w.swim_up_nodes.push_back(s);
    hatch.rows.push_back({coldest_c + t, static_cast<double>(per_unit) / h});
    swim_up.rows.push_back({coldest_c + t, static_cast<double>(per_unit) / s});
  }
  q.species.models = {{"invented", biology::Stage::hatch, hatch, Temperature::from_c(0.0), Temperature::from_c(20.0), "invented"},
                      {"invented", biology::Stage::swim_up, swim_up, Temperature::from_c(0.0), Temperature::from_c(20.0), "invented"}};
  const auto limits = [&](double low, double high) {
    const double good_low = low + stream.uniform_between(0.0, 2.0), good_high = std::max(good_low, high - stream.uniform_between(0.0, 2.0));
    return biology::ThermalBand{Temperature::from_c(low), Temperature::from_c(std::min(good_low, high)), Temperature::from_c(std::min(good_high, high)), Temperature::from_c(high), "invented"};
  };
  const double warmest_c = coldest_c + temperatures - 1;
  q.species.green_egg = q.species.eyed_egg = limits(coldest_c, warmest_c - stream.index_below(2));
  q.species.alevin = limits(0.0, 20.0);
  q.species.fry = limits(coldest_c + stream.index_below(2), warmest_c);
  double room = 18.0;
  for (int d = 0; d < days; ++d) {
    room += stream.normal(0.0, 1.0);
    const double held = stream.chance(0.2) ? coldest_c + 1.0 : coldest_c;
    q.days.push_back({first_day + std::chrono::days(d), Temperature::from_c(held), Temperature::from_c(warmest_c), Temperature::from_c(std::max(room, warmest_c)), stream.uniform_between(0.0, 2.0)});
  }
  q.water_now = Temperature::from_c(coldest_c + 1.0 + stream.index_below(static_cast<std::uint32_t>(temperatures - 2)));
  q.limits.cooling.per_day = TemperatureChange::from_c(1.0 + stream.index_below(2));
  q.limits.warming.per_day = TemperatureChange::from_c(1.0 + stream.index_below(3));
  q.animal_log_sd = 0.03;
  q.lots = plain_lots(12, stream.uniform_between(0.6, 0.75), stream.uniform_between(0.75, 0.85), stream.uniform_between(0.03, 0.1));
  for (int wish = 0; wish < 3; ++wish) {
    Wish made{"wish_" + std::to_string(wish), "invented", wish == 1 ? PlanStage::swim_up : PlanStage::hatch, {}, stream.uniform_between(0.3, 1.5)};
    for (int d = 0; d < days; ++d) made.good.push_back(stream.chance(0.5));
    q.wishes.push_back(made);
  }
  q.costs = {.change = stream.uniform_between(0.0, 0.05), .amber_c_day = stream.uniform_between(0.0, 0.02), .kwh = stream.uniform_between(0.0, 0.002)};
  q.precision = {.step_c = 1.0, .nodes = per_unit, .deviation_nodes = 3, .blur = 0.02};
  const double node = 1.0 / per_unit;
  w.nodes = {.hatch_step = node, .swim_up_step = node, .one_clock = !w.two_clocks, .ratio = 0.5};
  if (w.two_clocks) w.nodes.deviations = days + 2, w.nodes.deviation_low = -node, w.nodes.deviation_step = node;
  return w;
}

}  // namespace redd::planning::testing
