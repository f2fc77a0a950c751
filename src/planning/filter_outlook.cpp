#include "planning/filter_outlook.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
namespace {

using inference::FilterCase;
using inference::FilterPosterior;
using inference::OutlookQuestion;

double share_of(const std::vector<bool>& passed) {
  return passed.empty() ? 0.0 : static_cast<double>(std::ranges::count(passed, true)) / static_cast<double>(passed.size());
}

/// Of the days still to come.
double heaviest_load_mg_n_per_l_per_day(const FilterCase& now) {
  double heaviest = 0.0;
  const auto& days = now.season.forcing.days;
  const auto last = std::min(days.size(), static_cast<std::size_t>(std::max(0.0, now.until_day)));
  for (std::size_t d = static_cast<std::size_t>(now.now_day); d < last; ++d)
    heaviest = std::max(heaviest, (days[d].excretion_mg_n_per_day + days[d].organic_mg_n_per_day) / now.season.volume_l);
  return heaviest;
}

double temperature_now_c(const FilterCase& now) {
  const auto& days = now.season.forcing.days;
  if (days.empty()) return tank::DayForcing{}.temperature_c;
  return days[static_cast<std::size_t>(std::clamp(std::floor(now.now_day), 0.0, static_cast<double>(days.size() - 1)))].temperature_c;
}

/// A reading that fits nothing may be a slip; two of one quantity on the same side within a fortnight are not, and then the model is wrong
/// about this tank. The latest reading of the quantity must still be one of them.
std::optional<LostTrack> lost_track(const std::vector<inference::ReadingCheck>& checks, double now_day) {
  constexpr double looked_back_days = 14.0;
  std::optional<LostTrack> lost;
  for (const auto quantity : {records::Quantity::nitrite, records::Quantity::total_ammonia, records::Quantity::ph, records::Quantity::alkalinity,
                              records::Quantity::nitrate, records::Quantity::oxygen})
    for (const bool higher : {true, false}) {
      LostTrack found{quantity, now_day, higher, {}};
      double latest = -1.0, latest_astray = -1.0;
      for (const inference::ReadingCheck& check : checks) {
        if (check.quantity != quantity) continue;
        latest = std::max(latest, check.at_day);
        if (!check.irreconcilable || check.at_day < now_day - looked_back_days || (check.after.below > 0.5) != higher) continue;
        latest_astray = std::max(latest_astray, check.at_day);
        found.since_day = std::min(found.since_day, check.at_day);
        found.records.push_back(check.record);
      }
      if (found.records.size() < 2 || latest_astray < latest) continue;
      if (!lost) lost = std::move(found);
    }
  return lost;
}

/// Some of the posterior's tanks as they stand now.
std::shared_ptr<const tank::Ensemble> tanks_now(const FilterPosterior& found, const FilterCase& now) {
  constexpr std::size_t count = 256;
  auto drawn = found.draws(count);
  const inference::SeasonModel model(now.season);
  model.go_to(drawn.path, drawn.unknowns, std::max(now.now_day, drawn.path.at_day), true);
  return std::make_shared<const tank::Ensemble>(std::move(drawn.path.ensemble));
}

}  // namespace

inference::ReadyDefinition ready_definition(const records::SeasonSetup& season, double heaviest_load_mg_n_per_l_per_day) {
  constexpr double least_dose = 0.5, most_dose = 1.0, loads = 3.0;
  inference::ReadyDefinition ready;
  const double dose = std::round(20.0 * std::clamp(loads * heaviest_load_mg_n_per_l_per_day, least_dose, most_dose)) / 20.0;
  ready.test_dose_mg_n_per_l = season.ready_test_dose_mg_n_per_l.value_or(dose);
  ready.within_hours = season.ready_within_hours.value_or(ready.within_hours);
  ready.total_ammonia_limit_mg_n_per_l = season.ready_total_ammonia_mg_n_per_l.value_or(ready.total_ammonia_limit_mg_n_per_l);
  ready.nitrite_limit_mg_n_per_l = season.ready_nitrite_mg_n_per_l.value_or(ready.nitrite_limit_mg_n_per_l);
  return ready;
}

inference::SmcSettings filter_settings(const records::SeasonSetup& season) {
  inference::SmcSettings settings;
  settings.seed = static_cast<std::uint64_t>(season.seed.value_or(1));
  return settings;
}

std::optional<FilterOutlook> filter_outlook(const records::SeasonSetup& season, const inference::Belief& belief, const FilterCase& now,
                                            const FilterPosterior& found, const ZoneOffsets& zone, numerics::Workers* workers) {
  FilterOutlook result;
  result.begin = now.season.begin;
  result.now_day = now.now_day;
  const double load = heaviest_load_mg_n_per_l_per_day(now);
  result.ready = ready_definition(season, load);
  result.hatch = now.hatch;
  result.swim_up = now.swim_up;
  result.assumed = now.assumed;
  result.particles = found.sampler().particle_count();
  result.sittings = found.sampler().absorbed();
  result.complete = found.complete();
  result.doubts = found.doubts();
  result.lost_track = lost_track(found.checks(), now.now_day);
  if (result.lost_track)  // readings that are believed are not to be repeated
    std::erase_if(result.doubts, [&](const inference::DoubtedThing& doubt) {
      return std::ranges::any_of(doubt.records, [&](records::RecordId id) { return std::ranges::find(result.lost_track->records, id) != result.lost_track->records.end(); });
    });

  OutlookQuestion question;
  question.ready = result.ready;
  question.now_day = now.now_day;
  question.until_day = now.until_day;
  question.target_temperature_c = season.target.c();
  question.every_days = 3.0;
  question.seed = static_cast<std::uint64_t>(season.seed.value_or(1));
  question.workers = workers;
  result.outlook = inference::outlook(found, now.season, question);
  if (!result.outlook.sound) return std::nullopt;
  result.tanks = tanks_now(found, now);
  if (!result.outlook.ready_on.empty()) result.today_probability = result.outlook.ready_on.front().probability;

  const bool animals = inference::has_animals(belief.brood.animals);
  if (!animals && temperature_now_c(now) > season.target.c() + 1.0) {
    OutlookQuestion cold = question;
    cold.ready.temperature_c = season.target.c();
    result.cold_today_probability = share_of(inference::ready_on_day(found, now.season, cold, now.now_day));
  }
  const Date today = local_day(zone, after_days(now.season.begin, now.now_day));
  if (season.egg_day && *season.egg_day > today && belief.brood.animals == inference::Animals::none) {
    result.by_day = season.egg_day;
    if (auto assumed = inference::egg_day_assumed(season, belief.brood)) result.assumed.push_back(std::move(*assumed));
    const double egg_day = days_between(now.season.begin, start_of_day(zone, *season.egg_day)).count() + 0.4;  // mid-morning
    inference::MeasureLimits limits;
    limits.animals_present = animals;
    result.measures = inference::measure_effects(found, now.season, question, egg_day, limits);
    result.by_probability = result.measures->planned_probability;
  }
  return result;
}

}  // namespace redd::planning
