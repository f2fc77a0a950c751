#include "lessons/model_guess.h"

#include <algorithm>
#include <cmath>

#include "inference/belief.h"
#include "inference/temperature_belief.h"
#include "numerics/normal.h"
#include "records/reading.h"

namespace redd::lessons {
namespace {

using records::Record;
using Kind = Question::Kind;

constexpr int sample_size = 99;
/// Assumed: before a test has been read often, it moves by one step (drop) from week to week; that counts like this many sittings.
constexpr double first_movement = 1.0, first_movement_weight = 4.0;

double quantile(std::span<const double> sorted, double share) {
  const double at = share * static_cast<double>(sorted.size()) - 0.5;
  const auto i = static_cast<std::size_t>(std::clamp(std::floor(at), 0.0, static_cast<double>(sorted.size() - 2)));
  return sorted[i] + std::clamp(at - static_cast<double>(i), 0.0, 1.0) * (sorted[i + 1] - sorted[i]);
}

/// Fills in range and middle from the values.
ModelGuess with_range(ModelGuess guess) {
  const double tail = (1.0 - range_share) / 2.0;
  guess.low = quantile(guess.values, tail);
  guess.mid = quantile(guess.values, 0.5);
  guess.high = quantile(guess.values, 1.0 - tail);
  return guess;
}

std::vector<double> normal_values(double mean, double sd, double floor) {
  std::vector<double> values;
  for (int i = 0; i < sample_size; ++i) values.push_back(std::max(floor, mean + sd * numerics::normal_quantile((i + 0.5) / sample_size)));
  return values;
}

/// Mean place of each sitting of the question's test, oldest first.
std::vector<double> places_so_far(const Question& q, std::span<const Record> known, const ZoneOffsets& zone) {
  std::vector<double> places;
  std::optional<Date> sitting;
  int readings = 0;
  for (const Record& record : known) {
    const auto* reading = std::get_if<records::Reading>(&record.entry.body);
    if (!reading || reading->kit != q.kit || reading->test != q.test.key) continue;
    const auto place = place_of(q.test, *reading);
    if (!place) continue;
    const Date day = local_day(zone, record.entry.at);
    if (!sitting || day >= *sitting + (q.first_day - q.opened_on)) {
      sitting = day;
      places.push_back(*place);
      readings = 1;
    } else {
      ++readings;
      places.back() += (*place - places.back()) / readings;
    }
  }
  return places;
}

std::optional<ModelGuess> guess_at_test(const Question& q, std::span<const Record> known, const ZoneOffsets& zone) {
  const auto places = places_so_far(q, known, zone);
  if (places.empty()) return std::nullopt;
  const double last = places.back();
  const double unit = q.kind == Kind::meter ? q.scale / 10.0 : 1.0;
  double squares = first_movement_weight * first_movement * first_movement * unit * unit;
  for (std::size_t i = 1; i < places.size(); ++i) squares += (places[i] - places[i - 1]) * (places[i] - places[i - 1]);
  const double sd = std::sqrt(squares / (first_movement_weight + static_cast<double>(places.size()) - 1.0));

  ModelGuess guess;
  guess.rests_on = {"As last time, give or take what this test has moved from one sitting to the next ({0} sittings so far).", {Number{static_cast<long long>(places.size())}}};
  if (q.kind != Kind::steps) {
    guess.values = normal_values(last, sd, 0.0);
    return with_range(std::move(guess));
  }
  const std::size_t steps = q.test.steps.size();
  constexpr double infinity = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < steps; ++i) {
    const double low = i == 0 ? -infinity : (static_cast<double>(i) - 0.5 - last) / sd;
    const double high = i + 1 == steps ? infinity : (static_cast<double>(i) + 0.5 - last) / sd;
    guess.probabilities.push_back(numerics::normal_probability_between(low, high));
  }
  return guess;
}

std::optional<ModelGuess> guess_at_temperature(const Question& q, const records::SeasonSetup& season, std::span<const Record> known, const ZoneOffsets& zone) {
  const auto belief = inference::temperature_belief(season, known, zone, q.opens_at, q.last_day);
  const auto day = std::ranges::find(belief.days, q.due, &biology::DailyTemperature::day);
  if (day == belief.days.end()) return std::nullopt;
  ModelGuess guess;
  guess.values = normal_values(day->mean.c(), day->sd.c(), -2.0);
  guess.rests_on = {"The tank on its way to the set-point, or held where it was last read."};
  return with_range(std::move(guess));
}

/// The forecast's share hatched at noon of that day. Its three points are joined by straight lines, its ends go on to none and all.
std::optional<ModelGuess> guess_at_hatching(const Question& q, const records::SeasonSetup& season, std::span<const Record> known, const ZoneOffsets& zone) {
  const auto belief = inference::estimate(season, known, zone, q.opens_at);
  const auto& brood = belief.brood;
  if (!brood.species || !brood.start || !brood.alive) return std::nullopt;
  std::vector<biology::DailyTemperature> since;
  std::ranges::copy_if(belief.temperature.days, std::back_inserter(since), [&](const auto& d) { return d.day >= brood.received; });
  biology::ModelChoice choice;
  if (season.development_model) choice.hatch = *season.development_model;
  const auto forecast = biology::forecast_development(*brood.species, choice, *brood.start, since, brood.seen, q.due);
  if (!forecast) return std::nullopt;
  const auto& share = forecast->stage(biology::Stage::hatch).past_fraction;
  ModelGuess guess;
  for (int i = 0; i < sample_size; ++i) {
    const double p = (i + 0.5) / sample_size;
    const double at = p < 0.05   ? share.low * p / 0.05
                      : p < 0.5  ? share.low + (share.mid - share.low) * (p - 0.05) / 0.45
                      : p < 0.95 ? share.mid + (share.high - share.mid) * (p - 0.5) / 0.45
                                 : share.high + (1.0 - share.high) * (p - 0.95) / 0.05;
    guess.values.push_back(at * brood.alive->mid);
  }
  guess.rests_on = {"The development forecast for that day, of about {0} alive.", {Number{inference::animals_left(brood)}}};
  return with_range(std::move(guess));
}

/// Whether the guess can depend on a record: copying a whole log for each question of a season would take seconds.
bool matters(const Question& q, const Record& record) {
  const auto& body = record.entry.body;
  if (record.logged_at > q.opens_at) return false;
  if (q.kind == Kind::hatched || std::holds_alternative<records::SeasonSetup>(body) || std::holds_alternative<records::Undo>(body)) return true;
  if (q.kind == Kind::temperature) return std::holds_alternative<records::TemperatureReading>(body) || std::holds_alternative<records::SetPoint>(body);
  const auto* reading = std::get_if<records::Reading>(&body);
  // Another test's reading may be a correction of one of this.
  return reading && (reading->test == q.test.key || record.entry.supersedes);
}

}  // namespace

std::optional<ModelGuess> model_guess(const Question& q, std::span<const Record> log, const ZoneOffsets& zone) {
  std::vector<Record> needed;
  std::ranges::copy_if(log, std::back_inserter(needed), [&](const Record& record) { return matters(q, record); });
  const auto known = records::effective(needed, q.opens_at);
  const auto* season = records::find_season(known);
  if (!season) return std::nullopt;
  switch (q.kind) {
    case Kind::temperature: return guess_at_temperature(q, *season, known, zone);
    case Kind::hatched: return guess_at_hatching(q, *season, known, zone);
    case Kind::steps:
    case Kind::drops:
    case Kind::meter: break;
  }
  return guess_at_test(q, known, zone);
}

}  // namespace redd::lessons
