#include "planning/water_forecast.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "chemistry/ammonia.h"
#include "chemistry/oxygen.h"
#include "tank/conditions.h"

namespace redd::planning {
namespace {

using TankQuantity = tank::Quantity;

constexpr double never = std::numeric_limits<double>::infinity();

/// First time each limit was broken, tank by tank.
class Watch {
 public:
  Watch(std::size_t tanks, const WaterLimits& limits) : limits_(limits) {
    for (auto& times : broken_) times.assign(tanks, never);
    any_.assign(tanks, never);
    last_.assign(tanks, -never);
  }

  /// In      counted: one of the daily looks, by which exposure is reckoned.
  void look(const WaterTanks& w, const WaterNow& now, double day, bool counted) {
    looks_ += counted;
    if (counted) latest_ = day;
    if (!limits_.hold_on(day)) return;
    counting_ = counted;
    const auto nitrite = w.tanks.column(TankQuantity::nitrite), nitrate = w.tanks.column(TankQuantity::nitrate);
    const auto alkalinity = w.tanks.column(TankQuantity::alkalinity), hardness = w.tanks.column(TankQuantity::hardness);
    const StageTemperatures& stage = limits_.temperatures_on(day);
    for (std::size_t i = 0; i < w.size(); ++i) {
      mark(Kind::un_ionized_ammonia, i, day, now.un_ionized_mg_n_per_l[i] > limits_.un_ionized_mg_n_per_l);
      mark(Kind::nitrite, i, day, nitrite[i] > limits_.nitrite_mg_n_per_l);
      mark(Kind::nitrate, i, day, nitrate[i] > limits_.nitrate_mg_n_per_l);
      mark(Kind::ph, i, day, now.ph[i] < limits_.ph_low || now.ph[i] > limits_.ph_high);
      mark(Kind::alkalinity, i, day, alkalinity[i] < limits_.alkalinity_low_meq_per_l || (limits_.alkalinity_high_meq_per_l && alkalinity[i] > *limits_.alkalinity_high_meq_per_l));
      if (w.hardness_known && limits_.hardness_low_meq_per_l)
        mark(Kind::hardness, i, day, hardness[i] < *limits_.hardness_low_meq_per_l || hardness[i] > *limits_.hardness_high_meq_per_l);
      mark(Kind::temperature, i, day, now.temperature_c[i] < stage.low_c || now.temperature_c[i] > stage.high_c);
      exposed_ += counted && last_[i] == day;
    }
    counting_ = false;
  }

  void look_at_jump(std::size_t tank, double day, double ph, double alkalinity, double hardness, double step_c) {
    const LargestJump& most = limits_.jump;
    mark(Kind::jump, tank, day,
         std::abs(ph) > most.ph || std::abs(alkalinity) > most.hardness_meq_per_l || std::abs(hardness) > most.hardness_meq_per_l || std::abs(step_c) > most.temperature_c + 1e-9);
  }

  bool holds_on(double day) const { return limits_.hold_on(day); }
  double share_broken() const { return share(any_); }

  void tell(WaterForecast& result) const {
    const auto n = static_cast<double>(any_.size());
    result.tanks = any_.size();
    result.broken_probability = share(any_);
    const double p = result.broken_probability;
    // Never exactly certain: with half a tank added on either side.
    result.standard_error = std::sqrt((p * n + 0.5) * ((1.0 - p) * n + 0.5) / (n + 1.0)) / (n + 1.0);
    const double tank_looks = n * static_cast<double>(std::max<std::size_t>(1, looks_));
    result.exposure = static_cast<double>(exposed_) / tank_looks;
    result.kept_from_day = kept_from();
    std::size_t most = 0;
    for (std::size_t k = 0; k < water_limit_count; ++k) {
      result.by_limit[k] = share(broken_[k]);
      result.exposure_by_limit[k] = static_cast<double>(exposed_by_[k]) / tank_looks;
      const std::vector<double> days = first_by(k);
      if (days.size() <= most) continue;
      most = days.size();
      result.first = static_cast<WaterLimitKind>(k);
      result.first_probability = static_cast<double>(days.size()) / n;
      result.first_early_day = days[days.size() / 10];
      result.first_mid_day = days[days.size() / 2];
    }
  }

 private:
  using Kind = WaterLimitKind;

  void mark(WaterLimitKind kind, std::size_t tank, double day, bool broken) {
    if (!broken) return;
    double& first = broken_[static_cast<std::size_t>(kind)][tank];
    first = std::min(first, day);
    any_[tank] = std::min(any_[tank], day);
    last_[tank] = std::max(last_[tank], day);
    exposed_by_[static_cast<std::size_t>(kind)] += counting_;
  }
  /// The day after the last on which more than one tank in twenty was still to break a limit.
  std::optional<double> kept_from() const {
    if (last_.empty() || looks_ == 0) return std::nullopt;
    std::vector<double> last = last_;
    const auto index = static_cast<std::size_t>(wanted_share * static_cast<double>(last.size() - 1));
    std::nth_element(last.begin(), last.begin() + static_cast<std::ptrdiff_t>(index), last.end());
    if (last[index] >= latest_) return std::nullopt;
    return last[index] < 0.0 ? latest_ - static_cast<double>(looks_ - 1) : last[index] + 1.0;
  }
  static constexpr double wanted_share = 0.95;
  static double share(const std::vector<double>& times) {
    return static_cast<double>(std::ranges::count_if(times, [](double t) { return t < never; })) / static_cast<double>(std::max<std::size_t>(1, times.size()));
  }
  /// Days, in order, on which this limit was the first one broken; one broken at the same moment counts for the earlier named.
  std::vector<double> first_by(std::size_t kind) const {
    std::vector<double> days;
    for (std::size_t i = 0; i < any_.size(); ++i) {
      bool first = broken_[kind][i] < never && broken_[kind][i] == any_[i];
      for (std::size_t k = 0; k < kind; ++k) first = first && broken_[k][i] > any_[i];
      if (first) days.push_back(any_[i]);
    }
    std::ranges::sort(days);
    return days;
  }

  const WaterLimits& limits_;
  std::array<std::vector<double>, water_limit_count> broken_;
  std::vector<double> any_, last_;                       // first and last time any limit was broken
  std::array<std::size_t, water_limit_count> exposed_by_{};
  std::size_t exposed_ = 0, looks_ = 0;
  double latest_ = -never;
  bool counting_ = false;
};

}  // namespace

WaterBand band_of(std::vector<double> values) {
  const auto at = [&](double share) {
    const auto index = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.5);
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(index), values.end());
    return values[index];
  };
  return values.empty() ? WaterBand{} : WaterBand{at(0.05), at(0.5), at(0.95)};
}

namespace {

WaterDayBands bands_of(const WaterTanks& w, const WaterNow& now, double day) {
  const auto column = [&](TankQuantity q) {
    const auto c = w.tanks.column(q);
    return band_of({c.begin(), c.end()});
  };
  return {day, band_of(now.un_ionized_mg_n_per_l), column(TankQuantity::total_ammonia), column(TankQuantity::nitrite), column(TankQuantity::nitrate), band_of(now.ph),
          column(TankQuantity::alkalinity), column(TankQuantity::hardness)};
}

bool is_sound(const WaterTanks& w, const WaterNow& now) {
  const auto nitrate = w.tanks.column(TankQuantity::nitrate), nitrite = w.tanks.column(TankQuantity::nitrite);
  for (std::size_t i = 0; i < w.size(); ++i)
    if (!std::isfinite(now.un_ionized_mg_n_per_l[i] + now.ph[i] + nitrate[i] + nitrite[i])) return false;
  return true;
}

/// What evaporates is topped up, and the salts of both stay: in with the top-up, never out with the vapour.
void leave_salts(WaterTanks& w, const WaterCourse& course, double days) {
  const auto hardness = w.tanks.column(TankQuantity::hardness), alkalinity = w.tanks.column(TankQuantity::alkalinity), carbon = w.tanks.column(TankQuantity::inorganic_carbon);
  for (std::size_t i = 0; i < w.size(); ++i) {
    const double share = days * w.evaporation_l_per_day[i] / w.tanks.volume_l();
    hardness[i] += share * course.hardness_of_top_up_meq_per_l;
    alkalinity[i] += share * course.alkalinity_of_top_up_meq_per_l;
    carbon[i] += share * course.alkalinity_of_top_up_meq_per_l;
  }
}

/// One moment at which something is done or only looked at.
struct Moment {
  double at_day;
  const WaterDeed* deed = nullptr;
  const tank::Dose* dose = nullptr;
};

std::vector<Moment> moments_of(const WaterCourse& course, double from_day, std::span<const WaterDeed> deeds) {
  std::vector<Moment> all;
  for (double day = std::max(course.watch_from_day, from_day); day < course.until_day + 1e-9; day += 1.0) all.push_back({day});
  for (const auto& event : course.now.season.events)
    if (const auto* dose = std::get_if<tank::Dose>(&event.what); dose && event.at_day > from_day && event.at_day <= course.until_day) all.push_back({event.at_day, nullptr, dose});
  for (const WaterDeed& deed : deeds) all.push_back({std::max(deed.at_day, from_day), &deed});
  // At the same time deeds come first: what they mend is not broken.
  std::ranges::stable_sort(all, [](const Moment& a, const Moment& b) { return a.at_day != b.at_day ? a.at_day < b.at_day : (a.deed || a.dose) && !(b.deed || b.dose); });
  return all;
}

std::vector<double> copy_of(const WaterTanks& w, TankQuantity quantity) {
  const auto column = w.tanks.column(quantity);
  return {column.begin(), column.end()};
}

WaterBand vacuumed(const WaterTanks& w, const WaterDeed& deed) {
  if (!deed.vacuum) return {};
  std::vector<double> mg_n = copy_of(w, TankQuantity::organic_nitrogen);
  for (std::size_t i = 0; i < mg_n.size(); ++i) mg_n[i] *= w.vacuum_share[i] * w.tanks.volume_l();
  return band_of(std::move(mg_n));
}

ChangeBands change_and_watch(WaterTanks& w, const WaterCourse& course, const WaterDeed& deed, double day, Watch& watch, bool tell) {
  ChangeBands told;
  const WaterNow before = water_now(w, course.now.season.forcing, day);
  const auto alkalinity = copy_of(w, TankQuantity::alkalinity), hardness = copy_of(w, TankQuantity::hardness);
  if (tell) {
    told.before = bands_of(w, before, day);
    told.vacuumed_mg_n = vacuumed(w, deed);
  }
  pour(w, deed, course.new_water, Temperature::from_c(tank::temperature_c_at(course.now.season.forcing, day)));
  const WaterNow after = water_now(w, course.now.season.forcing, day);
  const auto new_alkalinity = w.tanks.column(TankQuantity::alkalinity), new_hardness = w.tanks.column(TankQuantity::hardness);
  std::vector<double> jumps(w.size());
  for (std::size_t i = 0; i < w.size(); ++i) {
    jumps[i] = after.ph[i] - before.ph[i];
    if (watch.holds_on(day))
      watch.look_at_jump(i, day, jumps[i], new_alkalinity[i] - alkalinity[i], w.hardness_known ? new_hardness[i] - hardness[i] : 0.0, deed.step_c);
  }
  if (day >= course.watch_from_day) watch.look(w, after, day, false);
  if (tell) {
    told.after = bands_of(w, after, day);
    told.ph_jump = band_of(std::move(jumps));
  }
  return told;
}

}  // namespace

WaterNow water_now(const WaterTanks& w, const tank::Forcing& forcing, double day) {
  WaterNow now;
  const double temperature_c = tank::temperature_c_at(forcing, day);
  now.ph.resize(w.size());
  tank::ph_of(w.tanks, temperature_c, now.ph);
  const auto ammonia = w.tanks.column(TankQuantity::total_ammonia);
  now.un_ionized_mg_n_per_l.resize(w.size());
  now.temperature_c.resize(w.size());
  for (std::size_t i = 0; i < w.size(); ++i) {
    now.ph[i] = std::clamp(now.ph[i] + w.ph_offset[i], 3.0, 11.0);
    now.temperature_c[i] = temperature_c + w.temperature_offset_c[i];
    now.un_ionized_mg_n_per_l[i] = ammonia[i] * chemistry::un_ionized_fraction(Temperature::from_c(now.temperature_c[i]), Ph::from_ph(now.ph[i]));
  }
  return now;
}

void pour(WaterTanks& w, const WaterDeed& deed, std::span<const NewWaterDraw> new_water, Temperature water) {
  const double share = std::clamp(deed.fraction, 0.0, 1.0), kept = 1.0 - share;
  const double carbon_per_meq = tank::air_balanced_carbon_mmol_per_l(water, 1.0), oxygen = chemistry::oxygen_saturation(water).mg_o2_per_l();
  const auto blend = [&](TankQuantity quantity, auto&& incoming) {
    const auto column = w.tanks.column(quantity);
    for (std::size_t i = 0; i < column.size(); ++i) column[i] = kept * column[i] + share * incoming(i);
  };
  const auto organic = w.tanks.column(TankQuantity::organic_nitrogen);
  for (std::size_t i = 0; i < w.size(); ++i) organic[i] *= deed.vacuum ? std::min(kept, 1.0 - w.vacuum_share[i]) : kept;
  blend(TankQuantity::total_ammonia, [&](std::size_t i) { return new_water[i].total_ammonia_mg_n_per_l; });
  blend(TankQuantity::nitrite, [&](std::size_t i) { return new_water[i].nitrite_mg_n_per_l; });
  blend(TankQuantity::nitrate, [&](std::size_t i) { return new_water[i].nitrate_mg_n_per_l; });
  blend(TankQuantity::alkalinity, [&](std::size_t i) { return new_water[i].alkalinity_meq_per_l; });
  blend(TankQuantity::inorganic_carbon, [&](std::size_t i) { return carbon_per_meq * new_water[i].alkalinity_meq_per_l; });
  blend(TankQuantity::oxygen, [&](std::size_t) { return oxygen; });
  if (w.hardness_known) blend(TankQuantity::hardness, [&](std::size_t i) { return new_water[i].hardness_meq_per_l; });
}

WaterForecast forecast_water(const WaterTanks& tanks, const WaterCourse& course, std::span<const WaterDeed> deeds, const ForecastOptions& options) {
  WaterForecast result;
  WaterTanks w = tanks;
  Watch watch(w.size(), course.limits);
  double day = w.at_day;
  for (const Moment& moment : moments_of(course, day, deeds)) {
    if (moment.at_day > day) {
      result.sound = tank::advance(w.tanks, course.now.season.forcing, day, moment.at_day, options.tolerance).sound && result.sound;
      leave_salts(w, course, moment.at_day - day);
      day = moment.at_day;
    }
    if (moment.dose) {
      tank::add_dose(w.tanks, *moment.dose);
    } else if (moment.deed) {
      auto told = change_and_watch(w, course, *moment.deed, day, watch, options.bands);
      if (options.bands) result.changes.push_back(std::move(told));
    } else {
      const WaterNow now = water_now(w, course.now.season.forcing, day);
      result.sound = result.sound && is_sound(w, now);
      watch.look(w, now, day, true);
      if (options.bands) result.bands.push_back(bands_of(w, now, day));
      if (options.each_look) options.each_look(w, now, day);
      if (watch.share_broken() > options.give_up_above) break;
    }
    if (!result.sound) break;
  }
  watch.tell(result);
  return result;
}

}  // namespace redd::planning
