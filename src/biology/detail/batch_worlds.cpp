#include "biology/detail/batch_worlds.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "numerics/normal.h"

namespace redd::biology::detail {
namespace {

constexpr double half_90_in_sd = 1.6448536269514722;  // normal quantile of 0.95

// Eggs of a batch when the keeper gave no number. Assumed: a classroom batch; 50 or 1000 move "the first" by 0.4 sd.
constexpr int usual_egg_count = 200;
// Assumed: which animal was "the first" is as uncertain as the extreme of some hundred normals (0.45 sd), and the
// spread itself is known to 40 %; "half" is judged by eye to about a third of the spread.
constexpr double extreme_sd = 0.45, spread_doubt = 0.4, judging_half_sd = 0.35;
// 0.06 for a lot error of 0.08 (see docs/science/development.md); keeps the swim-up error at 0.08 when nothing was
// seen.
constexpr double swim_up_own_share = 0.75;
// Doubt of a hatchery temperature nobody told us, sd. Assumed: hatcheries incubate within a few degrees of the green
// band's middle.
constexpr double untold_incubation_sd_c = 2.0;
constexpr double coldest_incubation_c = 0.5;
// Assumed: a look is at some time between early morning and evening.
constexpr double within_day_sd = 0.2;
// Floors that keep logarithms finite for sightings at or before the start; such sightings are reported as surprising.
constexpr double least_progress = 0.01;

std::size_t index_of(Stage stage) {
  return static_cast<std::size_t>(stage);
}

const std::optional<IncubationTemperature>& incubation_told(const StartKnown& known) {
  return std::visit([](const auto& start) -> const std::optional<IncubationTemperature>& { return start.incubation; },
                    known);
}

IncubationTemperature usual_incubation(const SpeciesProfile& species) {
  const double middle_c = (species.green_egg.green_low.c() + species.green_egg.green_high.c()) / 2.0;
  return {Temperature::from_c(middle_c), TemperatureChange::from_c(half_90_in_sd * untold_incubation_sd_c)};
}

}  // namespace

Date record_needed_from(const StartKnown& known, Date first_recorded) {
  if (const auto* units = std::get_if<ThermalUnitsSoFar>(&known)) return units->as_of;
  if (const auto* eyed = std::get_if<ReceivedEyed>(&known)) return eyed->day;
  return first_recorded;
}

BatchWorlds::BatchWorlds(const SpeciesProfile& species, const Clocks& clocks, const Timeline& timeline,
                         const BatchStart& start, unsigned log2_samples)
    : species_(species),
      clocks_(clocks),
      timeline_(timeline),
      batch_(start),
      incubation_(incubation_told(start.known).value_or(usual_incubation(species))),
      spread_(batch_log_sd(start.origin)),
      paths_(clocks, timeline) {
  const LotErrors prior = prior_errors();
  const EvenPoints points(log2_samples);
  samples_.reserve(points.count());
  for (std::size_t i = 0; i < points.count(); ++i) {
    const auto u = points.point(i);
    const auto normal = [&](std::size_t d) { return numerics::normal_quantile(u[d]); };
    Sample sample = sample_of({normal(0), normal(1)}, start_of(u[2], normal(2), normal(3)), prior);
    sample.x = {normal(4), normal(5), normal(6)};  // standard normals until settle()
    samples_.push_back(sample);
  }
  const bool before_record =
      std::holds_alternative<Fertilised>(start.known) && std::get<Fertilised>(start.known).day < timeline.first_day;
  const bool needs_incubation = before_record || !std::holds_alternative<Fertilised>(start.known);
  if (needs_incubation && !incubation_told(start.known))
    notes_.push_back(
        "The hatchery's water temperature is not known; the middle of the species' egg band was assumed, with wide "
        "doubt.");
}

BatchWorlds::Sample BatchWorlds::sample_of(const Shifts& shifts, const Start& start, const LotErrors& errors) const {
  Sample sample{paths_.world(shifts), shifts[static_cast<std::size_t>(DayKind::to_come)], start, {}, errors};
  for (std::size_t clock = 0; clock < clock_count; ++clock)
    sample.total_at_start[clock] = sample.world.total(clock, start.position);
  return sample;
}

LotErrors BatchWorlds::prior_errors() {
  // Extrapolation along the most likely history widens each stage's error.
  const Sample middle = sample_of({0.0, 0.0}, start_of(0.5, 0.0, 0.0), LotErrors(0.0, 0.0, 0.0));
  std::array<double, 3> extra_sd{};
  for (std::size_t stage = 0; stage < 3; ++stage) {
    const double end = position_at(middle, stage, 0.0, 0.0);
    double outside_c_days = 0.0;
    for (auto day = static_cast<std::size_t>(std::max(0.0, middle.start.position));
         static_cast<double>(day) < end && day < timeline_.size(); ++day) {
      const double outside_c = outside_test_range(clocks_.model(stage), timeline_.mean[day]).c();
      outside_c_days += outside_c;
      if (outside_c > 0.0) ++days_outside_[stage];
    }
    extra_sd[stage] = extrapolation_log_sd_per_c * outside_c_days / std::max(1.0, end - middle.start.position);
  }
  const double lot = species_.lot_log_sd;
  return {std::hypot(lot, extra_sd[1]), std::hypot(eyed_share_log_sd, extra_sd[0]),
          std::hypot(swim_up_own_share * lot, extra_sd[2])};
}

// --- the start ------------------------------------------------------------------------------------------------------

BatchWorlds::Start BatchWorlds::start_of(double start_uniform, double start_normal, double incubation_normal) const {
  const double incubation_c = incubation_.mean.c() + incubation_normal * incubation_.give_or_take.c() / half_90_in_sd;
  const auto incubation = Temperature::from_c(std::max(incubation_c, coldest_incubation_c));
  if (const auto* known = std::get_if<Fertilised>(&batch_.known)) return fertilised(*known, start_normal, incubation);
  if (const auto* known = std::get_if<ThermalUnitsSoFar>(&batch_.known))
    return thermal_units(*known, start_normal, incubation);
  return received_eyed(*std::get_if<ReceivedEyed>(&batch_.known), start_uniform, incubation);
}

BatchWorlds::Start BatchWorlds::fertilised(const Fertilised& known, double start_normal, Temperature incubation) const {
  const double day = timeline_.position(noon_of(known.day)) + start_normal * known.give_or_take.count() / half_90_in_sd;
  Start start{std::max(0.0, day), {}, clocks_.per_day(incubation), false};
  for (std::size_t clock = 0; clock < clock_count; ++clock)
    start.progress[clock] = std::max(0.0, -day) * start.pre_rate[clock];
  return start;
}

BatchWorlds::Start BatchWorlds::thermal_units(const ThermalUnitsSoFar& known, double start_normal,
                                              Temperature incubation) const {
  const double sum_c_days =
      std::max(0.0, known.sum.c_days() + start_normal * known.give_or_take.c_days() / half_90_in_sd);
  Start start{timeline_.position(noon_of(known.as_of)), {}, clocks_.per_day(incubation), false};
  const double days = sum_c_days / start.pre_rate[thermal_clock];
  for (std::size_t clock = 0; clock < clock_count; ++clock) start.progress[clock] = days * start.pre_rate[clock];
  return start;
}

BatchWorlds::Start BatchWorlds::received_eyed(const ReceivedEyed& known, double start_uniform,
                                              Temperature incubation) const {
  const double share =
      known.least_share_of_hatch + start_uniform * (known.most_share_of_hatch - known.least_share_of_hatch);
  Start start{timeline_.position(noon_of(known.day)), {}, clocks_.per_day(incubation), true};
  const double days = share / start.pre_rate[index_of(Stage::hatch)];
  for (std::size_t clock = 0; clock < clock_count; ++clock) start.progress[clock] = days * start.pre_rate[clock];
  return start;
}

// --- one world ------------------------------------------------------------------------------------------------------

/// Progress from the start's position to this one; negative before it, at the hatchery's pace.
double BatchWorlds::gained(const Sample& sample, std::size_t clock, double position) const {
  const Start& start = sample.start;
  if (position < start.position) return (position - start.position) * start.pre_rate[clock];
  return sample.world.total(clock, position) - sample.total_at_start[clock];
}

/// Where the animal z passes the stage, if the lot's error is x.
double BatchWorlds::position_at(const Sample& sample, std::size_t stage, double x, double z) const {
  const Start& start = sample.start;
  const double animal = std::exp(spread_ * z);
  const double to_go =
      start.own_share ? std::exp(x) * (animal - start.progress[stage]) : std::exp(x) * animal - start.progress[stage];
  if (to_go <= 0.0)
    return start.pre_rate[stage] > 0.0 ? start.position + to_go / start.pre_rate[stage] : start.position;
  return sample.world.position_of(stage, sample.total_at_start[stage] + to_go);
}

double BatchWorlds::past_fraction(const Sample& sample, std::size_t stage, double position) const {
  const double gain = gained(sample, stage, position);
  const double k = std::exp(sample.x[stage]);
  const double relative =
      sample.start.own_share ? sample.start.progress[stage] + gain / k : (sample.start.progress[stage] + gain) / k;
  return relative > 0.0 ? numerics::normal_cdf(std::log(relative) / spread_) : 0.0;
}

/// The lot's error as this sighting shows it: progress = exp(x) times the animal's own factor.
BatchWorlds::Reading BatchWorlds::reading(const Sample& sample, const Sighting& sighting) const {
  const double gain = gained(sample, sighting.stage, sighting.position);
  const double rate =
      gained(sample, sighting.stage, sighting.position + 0.5) - gained(sample, sighting.stage, sighting.position - 0.5);
  const double animal = std::exp(spread_ * sighting.z);
  const double already = sample.start.progress[sighting.stage];
  const double progress = std::max(sample.start.own_share ? gain : already + gain, least_progress);
  const double factor = sample.start.own_share ? std::max(animal - already, least_progress) : animal;
  const double judging = sighting.judging_sd * animal / factor;
  const double day = sighting.day_sd * rate / progress;
  constexpr double least_sd = 1e-3;  // nothing seen through glass is surer than a thousandth
  return {std::log(progress / factor), judging * judging + day * day + least_sd * least_sd};
}

// --- learning -------------------------------------------------------------------------------------------------------

Sighting BatchWorlds::sighting(const ObservedMilestone& observation) const {
  const double eggs = batch_.egg_count.value_or(usual_egg_count);
  // Median of the smallest of n: the quantile 1 - 0.5^(1/n).
  const double first_z = std::min(0.0, numerics::normal_quantile(1.0 - std::pow(0.5, 1.0 / eggs)));
  double z = 0.0;
  switch (observation.milestone) {
    case Milestone::first_eyes:
    case Milestone::first_hatch:
    case Milestone::first_swim_up:
      z = first_z;
      break;
    case Milestone::hatch_complete:
      z = -first_z;
      break;
    case Milestone::half_eyed:
    case Milestone::half_hatched:
    case Milestone::half_swum_up:
      break;
  }
  const double judging_sd = z == 0.0 ? judging_half_sd : std::hypot(extreme_sd, spread_doubt * z);
  // A sighting dates the event between two looks, evenly; a "not yet" speaks of its own day.
  const double wait_days = observation.seen ? observation.since_last_look.count() : 0.0;
  return {index_of(stage_of(observation.milestone)),
          z,
          observation.seen,
          timeline_.position(noon_of(observation.day)) - wait_days / 2.0,
          std::hypot(wait_days / std::sqrt(12.0), within_day_sd),
          judging_sd * spread_};
}

std::vector<double> BatchWorlds::current_weights() const {
  double greatest = -std::numeric_limits<double>::infinity();
  for (const Sample& each : samples_) greatest = std::max(greatest, each.log_weight);
  std::vector<double> weights;
  weights.reserve(samples_.size());
  double total = 0.0;
  for (const Sample& each : samples_) total += weights.emplace_back(std::exp(each.log_weight - greatest));
  for (double& each : weights) each /= total;
  return weights;
}

double BatchWorlds::surprise(const Sighting& sighting) const {
  const std::vector<double> weights = current_weights();
  double mean = 0.0, square = 0.0, not_yet_probability = 0.0;
  for (std::size_t i = 0; i < samples_.size(); ++i) {
    const Reading shown = reading(samples_[i], sighting);
    const double distance = shown.value - samples_[i].errors.mean(sighting.stage);
    const double variance = shown.variance + samples_[i].errors.variance(sighting.stage);
    mean += weights[i] * distance;
    square += weights[i] * (variance + distance * distance);
    not_yet_probability += weights[i] * numerics::normal_cdf(-distance / std::sqrt(variance));
  }
  if (sighting.seen) return mean / std::sqrt(std::max(square - mean * mean, 1e-12));
  return std::max(0.0, -numerics::normal_quantile(std::max(not_yet_probability, 1e-300)));
}

CalendarMoment BatchWorlds::expected(const Sighting& sighting) const {
  const std::vector<double> weights = current_weights();
  std::vector<std::pair<double, double>> positions;
  positions.reserve(samples_.size());
  for (std::size_t i = 0; i < samples_.size(); ++i)
    positions.emplace_back(
        position_at(samples_[i], sighting.stage, samples_[i].errors.mean(sighting.stage), sighting.z), weights[i]);
  return timeline_.moment(WeightedValues(std::move(positions)).quantile(0.5));
}

void BatchWorlds::widen(double variance_factor) {
  for (Sample& each : samples_) each.errors.widen(variance_factor);
}

void BatchWorlds::learn(const Sighting& sighting) {
  if (sighting.seen) {
    for (Sample& each : samples_) {
      const Reading shown = reading(each, sighting);
      // The density is of x; worlds in which a day is worth more of x are not thereby less likely, so it is turned into
      // days.
      const double per_day = (gained(each, sighting.stage, sighting.position + 0.5) -
                              gained(each, sighting.stage, sighting.position - 0.5));
      const double progress = std::max(gained(each, sighting.stage, sighting.position) +
                                           (each.start.own_share ? 0.0 : each.start.progress[sighting.stage]),
                                       least_progress);
      each.log_weight += each.errors.learn_value(sighting.stage, shown.value, shown.variance) +
                         std::log(std::max(per_day / progress, 1e-6));
    }
    return;
  }
  learn_not_yet(sighting);
  // Where not even the first has passed, the half cannot have, however close together they all are.
  if (sighting.z < 0.0) {
    Sighting half = sighting;
    half.z = 0.0;
    half.judging_sd = 0.0;
    learn_not_yet(half);
  }
}

void BatchWorlds::learn_not_yet(const Sighting& sighting) {
  NotYet not_yet{sighting, {}};
  not_yet.stand_ins.reserve(samples_.size());
  for (Sample& each : samples_) {
    const Reading shown = reading(each, sighting);
    double log_evidence = 0.0;
    not_yet.stand_ins.push_back(each.errors.learn_not_yet(sighting.stage, shown.value, shown.variance, &log_evidence));
    each.log_weight += log_evidence;
  }
  not_yets_.push_back(std::move(not_yet));
}

void BatchWorlds::settle() {
  for (std::size_t i = 0; i < samples_.size(); ++i) {
    Sample& sample = samples_[i];
    sample.x = sample.errors.draw(sample.x);
    // What the Gaussian stand-ins got wrong about each "not yet" is put right by the weight.
    for (const NotYet& each : not_yets_) {
      const Reading shown = reading(sample, each.sighting);
      const double x = sample.x[each.sighting.stage];
      const LotErrors::StandIn& used = each.stand_ins[i];
      double log_used = used.log_scale;
      if (used.variance > 0.0) {
        const double distance = used.value - x;
        log_used -= 0.5 * (distance * distance / used.variance + std::log(2.0 * std::numbers::pi * used.variance));
      }
      sample.log_weight += numerics::log_normal_probability_between(-std::numeric_limits<double>::infinity(),
                                                                    (x - shown.value) / std::sqrt(shown.variance)) -
                           log_used;
    }
  }
  const std::vector<double> weights = current_weights();
  for (std::size_t i = 0; i < samples_.size(); ++i) samples_[i].weight = weights[i];
}

// --- questions ------------------------------------------------------------------------------------------------------

WeightedValues BatchWorlds::positions(Stage stage, double z) const {
  std::vector<std::pair<double, double>> values;
  values.reserve(samples_.size());
  for (const Sample& each : samples_)
    values.emplace_back(position_at(each, index_of(stage), each.x[index_of(stage)], z), each.weight);
  return WeightedValues(std::move(values));
}

double BatchWorlds::probability_by(Stage stage, CalendarMoment moment) const {
  const double position = timeline_.position(moment);
  double probability = 0.0;
  for (const Sample& each : samples_)
    if (position_at(each, index_of(stage), each.x[index_of(stage)], 0.0) <= position) probability += each.weight;
  return std::min(probability, 1.0);
}

WeightedValues BatchWorlds::past_fractions(Stage stage, CalendarMoment moment) const {
  const double position = timeline_.position(moment);
  std::vector<std::pair<double, double>> values;
  values.reserve(samples_.size());
  for (const Sample& each : samples_) values.emplace_back(past_fraction(each, index_of(stage), position), each.weight);
  return WeightedValues(std::move(values));
}

std::array<double, 4> BatchWorlds::lot_stage_probability(CalendarMoment moment) const {
  const double eyed = probability_by(Stage::eyed, moment);
  const double hatched = std::min(eyed, probability_by(Stage::hatch, moment));
  const double swum_up = std::min(hatched, probability_by(Stage::swim_up, moment));
  return {1.0 - eyed, eyed - hatched, hatched - swum_up, swum_up};
}

std::array<double, 4> BatchWorlds::batch_fraction(CalendarMoment moment) const {
  const double position = timeline_.position(moment);
  std::array<double, 3> past{};
  for (const Sample& each : samples_)
    for (std::size_t stage = 0; stage < 3; ++stage) past[stage] += each.weight * past_fraction(each, stage, position);
  const double eyed = std::min(past[0], 1.0), hatched = std::min(eyed, past[1]), swum_up = std::min(hatched, past[2]);
  return {1.0 - eyed, eyed - hatched, hatched - swum_up, swum_up};
}

WeightedValues BatchWorlds::thermal_sums(CalendarMoment moment) const {
  const double position = timeline_.position(moment);
  std::vector<std::pair<double, double>> values;
  values.reserve(samples_.size());
  for (const Sample& each : samples_) {
    // A share of the lot's own way to hatch is that much longer a stay in the lots that are slower than the curve.
    const double stay = each.start.own_share ? std::exp(each.x[index_of(Stage::hatch)]) : 1.0;
    values.emplace_back(
        std::max(0.0, stay * each.start.progress[thermal_clock] + gained(each, thermal_clock, position)), each.weight);
  }
  return WeightedValues(std::move(values));
}

std::vector<LotToGo> BatchWorlds::lots_to_go(CalendarMoment moment) const {
  const double position = timeline_.position(moment);
  std::vector<LotToGo> lots;
  lots.reserve(samples_.size());
  for (const Sample& each : samples_) {
    LotToGo lot;
    lot.weight = each.weight;
    lot.shift_to_come_sd = each.shift_to_come;
    for (std::size_t stage = 0; stage < 3; ++stage) {
      const double before = each.start.progress[stage] * (each.start.own_share ? std::exp(each.x[stage]) : 1.0);
      lot.stages[stage] = {std::exp(each.x[stage]), before + gained(each, stage, position)};
    }
    lots.push_back(lot);
  }
  return lots;
}

double BatchWorlds::effective_samples() const {
  double squares = 0.0;
  for (const Sample& each : samples_) squares += each.weight * each.weight;
  return squares > 0.0 ? 1.0 / squares : 0.0;
}

}  // namespace redd::biology::detail
