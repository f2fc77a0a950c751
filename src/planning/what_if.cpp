#include "planning/what_if.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "chemistry/oxygen.h"
#include "planning/detail/log_estimates.h"
#include "planning/detail/what_if_dates.h"
#include "planning/detail/what_if_heat.h"

namespace redd::planning {
namespace {

using detail::WorldPaths;
using std::chrono::days;
using Row = std::vector<double>;  // one value a tank

constexpr std::size_t groups = 8, tanks_each = what_if_tanks / groups, worlds_each = what_if_worlds / groups;
constexpr std::size_t day_count = static_cast<std::size_t>(what_if_days) + 1;

struct Dates {
  WhatIfWindow hatch{}, swim_up{};
  /// The brood with its dates moved as those of the lots moved.
  std::optional<inference::BroodCourse> course{};
};

Dates dates_with(const WhatIfBase& base, const WorldPaths& paths) {
  Dates dates;
  dates.course = base.brood;
  if (!base.dates) return dates;
  detail::foretell_dates(*base.dates, paths, dates.hatch, dates.swim_up);
  if (!dates.course) return dates;
  // Where a date left the days looked at, it is taken to have moved to their end.
  const auto moved = [&](const WhatIfWindow& now, const WhatIfWindow& planned, Date& date) {
    if (now.past || !planned.mid) return;
    date += days(static_cast<long>(std::lround(now.mid.value_or(static_cast<double>(base.heat.plan_c.size())) - *planned.mid)));
  };
  moved(dates.hatch, base.as_planned.hatch, dates.course->hatch);
  moved(dates.swim_up, base.as_planned.swim_up, dates.course->swim_up);
  dates.course->swim_up = std::max(dates.course->swim_up, dates.course->hatch + days(1));
  return dates;
}

/// The animals of each day.
std::vector<tank::Brood> broods_of(const WhatIfBase& base, const Dates& dates, const WhatIfSliders& sliders) {
  std::vector<tank::Brood> all(day_count);
  if (!dates.course) return all;
  double fry_g = base.fry_now_g;
  for (std::size_t i = 0; i < day_count; ++i) {
    const Date day = base.today + days(static_cast<int>(i));
    if (day < dates.course->received) continue;
    all[i] = dates.course->on(day, base.alive * sliders.animals_factor, fry_g, std::nullopt);
    all[i].feed_g_per_day *= sliders.food_factor;
    if (all[i].stage == tank::Stage::fry && all[i].count > 0.0) fry_g += inference::grown_by_food_g(all[i]);
  }
  return all;
}

/// The season that one group of tanks has: its water, what the animals load it with, and the doses that are planned.
inference::FilterCase course_of(const WhatIfBase& base, const std::vector<double>& water_c, const std::vector<tank::Brood>& broods) {
  inference::FilterCase one;
  one.now_day = base.now_day;
  one.season.volume_l = base.volume_l;
  one.season.forcing.first_day = std::floor(base.now_day);
  for (std::size_t i = 0; i < day_count; ++i) {
    tank::DayForcing day;
    day.temperature_c = water_c[i];
    day.air_co2_uatm = base.air_co2_uatm;
    day.air_pressure_mmhg = base.air_pressure_mmhg;
    if (broods[i].count > 0.0) tank::add_brood(day, broods[i]);
    one.season.forcing.days.push_back(day);
  }
  for (const auto& [at_day, dose] : base.doses) one.season.events.push_back({at_day, dose});
  return one;
}

WaterTanks tanks_of(const WhatIfBase& base, std::size_t group) {
  const std::size_t first = group * tanks_each;
  WaterTanks part{tank::Ensemble(tanks_each, base.volume_l)};
  part.at_day = base.now_day;
  part.basis = base.tanks.basis;
  part.ph_read = base.tanks.ph_read;
  part.hardness_known = base.tanks.hardness_known;
  for (std::size_t i = 0; i < tanks_each; ++i) part.tanks.copy_particle(i, base.tanks.tanks, first + i);
  const auto slice = [&](const std::vector<double>& all) { return std::vector<double>(all.begin() + static_cast<std::ptrdiff_t>(first), all.begin() + static_cast<std::ptrdiff_t>(first + tanks_each)); };
  part.ph_offset = slice(base.tanks.ph_offset);
  part.temperature_offset_c = slice(base.tanks.temperature_offset_c);
  part.vacuum_share = slice(base.tanks.vacuum_share);
  part.evaporation_l_per_day = slice(base.tanks.evaporation_l_per_day);
  return part;
}

/// Everything of every tank and day, and what is made of it.
class Telling {
 public:
  Telling(const WhatIfBase& base, const WhatIfSliders& sliders) : base_(base) { told_.sliders = sliders; }

  WhatIf told() {
    const WorldPaths paths = detail::temperature_paths(base_.heat, told_.sliders);
    Dates dates = dates_with(base_, paths);
    tell_temperature(paths);
    if (told_.too_warm_to_tell) dates.hatch = dates.swim_up = {};
    told_.summary.hatch = dates.hatch;
    told_.summary.swim_up = dates.swim_up;
    const auto broods = broods_of(base_, dates, told_.sliders);
    tell_water(paths, broods);
    tell_oxygen(dates, broods);
    return std::move(told_);
  }

 private:
  std::vector<WaterBand>& bands(WhatIfLine line) { return told_.bands[static_cast<std::size_t>(line)]; }
  WhatIfChance& chance(WhatIfLimit limit) { return told_.summary.chances[static_cast<std::size_t>(limit)]; }
  double day_of(std::size_t i) const { return base_.now_day + static_cast<double>(i); }
  /// Whether anything has to be kept within the days looked at; else no chance is told at all.
  bool anything_to_keep() const { return base_.limits.from_day && *base_.limits.from_day <= day_of(day_count - 1); }

  /// Share of the columns in which `beyond(day, column)` ever holds, and when first.
  template <class Beyond>
  WhatIfChance chance_of(std::size_t columns, Beyond beyond) const {
    std::vector<int> first;
    for (std::size_t c = 0; c < columns; ++c)
      for (std::size_t i = 0; i < day_count; ++i)
        if (beyond(i, c)) {
          first.push_back(static_cast<int>(i));
          break;
        }
    WhatIfChance chance{static_cast<double>(first.size()) / static_cast<double>(columns)};
    if (first.empty()) return chance;
    std::ranges::sort(first);
    chance.early_index = first[first.size() / 10];
    chance.mid_index = first[first.size() / 2];
    return chance;
  }

  void tell_temperature(const WorldPaths& paths) {
    std::vector<Row> water(day_count);
    for (std::size_t i = 0; i < day_count; ++i)
      for (std::size_t t = 0; t < what_if_tanks; ++t) water[i].push_back(paths[t / tanks_each * worlds_each + t % worlds_each][i] + base_.tanks.temperature_offset_c[t]);
    for (const Row& row : water) bands(WhatIfLine::temperature).push_back(band_of(row));
    Row warmest(what_if_tanks, -273.0);
    for (const Row& row : water)
      for (std::size_t t = 0; t < what_if_tanks; ++t) warmest[t] = std::max(warmest[t], row[t]);
    told_.summary.warmest_c = band_of(std::move(warmest));
    // The ripening before the eggs is warm by plan; only days with animals count.
    for (std::size_t i = 0; i < day_count; ++i)
      told_.too_warm_to_tell = told_.too_warm_to_tell || (base_.limits.hold_on(day_of(i)) && bands(WhatIfLine::temperature)[i].mid > warmest_told_c);
    if (anything_to_keep()) {
      const auto stage = [&](std::size_t i) -> const StageTemperatures& { return base_.limits.temperatures_on(day_of(i)); };
      chance(WhatIfLimit::too_warm) = chance_of(what_if_tanks, [&](std::size_t i, std::size_t t) { return base_.limits.hold_on(day_of(i)) && water[i][t] > stage(i).high_c; });
      chance(WhatIfLimit::too_cold) = chance_of(what_if_tanks, [&](std::size_t i, std::size_t t) { return base_.limits.hold_on(day_of(i)) && water[i][t] < stage(i).low_c; });
    }
    if (!base_.heat.plate) return;
    const auto wished = detail::wished_path(base_.heat, told_.sliders);
    const double within_c = std::max(0.5, base_.heat.band_c);
    chance(WhatIfLimit::not_held) = chance_of(paths.size(), [&](std::size_t i, std::size_t w) { return paths[w][i] > wished[i] + within_c; });
  }

  void tell_water(const WorldPaths& paths, const std::vector<tank::Brood>& broods) {
    using Column = tank::Quantity;
    struct Follow {
      WhatIfLine line;
      std::vector<Row> values;
    };
    std::array<Follow, 6> followed{{{WhatIfLine::un_ionized_ammonia, {}}, {WhatIfLine::total_ammonia, {}}, {WhatIfLine::nitrite, {}}, {WhatIfLine::nitrate, {}}, {WhatIfLine::ph, {}}, {WhatIfLine::alkalinity, {}}}};
    for (Follow& each : followed) each.values.resize(day_count);
    std::size_t look = 0;
    const auto keep = [&](const WaterTanks& w, const WaterNow& now, double) {
      if (look >= day_count) return;
      const auto add = [&](Follow& to, auto&& values) { to.values[look].insert(to.values[look].end(), values.begin(), values.end()); };
      add(followed[0], now.un_ionized_mg_n_per_l);
      add(followed[1], w.tanks.column(Column::total_ammonia));
      add(followed[2], w.tanks.column(Column::nitrite));
      add(followed[3], w.tanks.column(Column::nitrate));
      add(followed[4], now.ph);
      add(followed[5], w.tanks.column(Column::alkalinity));
      ++look;
    };
    std::vector<WaterDeed> deeds;
    const double fraction = told_.sliders.weekly_change_fraction.value_or(base_.usual_fraction);
    if (fraction > 0.0)
      for (const double day : base_.change_days) deeds.push_back({day, fraction, false, 0.0});
    double jumps = 0.0;
    for (std::size_t g = 0; g < groups && told_.sound; ++g) {
      std::vector<double> water_c(day_count, 0.0);
      for (std::size_t i = 0; i < day_count; ++i)
        for (std::size_t w = 0; w < worlds_each; ++w) water_c[i] += paths[g * worlds_each + w][i] / static_cast<double>(worlds_each);
      const inference::FilterCase one = course_of(base_, water_c, broods);
      const std::span<const NewWaterDraw> new_water = std::span(base_.new_water).subspan(g * tanks_each, tanks_each);
      look = 0;
      ForecastOptions options;
      options.each_look = keep;
      const WaterForecast forecast = forecast_water(tanks_of(base_, g), {one, base_.limits, new_water, base_.top_up_hardness_meq_per_l, base_.top_up_alkalinity_meq_per_l, base_.now_day, day_of(day_count - 1)}, deeds, options);
      told_.sound = told_.sound && forecast.sound && look == day_count;
      jumps += forecast.by_limit[static_cast<std::size_t>(WaterLimitKind::jump)] / static_cast<double>(groups);
    }
    if (!told_.sound) return;
    for (Follow& each : followed)
      for (const Row& row : each.values) bands(each.line).push_back(band_of(row));
    const WaterLimits& l = base_.limits;
    if (!anything_to_keep()) return;
    const auto passed = [&](std::size_t which, auto beyond) {
      return chance_of(what_if_tanks, [&, which](std::size_t i, std::size_t t) { return l.hold_on(day_of(i)) && beyond(followed[which].values[i][t]); });
    };
    chance(WhatIfLimit::un_ionized_ammonia) = passed(0, [&](double v) { return v > l.un_ionized_mg_n_per_l; });
    chance(WhatIfLimit::nitrite) = passed(2, [&](double v) { return v > l.nitrite_mg_n_per_l; });
    chance(WhatIfLimit::nitrate) = passed(3, [&](double v) { return v > l.nitrate_mg_n_per_l; });
    chance(WhatIfLimit::ph) = passed(4, [&](double v) { return v < l.ph_low || v > l.ph_high; });
    chance(WhatIfLimit::alkalinity) = passed(5, [&](double v) { return v < l.alkalinity_low_meq_per_l || (l.alkalinity_high_meq_per_l && v > *l.alkalinity_high_meq_per_l); });
    if (!deeds.empty()) chance(WhatIfLimit::jump) = {jumps};
  }

  /// Where the oxygen settles with the animals of each day; loading.h without its log.
  void tell_oxygen(const Dates& dates, const std::vector<tank::Brood>& broods) {
    if (!dates.course || told_.too_warm_to_tell || std::ranges::none_of(broods, [](const tank::Brood& b) { return b.count > 0.0; })) return;
    const WhatIfOxygen& o = base_.oxygen;
    const Date fed_from = std::max(base_.today, dates.course->swim_up);
    WhatIfChance& short_of = chance(WhatIfLimit::oxygen);
    short_of.probability = 0.0;
    for (std::size_t i = 0; i < day_count; ++i) {
      const Temperature water = Temperature::from_c(bands(WhatIfLine::temperature)[i].mid);
      const OxygenConc full = chemistry::oxygen_saturation(water, chemistry::pressure_mmhg_at_elevation(o.elevation_m));
      const auto transfer = times(transfer_warmth(water) / transfer_warmth(Temperature::from_c(o.transfer_at_c)), o.transfer_l_per_h);
      const tank::Brood& b = broods[i];
      const auto at = static_cast<long>((base_.today + days(static_cast<int>(i)) - fed_from).count());
      const auto& each_g = b.stage == tank::Stage::egg ? o.egg_g : b.stage == tank::Stage::alevin ? o.alevin_g : o.fry_g[static_cast<std::size_t>(std::clamp(at, 0L, static_cast<long>(o.fry_g.size()) - 1))];
      const auto use = load_of_one({b.stage, each_g, water, dates.course->ration_fraction * told_.sliders.food_factor}).oxygen_mg_o2_per_h();
      const auto oxygen = steady_oxygen(full, times(b.count, use), transfer);
      bands(WhatIfLine::oxygen).push_back({oxygen.low.mg_o2_per_l(), oxygen.mid.mg_o2_per_l(), oxygen.high.mg_o2_per_l()});
      const auto stage = b.stage == tank::Stage::egg ? biology::LifeStage::eyed_egg : b.stage == tank::Stage::alevin ? biology::LifeStage::alevin : biology::LifeStage::fry;
      const double p = b.count > 0.0 ? chance_above(b.count, carried_by_oxygen(full, planned_oxygen(stage, full), transfer, use)) : 0.0;
      short_of.probability = std::max(*short_of.probability, p);
      if (p >= 0.1 && !short_of.early_index) short_of.early_index = static_cast<int>(i);
      if (p >= 0.5 && !short_of.mid_index) short_of.mid_index = static_cast<int>(i);
    }
  }

  const WhatIfBase& base_;
  WhatIf told_;
};

void check(double value, WhatIfRange range, const char* field, const char* sentence, Problems& problems) {
  // Also refuses what is not a number.
  if (!(value >= range.low && value <= range.high)) problems.push_back({"out_of_range", field, sentence});
}

}  // namespace

std::string_view what_if_limit_key(WhatIfLimit limit) {
  constexpr std::string_view keys[what_if_limit_count] = {"too_warm", "too_cold", "not_held", "un_ionized_ammonia", "nitrite", "oxygen", "nitrate", "ph", "alkalinity", "jump"};
  return keys[static_cast<std::size_t>(limit)];
}

std::string_view what_if_line_key(WhatIfLine line) {
  constexpr std::string_view keys[what_if_line_count] = {"temperature", "un_ionized_ammonia", "total_ammonia", "nitrite", "nitrate", "ph", "alkalinity", "oxygen"};
  return keys[static_cast<std::size_t>(line)];
}

Result<WhatIf> what_if(const WhatIfBase& base, const WhatIfSliders& s) {
  Problems problems;
  check(s.room_warmer_c, what_if_room, "/room_warmer_c", "The room can be tried from 10 °C colder to 15 °C warmer.", problems);
  check(s.set_point_warmer_c, what_if_set_point, "/set_point_warmer_c", "The set-point can be tried from 6 °C colder to 8 °C warmer.", problems);
  check(s.animals_factor, what_if_animals, "/animals_factor", "A quarter to three times the animals can be tried.", problems);
  check(s.food_factor, what_if_food, "/food_factor", "No food to twice the food can be tried.", problems);
  if (s.weekly_change_fraction) check(*s.weekly_change_fraction, what_if_change, "/weekly_change_fraction", "Nothing to half of the tank a week can be tried.", problems);
  if (!problems.empty()) return problems;
  return Telling(base, s).told();
}

}  // namespace redd::planning
