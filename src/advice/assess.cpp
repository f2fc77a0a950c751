#include "advice/assess.h"

#include <algorithm>
#include <cmath>

#include "advice/rule.h"
#include "emergency/holds.h"
#include "inference/counts.h"
#include "numerics/control_charts.h"

namespace redd::advice {

using inference::Quantity;
using inference::QuantityBelief;

ShownNitrogen Situation::on_card(Quantity quantity, double mg_n_per_l) const { return inference::on_card(belief, quantity, mg_n_per_l); }

Assessment read_of(const Situation& s, WaterKey key, Quantity quantity) {
  Assessment a;
  a.key = key;
  const QuantityBelief* known = s.belief.find(quantity);
  if (!known) {
    a.meaning = {"Not tested yet, so nothing can be said of it."};
    return a;
  }
  a.value = known->value;
  a.open_above = known->open_above;
  a.read_at = known->read_at;
  a.age_days = known->age_days;
  a.stale = inference::is_stale(*known);
  a.raw_text = known->raw_text;
  a.records = known->records;
  return a;
}

void admit_age(Assessment& a) {
  if (a.stale && a.tone == Tone::good) {
    a.tone = Tone::unknown;
    a.meaning = {"It was fine {0} ago, which is too long to say how it is now: test again.", {Days(a.age_days)}};
  }
}

/// Readings that contradict each other call for a repeat before anything drastic, and never reassure.
void admit_disagreement(const Situation& s, Assessment& a) {
  const std::map<WaterKey, Quantity> tested{{WaterKey::total_ammonia, Quantity::total_ammonia}, {WaterKey::un_ionized_ammonia, Quantity::total_ammonia},
                                            {WaterKey::nitrite, Quantity::nitrite}, {WaterKey::nitrate, Quantity::nitrate}, {WaterKey::ph, Quantity::ph},
                                            {WaterKey::alkalinity, Quantity::alkalinity}, {WaterKey::hardness, Quantity::hardness}, {WaterKey::oxygen, Quantity::oxygen}};
  const auto quantity = tested.find(a.key);
  if (quantity == tested.end()) return;
  const QuantityBelief* known = s.belief.find(quantity->second);
  if (!known || !known->disagree) return;
  if (a.tone == Tone::good) {
    a.tone = Tone::unknown;
    a.meaning = {"The readings of this sitting contradict each other: repeat the test."};
  }
  if (a.tone == Tone::alarm) a.tone = Tone::act;
}

/// A kit that seems off, or readings at odds with another quantity's, do not reassure; and what only the doubt makes an alarm is first to be read again.
void admit_doubt(const Situation& s, Assessment& a) {
  constexpr std::pair<WaterKey, Quantity> tested[] = {{WaterKey::total_ammonia, Quantity::total_ammonia}, {WaterKey::nitrite, Quantity::nitrite}, {WaterKey::nitrate, Quantity::nitrate},
                                                      {WaterKey::ph, Quantity::ph}, {WaterKey::alkalinity, Quantity::alkalinity}, {WaterKey::hardness, Quantity::hardness},
                                                      {WaterKey::oxygen, Quantity::oxygen}};
  if (s.belief.brood.animals == inference::Animals::released) return;
  const bool ammonia = a.key == WaterKey::un_ionized_ammonia || a.key == WaterKey::total_ammonia;
  if (ammonia && a.tone == Tone::alarm && only_by_doubt(s)) a.tone = Tone::act;
  for (const auto& [key, quantity] : tested) {
    const QuantityBelief* known = key == a.key ? s.belief.find(quantity) : nullptr;
    if (!known || !known->doubt) continue;
    if (a.tone == Tone::good) {
      a.tone = Tone::unknown;
      a.meaning = known->doubt->why;
    } else {
      a.meaning = joined(a.meaning, known->doubt->why);
    }
    a.records = ids_of({&a.records, &known->doubt->records});
  }
}

std::optional<Baseline> baseline_of(const Situation& s, Quantity quantity) {
  constexpr std::size_t baseline_tests = 6, fewest_tests = 4;
  const QuantityBelief* known = s.belief.find(quantity);
  if (!known) return std::nullopt;
  // The animals' water is its own regime: the warm ripening weeks before them are no normal for it.
  Instant from{};
  for (const auto& record : s.records)
    if (std::holds_alternative<records::EggReceipt>(record.entry.body)) from = record.entry.at - std::chrono::days(3);
  std::vector<double> values;
  double reading_sd = 0;
  for (const auto& point : known->sittings) {
    if (point.at < from || point.open_above) continue;
    values.push_back(point.value.mid);
    constexpr double half_90_in_sd = 1.645;
    reading_sd = std::max(reading_sd, (point.value.high - point.value.low) / 2.0 / half_90_in_sd);
  }
  if (values.size() < fewest_tests) return std::nullopt;
  const std::size_t base = std::min(values.size(), baseline_tests);
  const std::span first(values.data(), base);
  Baseline b;
  for (const double v : first) b.mean += v / static_cast<double>(base);
  const double sd = std::max(reading_sd, numerics::sd_from_moving_range(first).value_or(0.0));
  constexpr double lambda = 0.5, ewma_limit = 3.071, k = 0.5, h = 5.0;
  const double half_width = ewma_limit * sd * std::sqrt(lambda / (2.0 - lambda));
  b.lower = b.mean - half_width;
  b.upper = b.mean + half_width;
  b.tests = static_cast<int>(base);
  const auto ewma = numerics::ewma_of(values, b.mean, sd, lambda, ewma_limit);
  const auto cusum = numerics::cusum_of(values, b.mean, sd, k, h);
  b.drifts = ewma.back().signals || cusum.back().signals;
  b.upwards = ewma.back().signals ? ewma.back().statistic > b.mean : cusum.back().high > cusum.back().low;
  return b;
}

/// Water that was in order before many died is not known to be in order now.
void admit_deaths(const Situation& s, Assessment& a) {
  if (!s.looks.counts || a.tone != Tone::good || !a.read_at) return;
  const inference::LossWatch& losses = s.looks.counts->losses;
  const bool many = losses.many_at_once || losses.state == inference::LossWatch::State::more_than_expected;
  const Date since = losses.many_at_once ? s.today() - std::chrono::days(3) : losses.since;
  if (!many || local_day(s.zone, *a.read_at) > since) return;
  a.tone = Tone::unknown;
  a.meaning = {"It was fine before so many died, which says nothing of now: test again."};
}

std::map<WaterKey, Assessment> assess(const Situation& s) {
  std::map<WaterKey, Assessment> all;
  all[WaterKey::un_ionized_ammonia] = assess_un_ionized_ammonia(s);
  all[WaterKey::total_ammonia] = assess_total_ammonia(s, all[WaterKey::un_ionized_ammonia]);
  all[WaterKey::nitrite] = assess_nitrite(s);
  all[WaterKey::nitrate] = assess_nitrate(s);
  all[WaterKey::ph] = assess_ph(s);
  all[WaterKey::alkalinity] = assess_alkalinity(s);
  all[WaterKey::hardness] = assess_hardness(s);
  all[WaterKey::oxygen] = assess_oxygen(s);
  all[WaterKey::temperature] = assess_temperature(s);
  for (auto& [key, assessment] : all) {
    admit_age(assessment);
    admit_disagreement(s, assessment);
    admit_doubt(s, assessment);
    admit_deaths(s, assessment);
  }
  return all;
}

}  // namespace redd::advice
