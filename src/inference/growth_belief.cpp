#include "inference/growth_belief.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "inference/brood_days.h"
#include "numerics/normal.h"
#include "numerics/weighted_samples.h"
#include "records/food.h"

namespace redd::inference {
namespace {

using biology::GrowthModel;
using std::chrono::days;

constexpr std::size_t draws_each_model = 400;
constexpr double z90 = 1.6448536269514722;
constexpr days ahead{56}, week{7};

// Assumed: see growth_belief.h.
constexpr double school_share_of_growth = 0.8, school_log_sd = 0.2;
constexpr double size_log_sd = 0.25, weighing_log_sd = 0.07;
/// One sample in twenty is a slip; then it says little (a factor of e).
constexpr double slip_share = 0.05, slip_log_sd = 1.0;
constexpr double surprising_sd = 3.0;

double log_sd_of(const Estimate<double>& e) { return std::log(e.high / e.low) / (2.0 * z90); }

/// Growth of one brood is not the same month after month: food, size and crowding change. Standard deviation of the logarithm of its factor over
/// four weeks, growing with the root of time. Assumed; rainbow trout in a published series [sadoul_growth] grew by a factor of 1.0 for four weeks
/// and of 1.5 in the six after.
constexpr double drift_log_sd = 0.25, drift_days = 28.0;

/// One possible fish: its model, and its growth from each sample to the next.
struct Draw {
  struct Stretch {
    double from_day = 0, from_g = 0, factor = 0;
  };
  int model = 0;
  double drift_place = 0.5;  ///< in 0 to 1: which drift it has since the newest sample
  double log_weight = 0;
  std::vector<Stretch> stretches{};
};

double fraction_of(double value) { return value - std::floor(value); }
double normal_at(double place) { return numerics::normal_quantile(std::clamp(place, 1e-4, 1.0 - 1e-4)); }

/// Sums of both models' rises since the first day of the temperatures, at the start of each day.
class Rises {
 public:
  Rises(const std::array<GrowthModel, 2>& models, const std::vector<biology::DailyTemperature>& temperatures) {
    for (std::size_t m = 0; m < 2; ++m) {
      sums_[m].push_back(0.0);
      for (const auto& day : temperatures) sums_[m].push_back(sums_[m].back() + biology::rise_per_day(models[m], day.mean));
    }
  }
  /// From one fractional day to another, no less than 0.
  double between(std::size_t model, double from, double to) const { return to > from ? at(model, to) - at(model, from) : 0.0; }

 private:
  double at(std::size_t model, double day) const {
    const auto& sums = sums_[model];
    const double place = std::clamp(day, 0.0, static_cast<double>(sums.size() - 1));
    const auto below = std::min(static_cast<std::size_t>(place), sums.size() - 2);
    return sums[below] + (place - static_cast<double>(below)) * (sums[below + 1] - sums[below]);
  }
  std::array<std::vector<double>, 2> sums_;
};

struct Begun {
  Date day{};
  double sd_days = 1.0;
  bool known = false;
};

/// First food: as logged, else the half that were seen to swim up, else when they are expected to.
Begun feeding_begun(std::span<const records::Record> records, const Belief& belief, const ZoneOffsets& zone) {
  const auto& swim_up = belief.brood.forecast->stage(biology::Stage::swim_up).lot;
  // Food in the tank long before anything could eat it began no growth. Assumed: two weeks before the soonest.
  const Date soonest = biology::day_of(swim_up.low_90) - days(14);
  std::optional<Date> fed, seen;
  for (const auto& record : records) {
    const Date day = local_day(zone, record.entry.at);
    const auto* milestone = std::get_if<records::Milestone>(&record.entry.body);
    const bool feeding = std::holds_alternative<records::Feeding>(record.entry.body) || (milestone && milestone->seen && milestone->which == records::Milestone::Which::first_feed);
    if (feeding && day >= soonest && !fed) fed = day;
  }
  for (const auto& look : belief.brood.seen)
    if (look.milestone == biology::Milestone::half_swum_up && look.seen && !seen) seen = look.day;
  // Who logs feedings only from the second month on did not begin then.
  // Nor did they wait for weeks after they were seen to swim up. Assumed: five days at most.
  if (fed && seen && *fed > *seen + days(5)) fed.reset();
  if (fed && *fed <= biology::day_of(swim_up.high_90) + days(14)) return {*fed, 1.0, true};
  if (seen) return {*seen, 1.5, true};
  return {biology::day_of(swim_up.median), std::max(1.0, Days(swim_up.high_90 - swim_up.low_90).count() / (2.0 * z90)), false};
}

std::vector<Draw> prior_draws(const std::array<GrowthModel, 2>& models, const biology::SpeciesProfile& species, const Begun& begun, double begun_place) {
  // Steps of an even spread in four dimensions (the plastic number's generalisation); no seed, no chance.
  constexpr std::array<double, 4> steps{0.8566748838545029, 0.7338918566271260, 0.6287067210378087, 0.5385972572236101};
  const double start_log_sd = std::log(species.swim_up_weight.high.g() / species.swim_up_weight.low.g()) / (2.0 * z90);
  std::vector<Draw> draws;
  for (int m = 0; m < 2; ++m) {
    const auto& factor = models[static_cast<std::size_t>(m)].factor;
    const double factor_log_sd = std::hypot(log_sd_of(factor), school_log_sd);
    for (std::size_t i = 1; i <= draws_each_model; ++i) {
      const auto place = [&](std::size_t axis) { return fraction_of(0.5 + steps[axis] * static_cast<double>(i)); };
      const auto z = [&](std::size_t axis) { return normal_at(place(axis)); };
      draws.push_back({m, place(3), 0.0, {{begun_place + begun.sd_days * z(2), species.swim_up_weight.mid.g() * std::exp(start_log_sd * z(0)),
                                           school_share_of_growth * factor.mid * std::exp(factor_log_sd * z(1))}}});
    }
  }
  return draws;
}

/// What a sample says of the mean weight.
WeighedSample weighed(const records::FishSample& sample, const biology::SpeciesProfile& species, Date day, RecordId id) {
  WeighedSample w{.day = day, .count = sample.count, .record = id};
  const double between_fish = size_log_sd / std::sqrt(static_cast<double>(std::max(1, sample.count)));
  double cubes_g = 0.0, condition_cubes = 0.0;
  for (const double length : sample.lengths_mm) {
    cubes_g += biology::weight_by_length(length, biology::usual_condition(species, length)).g();
    condition_cubes += biology::weight_by_length(length, 1.0).g();
  }
  if (sample.mass) {
    w.mean = Mass::from_g(sample.mass->g() / std::max(1, sample.count));
    w.log_sd = std::hypot(between_fish, weighing_log_sd);
    if (condition_cubes > 0.0) w.condition = sample.mass->g() / condition_cubes;
  } else if (!sample.lengths_mm.empty()) {
    w.mean = Mass::from_g(cubes_g / static_cast<double>(sample.lengths_mm.size()));
    w.log_sd = std::hypot(between_fish, biology::usual_condition_log_sd);
    w.from_lengths = true;
  }
  return w;
}

/// All draws on one day.
class Draws {
 public:
  Draws(std::vector<Draw> draws, const std::array<GrowthModel, 2>& models, const Rises& rises) : draws_(std::move(draws)), models_(models), rises_(rises) {
    reweigh();
  }
  std::vector<double> grams_on(double day_place) const {
    std::vector<double> grams;
    for (const Draw& d : draws_) {
      const auto m = static_cast<std::size_t>(d.model);
      const Draw::Stretch* stretch = &d.stretches.front();
      for (const auto& later : d.stretches)
        if (later.from_day <= day_place) stretch = &later;
      const double factor = stretch == &d.stretches.back() ? drifted(d, day_place) : stretch->factor;
      grams.push_back(biology::weight_after(models_[m], Mass::from_g(stretch->from_g), rises_.between(m, stretch->from_day, day_place), factor).g());
    }
    return grams;
  }
  Estimate<Mass> weight_on(double day_place, Support support) const {
    const auto grams = grams_on(day_place);
    const auto at = [&](double share) { return Mass::from_g(numerics::weighted_quantile(grams, weights_, share)); };
    return {at(0.05), at(0.5), at(0.95), support};
  }
  void take(WeighedSample& sample, double day_place) {
    const auto grams = grams_on(day_place);
    std::vector<double> logs;
    for (const double g : grams) logs.push_back(std::log(g));
    const double expected = numerics::weighted_mean(logs, weights_), spread = std::hypot(numerics::weighted_sd(logs, weights_), sample.log_sd);
    sample.expected = weight_on(day_place, Support::inferred);
    sample.surprise_sd = (std::log(sample.mean.g()) - expected) / spread;
    for (std::size_t i = 0; i < draws_.size(); ++i) {
      const double off = std::log(sample.mean.g()) - logs[i];
      draws_[i].log_weight += std::log((1.0 - slip_share) * numerics::normal_density(off / sample.log_sd) / sample.log_sd +
                                       slip_share * numerics::normal_density(off / slip_log_sd) / slip_log_sd);
    }
    reweigh();
    begin_next_stretch(grams, day_place);
  }
  double model_weight(int model) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < draws_.size(); ++i) sum += draws_[i].model == model ? weights_[i] : 0.0;
    return sum;
  }
  Estimate<double> factor(int model) const {
    std::vector<double> values, weights;
    for (std::size_t i = 0; i < draws_.size(); ++i)
      if (draws_[i].model == model) {
        values.push_back(draws_[i].stretches.back().factor);
        weights.push_back(weights_[i]);
      }
    const double total = model_weight(model);
    if (total <= 0.0) return {0, 0, 0, Support::inferred};
    for (double& w : weights) w /= total;
    const auto at = [&](double share) { return numerics::weighted_quantile(values, weights, share); };
    return {at(0.05), at(0.5), at(0.95), Support::inferred};
  }

 private:
  /// The factor of the newest stretch up to a day.
  static double drifted(const Draw& d, double day_place) {
    const auto& last = d.stretches.back();
    return last.factor * std::exp(drift_log_sd * normal_at(d.drift_place) * std::sqrt(std::max(0.0, day_place - last.from_day) / drift_days));
  }
  void begin_next_stretch(const std::vector<double>& grams, double day_place) {
    constexpr double golden = 0.6180339887498949;
    for (std::size_t i = 0; i < draws_.size(); ++i) {
      Draw& d = draws_[i];
      const double factor = drifted(d, day_place);
      d.stretches.back().factor = factor;
      d.stretches.push_back({std::max(day_place, d.stretches.back().from_day), grams[i], factor});
      d.drift_place = fraction_of(d.drift_place + golden * static_cast<double>(i + 1));
    }
  }
  void reweigh() {
    std::vector<double> logs;
    for (const Draw& d : draws_) logs.push_back(d.log_weight);
    weights_ = numerics::normalised_weights(logs);
  }
  std::vector<Draw> draws_;
  const std::array<GrowthModel, 2>& models_;
  const Rises& rises_;
  std::vector<double> weights_;
};

/// Food a gram of growth between the first and the last sample; nothing when most days between have no feeding logged.
std::optional<double> conversion_of(std::span<const records::Record> records, const std::vector<WeighedSample>& samples, const ZoneOffsets& zone) {
  constexpr int shortest_days = 10;
  constexpr double most_days = 0.6;
  if (samples.size() < 2) return std::nullopt;
  const WeighedSample &first = samples.front(), &last = samples.back();
  const auto span_days = (last.day - first.day).count();
  double food_g = 0.0;
  std::set<Date> fed;
  for (const auto& record : records)
    if (const auto* feeding = std::get_if<records::Feeding>(&record.entry.body)) {
      const Date day = local_day(zone, record.entry.at);
      if (day < first.day || day >= last.day) continue;
      food_g += records::food_mass(records, *feeding).g();
      fed.insert(day);
    }
  const double gained_g = (last.mean.g() - first.mean.g()) * alive_now(records, zone).count.mid;
  if (span_days < shortest_days || static_cast<double>(fed.size()) < most_days * static_cast<double>(span_days) || gained_g <= 0.0 || food_g <= 0.0) return std::nullopt;
  return food_g / gained_g;
}

void note_ranges(GrowthBelief& growth, Temperature water) {
  for (std::size_t m = 0; m < 2; ++m) {
    const GrowthModel& model = growth.models[m];
    growth.in_range[m] = biology::in_fitted_range(model, growth.now.mid, water) && model.own_species;
    if (water < model.fitted_low || water > model.fitted_high)
      growth.notes.push_back({"Water at {0} is outside the {1} to {2} that the {3} is good for: its forecast is a guess.", {water, model.fitted_low, model.fitted_high, Word{std::string(model.name)}}});
    if (growth.now.mid < model.lightest)
      growth.notes.push_back({"The {0} was fitted to fish of {1} and more: for these it is carried down.", {Word{std::string(model.name)}, model.lightest}});
    if (!model.own_species) growth.notes.push_back({"The {0} was not fitted to this species; it is taken as the nearest there is.", {Word{std::string(model.name)}}});
  }
}

}  // namespace

std::optional<GrowthBelief> growth_belief(std::span<const records::Record> records, const Belief& belief, const ZoneOffsets& zone, Instant now) {
  const BroodBelief& brood = belief.brood;
  if (!brood.species || !brood.forecast || !has_animals(brood.animals) || belief.temperature.days.empty() || brood.species->swim_up_weight.low.g() <= 0) return std::nullopt;
  GrowthBelief growth;
  growth.models = biology::growth_models(*brood.species);
  const Date first = belief.temperature.days.front().day, today = local_day(zone, now);
  const auto place = [&](Date day) { return static_cast<double>((day - first).count()); };
  const Begun begun = feeding_begun(records, belief, zone);
  growth.begun = begun.day;
  growth.begun_is_known = begun.known;
  const Rises rises(growth.models, belief.temperature.days);
  Draws draws(prior_draws(growth.models, *brood.species, begun, place(begun.day)), growth.models, rises);
  for (const auto& record : records) {
    const auto* sample = std::get_if<records::FishSample>(&record.entry.body);
    if (!sample) continue;
    WeighedSample taken = weighed(*sample, *brood.species, local_day(zone, record.entry.at), record.id);
    if (taken.mean.g() <= 0.0) continue;
    if (taken.day < begun.day) {
      growth.notes.push_back({"The sample of {0} was taken before the fish could feed: growth can't be read from it.", {taken.day}});
      continue;
    }
    draws.take(taken, place(taken.day));
    if (std::abs(taken.surprise_sd) > surprising_sd)
      growth.notes.push_back({"The sample of {0} ({1} a fish) is far from the {2} to {3} that was expected: weigh again, or check the number of fish and the unit.",
                              {taken.day, taken.mean, taken.expected.low, taken.expected.high}});
    growth.samples.push_back(std::move(taken));
  }
  const Support support = growth.samples.empty() ? Support::assumed : Support::inferred;
  growth.now = draws.weight_on(place(today), support);
  for (Date day = std::min(begun.day, today); day <= today + ahead; day += week) growth.days.push_back({day, draws.weight_on(place(day), support)});
  growth.model_weights = {draws.model_weight(0), draws.model_weight(1)};
  growth.factors = {draws.factor(0), draws.factor(1)};
  growth.conversion = conversion_of(records, growth.samples, zone);
  const auto at = static_cast<std::size_t>(std::clamp(place(std::max(today, begun.day)), 0.0, static_cast<double>(belief.temperature.days.size() - 1)));
  note_ranges(growth, belief.temperature.days[at].mean);
  return growth;
}

GrowthDay weight_on(const GrowthBelief& growth, Date day) {
  const auto after = std::ranges::lower_bound(growth.days, day, {}, &GrowthDay::day);
  if (after == growth.days.end()) return {day, growth.days.back().weight};
  if (after == growth.days.begin() || after->day == day) return {day, after->weight};
  const GrowthDay& before = *std::prev(after);
  const double way = static_cast<double>((day - before.day).count()) / static_cast<double>((after->day - before.day).count());
  const auto mix = [&](Mass a, Mass b) { return Mass::from_g(a.g() * std::pow(b.g() / a.g(), way)); };
  return {day, {mix(before.weight.low, after->weight.low), mix(before.weight.mid, after->weight.mid), mix(before.weight.high, after->weight.high), before.weight.support}};
}

}  // namespace redd::inference
