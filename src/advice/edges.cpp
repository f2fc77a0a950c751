#include "advice/edges.h"

#include <algorithm>
#include <cmath>

#include "advice/answers.h"
#include "advice/assess.h"
#include "emergency/holds.h"
#include "inference/water_belief.h"
#include "planning/doubted_water.h"
#include "records/reading.h"

namespace redd::advice {
namespace {

using records::KitTest;
using records::Reading;
using Form = Reading::Form;

/// A reading of a latest sitting, with all that say the same of the same test in it.
struct SameReadings {
  inference::Quantity quantity{};
  const KitTest* test = nullptr;
  Reading reading{};
  std::vector<records::RecordId> ids{};
};

const records::Record* find(const Situation& s, records::RecordId id) {
  const auto found = std::ranges::find(s.records, id, &records::Record::id);
  return found == s.records.end() ? nullptr : &*found;
}

std::vector<SameReadings> latest_readings(const Situation& s) {
  std::vector<SameReadings> all;
  for (const auto& [quantity, known] : s.belief.water)
    for (const records::RecordId id : known.records) {
      const records::Record* record = find(s, id);
      const auto* reading = record ? std::get_if<Reading>(&record->entry.body) : nullptr;
      const records::Kit* kit = reading ? records::find_kit(s.records, reading->kit) : nullptr;
      const KitTest* test = kit ? records::find_test(*kit, reading->test) : nullptr;
      if (!test || test->quantity != quantity) continue;
      const auto same = std::ranges::find_if(all, [&](const SameReadings& r) {
        return r.test == test && r.reading.form == reading->form && r.reading.value == reading->value && r.reading.upper_value == reading->upper_value;
      });
      if (same != all.end()) same->ids.push_back(id);
      else all.push_back({quantity, test, *reading, {id}});
    }
  return all;
}

/// The few records that the belief of these quantities' latest sittings rests on.
std::vector<records::Record> ground_of(const Situation& s, std::initializer_list<inference::Quantity> quantities) {
  std::vector<records::Record> ground;
  const auto wanted = [&](records::RecordId id) {
    return std::ranges::any_of(quantities, [&](auto q) {
      const auto* known = s.belief.find(q);
      return known && std::ranges::find(known->records, id) != known->records.end();
    });
  };
  for (const records::Record& r : s.records)
    if (!std::holds_alternative<Reading>(r.entry.body) ? std::holds_alternative<records::Kit>(r.entry.body) || std::holds_alternative<records::SourceWater>(r.entry.body) ||
                                                             std::holds_alternative<records::WaterChange>(r.entry.body) || std::holds_alternative<records::Dose>(r.entry.body)
                                                       : wanted(r.id))
      ground.push_back(r);
  return ground;
}

/// The belief as it would be had this one reading been another.
inference::Belief with_reading(const Situation& s, const SameReadings& moved, const Reading& instead) {
  using enum inference::Quantity;
  inference::Belief belief = s.belief;
  // pH is carried over water changes with the alkalinity of the time.
  auto ground = moved.quantity == alkalinity || moved.quantity == ph ? ground_of(s, {ph, alkalinity}) : ground_of(s, {moved.quantity});
  for (records::Record& r : ground)
    if (r.id == moved.ids.front()) r.entry.body = instead;
  std::vector<Sentence> ignored;
  const Temperature water = belief.temperature.latest.value_or(belief.temperature.set_point.value_or(s.season.target));
  for (auto& [quantity, now] : inference::water_belief(s.season, ground, s.zone, s.now, water, ignored)) {
    auto& old = belief.water[quantity];
    auto sittings = std::move(old.sittings);
    if (!sittings.empty() && !now.sittings.empty()) sittings.back() = now.sittings.back();
    now.sittings = std::move(sittings);
    now.series = std::move(old.series);
    old = std::move(now);
    if (quantity == chloride && quantity == moved.quantity) belief.chloride_mg_per_l = old.value.low;
  }
  return belief;
}

inference::Belief with_temperature(const Situation& s, TemperatureChange step) {
  inference::Belief belief = s.belief;
  belief.temperature.latest = *belief.temperature.latest + step;
  for (auto& point : belief.temperature.series)
    if (point.id == belief.temperature.record) point.value = {point.value.low + step.c(), point.value.mid + step.c(), point.value.high + step.c(), point.value.support};
  return belief;
}

/// One edge: what the reading would have had to be, and what then stood first.
struct Edge {
  Sentence reading{};  ///< "Had nitrite read 0.2 mg/L as N (not 0.4 mg/L as N),"
  std::vector<records::RecordId> ids{};
};

void say(std::vector<Reason>& reasons, const Action& first, const Action& then, const Edge& edge) {
  const bool same = answers(then.key, first.key);
  if (same && then.tone == first.tone) return;
  const Sentence words = same ? Sentence{then.tone > first.tone ? "this would be more pressing." : "this would be less pressing."}
                              : joined({"this would come first:"}, then.what);
  reasons.push_back({joined(edge.reading, words), edge.ids});
}

}  // namespace

std::optional<Reading> neighbour(const KitTest& test, const Reading& reading, bool up) {
  Reading next = reading;
  next.upper_value.reset();
  if (test.method == records::Method::drop_count) {
    if (reading.form != Form::drops || !reading.value || (!up && *reading.value <= 1.0)) return std::nullopt;
    next.value = *reading.value + (up ? 1.0 : -1.0);
    return next;
  }
  if (test.method == records::Method::meter) {
    if (reading.form != Form::number || !reading.value || !test.accuracy) return std::nullopt;
    next.value = *reading.value + (up ? 1.0 : -1.0) * *test.accuracy;
    return *next.value < 0.0 ? std::nullopt : std::optional(next);
  }
  // Places along the card: 0 below the first step, 2i+1 on step i, 2i+2 between it and the next, one more above the last.
  const auto& steps = test.steps;
  const int last = static_cast<int>(steps.size()) - 1;
  const auto index = [&](const std::optional<double>& v) {
    const auto found = v ? std::ranges::find(steps, *v) : steps.end();
    return found == steps.end() ? -1 : static_cast<int>(found - steps.begin());
  };
  next.form = Form::step;
  int to = -1;
  switch (reading.form) {
    case Form::below_first: to = up ? 0 : -1; break;
    case Form::above_last: to = up ? -1 : last; break;
    case Form::between: to = index(up ? reading.upper_value : reading.value); break;
    case Form::step: {
      const int at = index(reading.value);
      if (at < 0 || (at == 0 && !up)) return std::nullopt;
      if (at == last && up) {
        next.form = Form::above_last;
        next.value.reset();
        return next;
      }
      to = at + (up ? 1 : -1);
      break;
    }
    default: break;
  }
  if (to < 0 || to > last) return std::nullopt;
  next.value = steps[static_cast<std::size_t>(to)];
  return next;
}

void say_edges(const Situation& s, std::vector<Action>& actions, const Ranked& ranked) {
  if (actions.empty()) return;
  std::vector<Reason> reasons;
  const auto look = [&](inference::Belief read, const Edge& edge) {
    const inference::Belief belief = planning::with_doubt(std::move(read), s.season, s.filter);
    Situation moved{s.season, s.records, belief, s.filter, s.zone, s.now};
    moved.school = s.school;
    moved.looks = s.looks;
    moved.habits = s.habits;
    moved.water = assess(moved);
    if (const auto then = ranked(moved); !then.empty()) say(reasons, actions.front(), then.front(), edge);
  };
  for (const SameReadings& read : latest_readings(s))
    for (const bool up : {false, true})
      if (const auto instead = neighbour(*read.test, read.reading, up))
        look(with_reading(s, read, *instead), {{"Had {0} read {1}, not {2},", {Word{records::quantity_text(read.quantity)}, Word{records::short_reading_text(*read.test, *instead)},
                                                                               Word{records::short_reading_text(*read.test, read.reading)}}}, read.ids});
  if (s.belief.temperature.latest)
    for (const TemperatureChange step : {-1.0 * thermometer_step, thermometer_step})
      look(with_temperature(s, step), {{"Had the thermometer read {0}, not {1},", {*s.belief.temperature.latest + step, *s.belief.temperature.latest}}, {s.belief.temperature.record}});
  auto& would_change_if = actions.front().would_change_if;
  would_change_if.insert(would_change_if.end(), reasons.begin(), reasons.end());
}

}  // namespace redd::advice
