#include "inference/outlook_measures.h"

#include <algorithm>
#include <cmath>

#include "chemistry/ammonia.h"
#include "chemistry/nitrification.h"

namespace redd::inference {
namespace {

std::size_t index_of(const tank::Forcing& forcing, double day) {
  return static_cast<std::size_t>(std::clamp(std::floor(day - forcing.first_day), 0.0, static_cast<double>(forcing.days.size() - 1)));
}

/// First day from now on that the plan makes at least 2 C colder than today; forcing.days.size() when it never does.
std::size_t chill_index(const FilterSeason& plan, double now_day) {
  const std::size_t now = index_of(plan.forcing, now_day);
  for (std::size_t d = now + 1; d < plan.forcing.days.size(); ++d)
    if (plan.forcing.days[d].temperature_c <= plan.forcing.days[now].temperature_c - 2.0) return d;
  return plan.forcing.days.size();
}

void insert_event(FilterSeason& plan, FilterEvent event) {
  const auto at = std::ranges::upper_bound(plan.events, event.at_day, {}, &FilterEvent::at_day);
  plan.events.insert(at, std::move(event));
}

std::optional<Measure> warmer(const FilterSeason& plan, double now_day, double ready_day, const MeasureLimits& limits) {
  const std::size_t now = index_of(plan.forcing, now_day), chill = std::min(chill_index(plan, now_day), index_of(plan.forcing, ready_day - limits.cooling_days));
  const double today_c = plan.forcing.days[now].temperature_c;
  if (chill <= now + 1 || today_c > limits.warmest_c - 1.0) return std::nullopt;
  Measure measure{MeasureKind::warmer, {"Warm the tank to {0} until it is chilled.", {Temperature::from_c(limits.warmest_c)}}, limits.warmest_c - today_c, plan};
  for (std::size_t d = now; d < chill; ++d) measure.plan.forcing.days[d].temperature_c = std::max(measure.plan.forcing.days[d].temperature_c, limits.warmest_c);
  return measure;
}

/// A week more of warmth, when the tank can still be cold in time.
std::optional<Measure> later_chill(const FilterSeason& plan, double now_day, double ready_day, const MeasureLimits& limits) {
  const std::size_t chill = chill_index(plan, now_day), days = plan.forcing.days.size();
  if (chill >= days) return std::nullopt;
  const double latest = ready_day - plan.forcing.first_day - limits.cooling_days, by = std::min(7.0, std::floor(latest - static_cast<double>(chill)));
  if (by < 1.0) return std::nullopt;
  Measure measure{MeasureKind::later_chill, {"Begin to chill {0} later, and chill over a week.", {Days(by)}}, by, plan};
  const double warm_c = plan.forcing.days[chill - 1].temperature_c, cold_c = plan.forcing.days[index_of(plan.forcing, ready_day)].temperature_c;
  const std::size_t begin = chill + static_cast<std::size_t>(by);
  for (std::size_t d = chill; d < days; ++d) {
    const double cooled = d < begin ? 0.0 : std::min(1.0, (static_cast<double>(d - begin) + 1.0) / limits.cooling_days);
    double& planned_c = measure.plan.forcing.days[d].temperature_c;
    if (d < begin || cooled < 1.0) planned_c = warm_c + cooled * (cold_c - warm_c);
  }
  return measure;
}

struct SafeDose {
  double total_mg_n_per_l = 0;   ///< most there may be
  double raise_mg_n_per_l = 0;   ///< of it still to add, by tenths
};
/// The highest ammonia and pH the readings allow decide: a dose must be safe for the bacteria in the worst case.
SafeDose safe_dose(const FilterPosterior& posterior, const FilterSeason& plan, double now_day, const MeasureLimits& limits) {
  const auto draws = posterior.draws(256);
  const WaterColumns water = posterior.model().columns(draws.path);
  const std::vector<double> even(256, 1.0 / 256.0);
  const double present = numerics::weighted_quantile(water.total_ammonia_mg_n_per_l, even, 0.95);
  const Ph ph = Ph::from_ph(numerics::weighted_quantile(water.ph, even, 0.95));
  const Temperature temperature = Temperature::from_c(plan.forcing.days[index_of(plan.forcing, now_day)].temperature_c);
  const double safe = chemistry::total_with_un_ionized(NitrogenConc::from_mg_n_per_l(limits.most_un_ionized_mg_n_per_l), temperature, ph).mg_n_per_l();
  const double most = std::min(safe, limits.most_total_ammonia_mg_n_per_l);
  return {most, std::floor((most - present) * 10.0) / 10.0};
}

std::optional<Measure> ammonia_dose(const FilterPosterior& posterior, const FilterSeason& plan, double now_day, const MeasureLimits& limits) {
  const double raise = safe_dose(posterior, plan, now_day, limits).raise_mg_n_per_l;
  if (raise < 0.3) return std::nullopt;
  Measure measure{MeasureKind::ammonia_dose,
                  {"Dose ammonia once, {0}, now; no more, because free ammonia holds back the nitrite oxidisers. Never with eggs or fish in the tank.",
                   {ShownNitrogen{NitrogenConc::from_mg_n_per_l(raise), NitrogenBasis::n}}},
                  raise, plan};
  tank::Dose dose;
  dose.ammonium_chloride_mg_n = raise * plan.volume_l;
  insert_event(measure.plan, {now_day, dose});
  return measure;
}

/// A filter that is fed nothing dwindles: a little every week, with the alkalinity that its use takes away.
std::optional<Measure> weekly_ammonia(const FilterPosterior& posterior, const FilterSeason& plan, double now_day, double ready_day, const MeasureLimits& limits) {
  const bool planned = std::ranges::any_of(plan.events, [&](const FilterEvent& event) {
    const auto* dose = std::get_if<tank::Dose>(&event.what);
    return dose && event.at_day > now_day && dose->ammonium_chloride_mg_n > 0.0;
  });
  // Half of what is safe, since some of the week before may be left; from next week on where there is too much today.
  const SafeDose safe = safe_dose(posterior, plan, now_day, limits);
  const double each = std::min(limits.weekly_dose_mg_n_per_l, std::floor(safe.total_mg_n_per_l * 5.0) / 10.0);
  const double begin = safe.raise_mg_n_per_l >= each ? now_day : now_day + 7.0;
  if (planned || each < 0.3 || ready_day - begin < 7.0 + limits.last_dose_days) return std::nullopt;
  const double used_meq_per_l = each * chemistry::nitrification_alkalinity_meq_per_mg_n;
  Measure measure{MeasureKind::weekly_ammonia,
                  {"Feed the filter every week: {0} ammonia and {1} alkalinity (sodium bicarbonate), the last time {2} before the eggs. Never with eggs or fish in the tank.",
                   {ShownNitrogen{NitrogenConc::from_mg_n_per_l(each), NitrogenBasis::n}, Alkalinity::from_meq_per_l(used_meq_per_l), Days(limits.last_dose_days)}},
                  each, plan};
  tank::Dose dose;
  dose.ammonium_chloride_mg_n = each * plan.volume_l;
  dose.bicarbonate_meq = used_meq_per_l * plan.volume_l;
  for (double day = begin; day <= ready_day - limits.last_dose_days; day += 7.0) insert_event(measure.plan, {day, dose});
  return measure;
}

/// In a tank that is neither warm nor fed, either alone hardly shows: the two go together.
std::optional<Measure> warm_and_fed(const FilterPosterior& posterior, const FilterSeason& plan, double now_day, double ready_day, const MeasureLimits& limits) {
  const auto warm = warmer(plan, now_day, ready_day, limits);
  if (!warm) return std::nullopt;
  auto both = weekly_ammonia(posterior, warm->plan, now_day, ready_day, limits);
  if (!both) return std::nullopt;
  both->kind = MeasureKind::warm_and_fed;
  both->what = joined(warm->what, both->what);
  return both;
}

std::optional<Measure> more_alkalinity(const FilterPosterior& posterior, const FilterSeason& plan, double now_day, const MeasureLimits& limits) {
  const double present = posterior.estimate_of(tank::Quantity::alkalinity).mid;
  const double raise = std::ceil((limits.good_alkalinity_meq_per_l - present) * 2.0) / 2.0;
  if (raise < 0.5) return std::nullopt;
  Measure measure{MeasureKind::more_alkalinity, {"Raise the alkalinity by {0} with sodium bicarbonate.", {Alkalinity::from_meq_per_l(raise)}}, raise, plan};
  tank::Dose dose;
  dose.bicarbonate_meq = raise * plan.volume_l;
  insert_event(measure.plan, {now_day, dose});
  return measure;
}

Measure seeded_media(const FilterSeason& plan, double now_day, const MeasureLimits& limits) {
  Measure measure{MeasureKind::seeded_media,
                  {"Bring in living filter media of a healthy, fish-free tank, about {0} of the media; a tank with fish can carry disease to the eggs.",
                   {Share{limits.seeded_share_fraction}}},
                  limits.seeded_share_fraction, plan};
  insert_event(measure.plan, {now_day, FilterSeeded{limits.seeded_share_fraction}});
  return measure;
}

double share_of(const std::vector<bool>& passed) {
  return passed.empty() ? 0.0 : static_cast<double>(std::ranges::count(passed, true)) / static_cast<double>(passed.size());
}

}  // namespace

std::vector<Measure> possible_measures(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question, double ready_day,
                                       const MeasureLimits& limits) {
  std::vector<Measure> measures;
  if (plan.forcing.days.empty() || ready_day <= question.now_day) return measures;
  const auto add = [&](std::optional<Measure> measure) {
    if (measure) measures.push_back(std::move(*measure));
  };
  if (!limits.animals_present) {
    add(warmer(plan, question.now_day, ready_day, limits));
    add(later_chill(plan, question.now_day, ready_day, limits));
    if (ready_day - question.now_day >= limits.dose_days) add(ammonia_dose(posterior, plan, question.now_day, limits));
    add(weekly_ammonia(posterior, plan, question.now_day, ready_day, limits));
    add(warm_and_fed(posterior, plan, question.now_day, ready_day, limits));
  }
  add(more_alkalinity(posterior, plan, question.now_day, limits));
  add(seeded_media(plan, question.now_day, limits));
  return measures;
}

MeasureComparison measure_effects(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question, double ready_day,
                                  const MeasureLimits& limits) {
  MeasureComparison comparison;
  const std::vector<bool> planned = ready_on_day(posterior, plan, question, ready_day);
  if (planned.empty()) return comparison;
  const double n = static_cast<double>(planned.size());
  comparison.planned_probability = share_of(planned);
  comparison.planned_standard_error = std::sqrt(comparison.planned_probability * (1.0 - comparison.planned_probability) / n);
  for (Measure& measure : possible_measures(posterior, plan, question, ready_day, limits)) {
    const std::vector<bool> with = ready_on_day(posterior, measure.plan, question, ready_day);
    if (with.size() != planned.size()) continue;
    double gained = 0.0, lost = 0.0;
    for (std::size_t i = 0; i < with.size(); ++i) {
      gained += with[i] && !planned[i] ? 1.0 : 0.0;
      lost += planned[i] && !with[i] ? 1.0 : 0.0;
    }
    const double change = (gained - lost) / n;
    comparison.effects.push_back({std::move(measure), share_of(with), change, std::sqrt(std::max(0.0, (gained + lost) / n - change * change) / n)});
  }
  std::ranges::stable_sort(comparison.effects, std::ranges::greater{}, &MeasureEffect::change);
  return comparison;
}

}  // namespace redd::inference
