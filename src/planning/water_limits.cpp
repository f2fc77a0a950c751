#include "planning/water_limits.h"

#include <algorithm>

#include "chemistry/limits.h"
#include "chemistry/nitrite.h"
#include "planning/heat_view.h"

namespace redd::planning {
namespace {

namespace marks = chemistry::limits;
using inference::Animals;
using inference::Quantity;

/// The keeper may lower our marks, never raise them.
double nitrate_limit_mg_n_per_l(const records::SeasonSetup& season) {
  double limit = marks::nitrate_act.mg_n_per_l();
  for (const auto& own : {season.nitrate_act_mg_no3_per_l, season.nitrate_ceiling_mg_no3_per_l})
    if (own) limit = std::min(limit, NitrogenConc::from_mg_no3_per_l(*own).mg_n_per_l());
  return limit;
}

/// KH or GH of the water the brood came into: the first sittings since, else the first of all, else the source's.
std::optional<double> normal_meq_per_l(const inference::Belief& belief, Quantity quantity, const ZoneOffsets& zone) {
  if (const auto* known = belief.find(quantity)) {
    for (const auto& sitting : known->sittings)
      if (!belief.brood.receipt || local_day(zone, sitting.at) >= belief.brood.received) return sitting.value.mid;
    if (!known->sittings.empty()) return known->sittings.back().value.mid;
  }
  if (!belief.source) return std::nullopt;
  if (quantity == Quantity::hardness) return belief.source->hardness ? std::optional(belief.source->hardness->meq_per_l()) : std::nullopt;
  return belief.source->alkalinity ? std::optional(belief.source->alkalinity->meq_per_l()) : std::nullopt;
}

std::vector<StageTemperatures> stage_temperatures(const inference::Belief& belief, const inference::FilterCase& now, const ZoneOffsets& zone) {
  const StageLimits today = stage_limits(belief);
  std::vector<StageTemperatures> spans{{now.now_day, today.red_below.c(), today.red_above.c(), today.animals}};
  if (!belief.brood.species) return spans;
  const auto add = [&](const std::optional<Date>& from, biology::LifeStage stage, const char* animals) {
    if (!from) return;
    const double day = days_between(now.season.begin, start_of_day(zone, *from)).count();
    if (day <= now.now_day) return;
    const auto& band = belief.brood.species->band(stage);
    spans.push_back({day, band.red_below.c(), band.red_above.c(), animals});
  };
  add(now.hatch, biology::LifeStage::alevin, "alevins");
  add(now.swim_up, biology::LifeStage::fry, "fry");
  return spans;
}

std::optional<double> animals_from_day(const records::SeasonSetup& season, const inference::Belief& belief, const inference::FilterCase& now, const ZoneOffsets& zone) {
  if (inference::has_animals(belief.brood.animals)) return now.now_day;
  if (belief.brood.animals == Animals::released || !season.egg_day) return std::nullopt;
  return std::max(now.now_day, days_between(now.season.begin, start_of_day(zone, *season.egg_day)).count());
}

}  // namespace

std::string_view limit_key(WaterLimitKind kind) {
  constexpr std::string_view keys[water_limit_count] = {"un_ionized_ammonia", "nitrite", "nitrate", "ph", "alkalinity", "hardness", "temperature", "jump"};
  return keys[static_cast<std::size_t>(kind)];
}

std::string_view limit_name(WaterLimitKind kind) {
  constexpr std::string_view names[water_limit_count] = {"un-ionized ammonia", "nitrite", "nitrate", "pH", "KH", "GH", "temperature", "a jump made by the change itself"};
  return names[static_cast<std::size_t>(kind)];
}

const StageTemperatures& WaterLimits::temperatures_on(double day) const {
  const StageTemperatures* found = &temperatures.front();
  for (const StageTemperatures& span : temperatures)
    if (span.from_day <= day) found = &span;
  return *found;
}

double largest_drift_meq_per_l(double normal_meq_per_l) { return std::max(0.5 * normal_meq_per_l, LargestJump{}.hardness_meq_per_l); }

WaterLimits water_limits(const records::SeasonSetup& season, const inference::Belief& belief, const inference::FilterCase& now, const ZoneOffsets& zone) {
  WaterLimits limits;
  limits.from_day = animals_from_day(season, belief, now, zone);
  limits.un_ionized_mg_n_per_l = marks::action_un_ionized_ammonia.mg_n_per_l();
  limits.nitrite_mg_n_per_l = chemistry::nitrite_limit(belief.chloride_mg_per_l).maximum.mg_n_per_l();
  limits.nitrate_mg_n_per_l = nitrate_limit_mg_n_per_l(season);
  limits.ph_low = marks::ph_low.ph();
  limits.ph_high = marks::ph_high.ph();
  limits.alkalinity_low_meq_per_l = marks::alkalinity_least.meq_per_l();
  if (const auto kh = normal_meq_per_l(belief, Quantity::alkalinity, zone)) limits.alkalinity_high_meq_per_l = *kh + largest_drift_meq_per_l(*kh);
  if (const auto gh = normal_meq_per_l(belief, Quantity::hardness, zone)) {
    limits.hardness_low_meq_per_l = std::max(0.0, *gh - largest_drift_meq_per_l(*gh));
    limits.hardness_high_meq_per_l = *gh + largest_drift_meq_per_l(*gh);
  }
  limits.temperatures = stage_temperatures(belief, now, zone);
  return limits;
}

std::vector<LimitLine> limit_lines(const WaterLimits& limits, const inference::Belief& belief) {
  using enum WaterLimitKind;
  const auto kh = [](double v) { return Alkalinity::from_meq_per_l(v); };
  const auto gh = [](double v) { return Hardness::from_meq_per_l(v); };
  std::vector<LimitLine> lines{
      {un_ionized_ammonia, {"Un-ionized ammonia below {0}.", {ShownNitrogen{NitrogenConc::from_mg_n_per_l(limits.un_ionized_mg_n_per_l), NitrogenBasis::nh3}}}, "Meade 1985, fish-culture limit 0.0125 mg/L as NH3"},
      {nitrite, {"Nitrite below {0}, with this chloride.", {inference::on_card(belief, Quantity::nitrite, limits.nitrite_mg_n_per_l)}}, "British Columbia guideline (2009), maximum by chloride"},
      {nitrate, {"Nitrate below {0}.", {inference::on_card(belief, Quantity::nitrate, limits.nitrate_mg_n_per_l)}}, "assumed: below the 6.25 mg N/L of McGurk et al. 2006, or the season's own mark"},
      {ph, {"pH between {0} and {1}.", {Ph::from_ph(limits.ph_low), Ph::from_ph(limits.ph_high)}}, "US EPA criterion 6.5-9.0"}};
  if (limits.alkalinity_high_meq_per_l)
    lines.push_back({alkalinity, {"KH between {0} and {1}.", {kh(limits.alkalinity_low_meq_per_l), kh(*limits.alkalinity_high_meq_per_l)}}, "lower end: US EPA criterion, 20 mg/L as CaCO3; upper end assumed"});
  else lines.push_back({alkalinity, {"KH above {0}.", {kh(limits.alkalinity_low_meq_per_l)}}, "US EPA criterion, 20 mg/L as CaCO3"});
  if (limits.hardness_low_meq_per_l && limits.hardness_high_meq_per_l)
    lines.push_back({hardness, {"GH between {0} and {1}: half more or less than the water the brood came into.", {gh(*limits.hardness_low_meq_per_l), gh(*limits.hardness_high_meq_per_l)}}, "assumed; no trial was found"});
  const StageTemperatures& now = limits.temperatures.front();
  lines.push_back({temperature, {"Temperature between {0} and {1} for {2}.", {Temperature::from_c(now.low_c), Temperature::from_c(now.high_c), Word{now.animals}}}, "the species' own band for this stage"});
  lines.push_back({jump, {"No change moves pH by more than {0}, the temperature by more than {1}, KH or GH by more than {2}.",
                          {Word{"0.5"}, TemperatureChange::from_c(limits.jump.temperature_c), gh(limits.jump.hardness_meq_per_l)}},
                   "pH: Directive 2006/44/EC, annex I; temperature: common hatchery practice (1 °C an hour), from memory; KH and GH assumed"});
  return lines;
}

}  // namespace redd::planning
