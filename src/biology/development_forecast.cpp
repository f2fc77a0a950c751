#include "biology/development_forecast.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "biology/detail/batch_worlds.h"
#include "biology/detail/weighted_values.h"
#include "numerics/normal.h"
#include "quantities/one_or_several.h"

namespace redd::biology {
namespace {

using detail::BatchWorlds;
using detail::clock_count;
using detail::WeightedValues;

constexpr double hottest_c = 35.0, coldest_c = -5.0;  // what a tank thermometer can show while anything lives
constexpr double surprising_sd = 3.0;
constexpr unsigned log2_few_samples = 12, log2_many_samples = 14;
constexpr double enough_effective_samples = 150.0;  // a 5 % tail then rests on seven or more

// --- what was given -------------------------------------------------------------------------------------------------

Problem out_of_range(std::string field, Phrase sentence) {
  return {"out_of_range", std::move(field), std::move(sentence)};
}

bool possible_temperature(Temperature t) {
  return t.c() >= coldest_c && t.c() <= hottest_c;
}
bool possible_doubt(double value) {
  return value >= 0.0 && value < 1e4;
}

void check_temperatures(std::span<const DailyTemperature> temperatures, Problems& problems) {
  if (temperatures.empty()) {
    problems.push_back({"missing_temperature", "temperatures",
                        "A forecast needs a water temperature: log one, or give the temperature planned."});
  }
  for (std::size_t i = 0; i < temperatures.size(); ++i) {
    const DailyTemperature& each = temperatures[i];
    if (!possible_temperature(each.mean) || !possible_doubt(each.sd.c())) {
      problems.push_back(out_of_range("temperatures", said("The water temperature of {0} must lie between -5 and 35 C, its doubt at 0 C or more.", iso_from_date(each.day))));
    }
    if (i > 0 && each.day <= temperatures[i - 1].day) {
      problems.push_back({"days_out_of_order", "temperatures",
                          said("The temperatures must hold one entry a day, oldest first; {0} comes after {1}.", iso_from_date(each.day), iso_from_date(temperatures[i - 1].day))});
    }
  }
}

void check_incubation(const std::optional<IncubationTemperature>& incubation, Problems& problems) {
  if (!incubation) return;
  if (!possible_temperature(incubation->mean) || !possible_doubt(incubation->give_or_take.c())) {
    problems.push_back(
        out_of_range("incubation_temperature_c",
                     "The hatchery's temperature must lie between -5 and 35 C, its doubt at 0 C or more."));
  }
}

struct CheckStart {
  Problems& problems;
  void operator()(const Fertilised& start) const {
    check_incubation(start.incubation, problems);
    if (!possible_doubt(start.give_or_take.count()))
      problems.push_back(
          out_of_range("fertilised_give_or_take_days", "The doubt of the fertilisation day must be 0 days or more."));
  }
  void operator()(const ThermalUnitsSoFar& start) const {
    check_incubation(start.incubation, problems);
    if (!possible_doubt(start.sum.c_days()) || !possible_doubt(start.give_or_take.c_days()))
      problems.push_back(
          out_of_range("thermal_sum_c_days", "The thermal units so far and their doubt must be 0 or more, in C-days."));
  }
  void operator()(const ReceivedEyed& start) const {
    check_incubation(start.incubation, problems);
    const double low = start.least_share_of_hatch, high = start.most_share_of_hatch;
    if (!(low > 0.0 && low <= high && high < 1.0))
      problems.push_back(
          out_of_range("share_of_hatch",
                       "Eyed eggs stand between 0 and 1 of the way to hatch, the least share not above the most."));
  }
};

Problems problems_of(const BatchStart& start, std::span<const DailyTemperature> temperatures,
                     std::span<const ObservedMilestone> observations) {
  Problems problems;
  check_temperatures(temperatures, problems);
  std::visit(CheckStart{problems}, start.known);
  if (start.egg_count && *start.egg_count < 1)
    problems.push_back(out_of_range("egg_count", "A batch has at least one egg."));
  for (const ObservedMilestone& each : observations)
    if (!possible_doubt(each.since_last_look.count()))
      problems.push_back(out_of_range("since_last_look_days", "The time since the last look must be 0 days or more."));
  return problems;
}

// --- observations ---------------------------------------------------------------------------------------------------

std::string_view words_for(Milestone milestone) {
  switch (milestone) {
    case Milestone::first_eyes:
      return "first eyes";
    case Milestone::half_eyed:
      return "half eyed";
    case Milestone::first_hatch:
      return "first hatch";
    case Milestone::half_hatched:
      return "half hatched";
    case Milestone::hatch_complete:
      return "hatch complete";
    case Milestone::first_swim_up:
      return "first swim-up";
    case Milestone::half_swum_up:
      break;
  }
  return "half swum up";
}

/// Why an observation must be left out, or empty.
Sentence reason_to_leave_out(std::span<const ObservationReport> earlier, const ObservedMilestone& o,
                             const BatchStart& start, Date today) {
  const Word what{std::string(words_for(o.milestone))};
  if (o.day > today)
    return {"The entry \"{0}\" on {1} lies in the future and was left out; correct its day.", {what, o.day}};
  if (const auto* eyed = std::get_if<ReceivedEyed>(&start.known)) {
    if (stage_of(o.milestone) == Stage::eyed && o.seen)
      return {"The eggs came eyed, so the entry \"{0}\" on {1} adds nothing to the forecast.", {what, o.day}};
    if (o.day < eyed->day)
      return {"The entry \"{0}\" on {1} is older than the day the eggs came and was left out; correct one of the two.",
              {what, o.day}};
  }
  if (const auto* fertilised = std::get_if<Fertilised>(&start.known); fertilised && o.day <= fertilised->day)
    return {"The entry \"{0}\" on {1} is not after the day of fertilisation and was left out; correct one of the two.",
            {what, o.day}};
  for (const ObservationReport& each : earlier) {
    if (!each.observation.seen || each.observation.milestone != o.milestone || !each.used) continue;
    if (o.seen)
      return {"The entry \"{0}\" on {1} repeats one of {2}; the earlier one counts.",
              {what, o.day, each.observation.day}};
    return {
        "The entry \"not yet {0}\" on {1} contradicts the sighting of {2} and was left out; correct one of the two.",
        {what, o.day, each.observation.day}};
  }
  return {};
}

/// In order of day; of several "not yet" of one milestone only the last counts, since it says all the others said.
std::vector<ObservationReport> sorted_reports(std::span<const ObservedMilestone> observations, const BatchStart& start,
                                              Date today) {
  std::vector<ObservedMilestone> sorted(observations.begin(), observations.end());
  std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.day < b.day; });
  std::vector<ObservationReport> reports;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    ObservationReport report{sorted[i]};
    report.sentence = reason_to_leave_out(reports, sorted[i], start, today);
    const bool said_later =
        !sorted[i].seen &&
        std::any_of(sorted.begin() + static_cast<std::ptrdiff_t>(i) + 1, sorted.end(), [&](const auto& later) {
          return !later.seen && later.milestone == sorted[i].milestone && later.day <= today;
        });
    report.used = report.sentence.empty() && !said_later;
    reports.push_back(std::move(report));
  }
  return reports;
}

void learn(BatchWorlds& worlds, ObservationReport& report) {
  const auto sighting = worlds.sighting(report.observation);
  const double surprise = worlds.surprise(sighting);
  report.surprise_sd = surprise;
  if (std::abs(surprise) > surprising_sd) {
    report.expected = worlds.expected(sighting);
    const std::string_view english =
        report.observation.seen
            ? "\"{0}\" was logged for {1}, but from what was known before it was expected about {2}, more than three "
              "standard deviations away. Check the day of this entry, the start the hatchery gave and the thermometer. "
              "Until "
              "then the forecast follows what was seen, with wider windows."
            : "\"Not yet {0}\" was logged for {1}, but from what was known before it was expected about {2}, more than "
              "three "
              "standard deviations away. Check the day of this entry, the start the hatchery gave and the thermometer. "
              "Until "
              "then the forecast follows what was seen, with wider windows.";
    report.sentence = {
        english,
        {Word{std::string(words_for(report.observation.milestone))}, report.observation.day, day_of(*report.expected)}};
    // Assumed: the departure is real but the curve or the start is worse than thought; widened until it is a 2 sd
    // event.
    worlds.widen((surprise / 2.0) * (surprise / 2.0));
  }
  worlds.learn(sighting);
}

// --- answers --------------------------------------------------------------------------------------------------------

MomentWindow window_of(const BatchWorlds& worlds, Stage stage, double z) {
  const WeightedValues positions = worlds.positions(stage, z);
  const auto at = [&](double probability) { return worlds.timeline().moment(positions.quantile(probability)); };
  MomentWindow window{at(0.05), at(0.25), at(0.5), at(0.75), at(0.95), false};
  window.open_ended = positions.quantile(0.95) >= static_cast<double>(worlds.timeline().size()) - 1e-6;
  return window;
}

StageForecast stage_forecast(const BatchWorlds& worlds, Stage stage, std::string_view model_key, CalendarMoment now) {
  StageForecast forecast;
  forecast.stage = stage;
  forecast.model_key = model_key;
  const double tenth_z = numerics::normal_quantile(0.9);
  forecast.lot = window_of(worlds, stage, 0.0);
  forecast.first_tenth = window_of(worlds, stage, -tenth_z);
  forecast.last_tenth = window_of(worlds, stage, tenth_z);
  forecast.happened_probability = worlds.probability_by(stage, now);
  const WeightedValues past = worlds.past_fractions(stage, now);
  forecast.past_fraction = {past.quantile(0.05), past.quantile(0.5), past.quantile(0.95), Support::inferred};
  forecast.days_outside_test_range = worlds.days_outside_test_range(stage);
  return forecast;
}

Sentence note_on_stage(const StageForecast& forecast) {
  const Word name{forecast.stage == Stage::swim_up ? "Swim-up" : forecast.stage == Stage::hatch ? "Hatch" : "Eyeing"};
  if (forecast.lot.open_ended)
    return {"{0} may not come within the days looked at: the water is too cold or the plan too short to say.", {name}};
  if (forecast.days_outside_test_range > 0)
    return {"{0}: on some days the water is outside the temperatures the curve was tested at; the window was widened.",
            {name}};
  return {};
}

/// The curves of eyed, hatch and swim-up.
std::vector<DevelopmentModel> models_of(const SpeciesProfile& species, const ModelChoice& choice, Problems& problems) {
  std::vector<DevelopmentModel> models;
  for (const auto& [stage, key] : {std::pair{Stage::eyed, choice.eyed.empty() ? choice.hatch : choice.eyed},
                                   std::pair{Stage::hatch, choice.hatch}, std::pair{Stage::swim_up, choice.swim_up}}) {
    auto model = model_for(species, stage, key);
    if (model)
      models.push_back(*model);
    else
      problems.insert(problems.end(), model.problems().begin(), model.problems().end());
  }
  return models;
}

/// What the samples say at this moment, drawn down to `count` lots of equal weight: systematic, in the order of hatch so that the
/// draws lie evenly.
std::vector<LotToGo> drawn_evenly(std::vector<LotToGo> lots, std::size_t count) {
  const auto to_hatch = [](const LotToGo& lot) { return lot.stages[1].need - lot.stages[1].done; };
  std::sort(lots.begin(), lots.end(), [&](const LotToGo& a, const LotToGo& b) { return to_hatch(a) < to_hatch(b); });
  double total = 0.0;
  for (const LotToGo& lot : lots) total += lot.weight;
  std::vector<LotToGo> drawn;
  std::size_t at = 0;
  double passed = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const double wanted = (static_cast<double>(i) + 0.5) / static_cast<double>(count) * total;
    while (at + 1 < lots.size() && passed + lots[at].weight < wanted) passed += lots[at++].weight;
    drawn.push_back(lots[at]);
    drawn.back().weight = 1.0 / static_cast<double>(count);
  }
  return drawn;
}

}  // namespace

double batch_log_sd(EggOrigin origin) {
  return origin == EggOrigin::farmed ? 0.025 : 0.05;
}

Result<DevelopmentForecast> forecast_development(const SpeciesProfile& species, const ModelChoice& choice,
                                                 const BatchStart& start,
                                                 std::span<const DailyTemperature> temperatures,
                                                 std::span<const ObservedMilestone> observations, Date today) {
  Problems problems = problems_of(start, temperatures, observations);
  const std::vector<DevelopmentModel> models = models_of(species, choice, problems);
  if (!problems.empty()) return problems;

  const detail::Clocks clocks({models[0], models[1], models[2]});
  const detail::Timeline timeline =
      detail::timeline_from(temperatures, detail::record_needed_from(start.known, temperatures.front().day), today);
  const CalendarMoment now = noon_of(today);

  DevelopmentForecast forecast;
  forecast.today = today;
  for (const unsigned log2_samples : {log2_few_samples, log2_many_samples}) {
    BatchWorlds worlds(species, clocks, timeline, start, log2_samples);
    forecast.observations = sorted_reports(observations, start, today);
    for (ObservationReport& each : forecast.observations)
      if (each.used) learn(worlds, each);
    worlds.settle();
    forecast.effective_samples = worlds.effective_samples();
    if (forecast.effective_samples < enough_effective_samples && log2_samples == log2_few_samples) continue;

    for (const Stage stage : all_stages)
      forecast.stages[static_cast<std::size_t>(stage)] =
          stage_forecast(worlds, stage, models[static_cast<std::size_t>(stage)].key, now);
    forecast.lot_stage_probability = worlds.lot_stage_probability(now);
    forecast.batch_fraction = worlds.batch_fraction(now);
    const WeightedValues sums = worlds.thermal_sums(now);
    const auto sum_at = [&](double p) { return ThermalSum::from_c_days(sums.quantile(p)); };
    forecast.thermal_sum = {sum_at(0.05), sum_at(0.5), sum_at(0.95), Support::inferred};
    forecast.notes = worlds.notes();
    break;
  }
  forecast.filled_days = timeline.filled_days;
  if (timeline.filled_days > 0)
    forecast.notes.push_back(
        {one_or_several(timeline.filled_days, "{0} day without a measured temperature was filled in, with more doubt.", "{0} days without a measured temperature were filled in, with more doubt."), {Number{timeline.filled_days}}});
  for (const StageForecast& each : forecast.stages)
    if (auto note = note_on_stage(each); !note.empty()) forecast.notes.push_back(std::move(note));
  if (forecast.effective_samples < enough_effective_samples)
    forecast.notes.push_back("The observations fit this start badly; take the windows as rough.");
  return forecast;
}

Result<std::vector<LotToGo>> lots_to_go(const SpeciesProfile& species, const ModelChoice& choice, const BatchStart& start,
                                        std::span<const DailyTemperature> temperatures,
                                        std::span<const ObservedMilestone> observations, Date today, std::size_t count) {
  Problems problems = problems_of(start, temperatures, observations);
  const std::vector<DevelopmentModel> models = models_of(species, choice, problems);
  if (count < 1) problems.push_back(out_of_range("count", "At least one lot must be asked for."));
  if (!problems.empty()) return problems;
  const detail::Clocks clocks({models[0], models[1], models[2]});
  const detail::Timeline timeline =
      detail::timeline_from(temperatures, detail::record_needed_from(start.known, temperatures.front().day), today);
  BatchWorlds worlds(species, clocks, timeline, start, log2_few_samples);
  for (ObservationReport& each : sorted_reports(observations, start, today))
    if (each.used) learn(worlds, each);
  worlds.settle();
  return drawn_evenly(worlds.lots_to_go(CalendarMoment(today) + Days(1.0)), count);
}

}  // namespace redd::biology
