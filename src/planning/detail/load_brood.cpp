#include "planning/detail/load_brood.h"

#include <algorithm>

#include "planning/fry_mass.h"

namespace redd::planning {
namespace {

using biology::LifeStage;

/// Fed as a development forecast gives it; the same for eggs in the tank and to come.
void take_dates(LoadBrood& brood, const biology::DevelopmentForecast& forecast) {
  brood.hatch = biology::day_of(forecast.stage(biology::Stage::hatch).lot.median);
  const auto& swim_up = forecast.stage(biology::Stage::swim_up).lot;
  brood.swim_up_early = biology::day_of(swim_up.low_90);
  brood.swim_up = biology::day_of(swim_up.median);
  brood.swim_up_late = biology::day_of(swim_up.high_90);
}

bool foresee(LoadBrood& brood, const LoadingCase& now) {
  constexpr int days_foreseen = 240;
  std::vector<biology::DailyTemperature> planned;
  for (int i = 0; i < days_foreseen; ++i) planned.push_back({brood.from + std::chrono::days(i), now.season.target, TemperatureChange::from_c(0.7), false});
  biology::ModelChoice choice;
  if (now.season.development_model) choice.hatch = *now.season.development_model;
  const auto forecast = biology::forecast_development(*now.belief.brood.species, choice, {biology::ReceivedEyed{brood.from}}, planned, {}, brood.from);
  if (!forecast) return false;
  take_dates(brood, *forecast);
  return true;
}

}  // namespace

std::optional<LoadBrood> load_brood(const LoadingCase& now, Date today) {
  LoadBrood brood;
  const auto& believed = now.belief.brood;
  brood.count_assumed = count_is_assumed(now.season, now.belief);
  if (believed.animals == inference::Animals::released) return std::nullopt;
  brood.count = count_of(now.season, now.belief);
  if (inference::has_animals(believed.animals)) {
    brood.from = today;
    if (!believed.forecast) return std::nullopt;
    take_dates(brood, *believed.forecast);
    brood.growth = inference::growth_belief(now.records, now.belief, now.zone, now.now);
    return brood;
  }
  if (!now.season.egg_day || !believed.species) return std::nullopt;
  brood.to_come = true;
  brood.from = std::max(today, *now.season.egg_day);
  if (!foresee(brood, now)) return std::nullopt;
  return brood;
}

LifeStage stage_on(const LoadBrood& brood, Date day) {
  if (brood.swim_up && day >= *brood.swim_up) return LifeStage::fry;
  return brood.hatch && day >= *brood.hatch ? LifeStage::alevin : LifeStage::eyed_egg;
}

tank::Stage load_stage(LifeStage stage) {
  switch (stage) {
    case LifeStage::green_egg:
    case LifeStage::eyed_egg: return tank::Stage::egg;
    case LifeStage::alevin: return tank::Stage::alevin;
    case LifeStage::fry: break;
  }
  return tank::Stage::fry;
}

Estimate<double> unfed_g(LifeStage stage, const inference::Belief& belief) {
  const double share = stage == LifeStage::alevin ? 0.8 : 0.6;
  const auto swum_up = swim_up_g(belief);
  return {share * swum_up.low, share * swum_up.mid, share * swum_up.high, Support::assumed};
}

Estimate<double> each_g_on(const LoadingCase& now, const LoadBrood& brood, Date day) {
  const LifeStage stage = stage_on(brood, day);
  if (stage != LifeStage::fry) return unfed_g(stage, now.belief);
  if (!brood.to_come) return fry_mass_g(now.belief, brood.growth, day);
  const auto warmth = [&](Date from) { return std::max(0.0, static_cast<double>((day - from).count()) * now.season.target.c()); };
  return grown_g(swim_up_g(now.belief), {warmth(*brood.swim_up_late), warmth(*brood.swim_up), warmth(*brood.swim_up_early)});
}

Temperature water_on(const LoadingCase& now, const LoadBrood& brood, Date day) {
  const auto& days = now.belief.temperature.days;
  if (brood.to_come || days.empty()) return now.season.target;
  const auto place = std::clamp<long>((day - days.front().day).count(), 0, static_cast<long>(days.size()) - 1);
  return days[static_cast<std::size_t>(place)].mean;
}

}  // namespace redd::planning
