// Tasks about the tests: cards, drops, teams, ranges, and a guess.

#include <algorithm>
#include <cmath>

#include "lessons/detail/rounded.h"
#include "lessons/worksheet.h"
#include "quantities/verbatim.h"
#include "records/reading.h"

namespace redd::lessons {
namespace {

using detail::rounded;
using records::KitTest;
using records::Method;
using records::Quantity;
using records::Reading;
using records::TestUnit;
using Form = records::Reading::Form;

struct MadeReading {
  Date day{};
  KitTest test{};
  Reading reading{};
};

/// Newest reading of each test of this kind of card, that of the test first in the log first.
std::vector<MadeReading> newest_readings(const LessonData& data, Method method) {
  std::vector<MadeReading> found;
  for (const records::Record& record : data.records) {
    const auto* reading = std::get_if<Reading>(&record.entry.body);
    const auto* test = reading ? test_of(data.records, *reading) : nullptr;
    if (!test || test->method != method || !records::observed_interval(*test, *reading)) continue;
    const auto same = std::ranges::find_if(found, [&](const MadeReading& f) { return f.reading.kit == reading->kit && f.reading.test == reading->test; });
    const MadeReading made{local_day(data.zone, record.entry.at), *test, *reading};
    if (same == found.end()) found.push_back(made);
    else *same = made;
  }
  return found;
}

/// Decimals that show every step of a card.
int places_of(const std::vector<double>& steps) {
  int places = 0;
  for (const double step : steps)
    while (places < 3 && std::abs(step - rounded(step, places)) > 1e-9) ++places;
  return places;
}

/// "as N" to "as NO3" and the like: which molecule this unit counts.
std::optional<NitrogenBasis> basis_of(TestUnit unit) {
  switch (unit) {
    case TestUnit::mg_n_per_l: return NitrogenBasis::n;
    case TestUnit::mg_nh3_per_l: return NitrogenBasis::nh3;
    case TestUnit::mg_nh4_per_l: return NitrogenBasis::nh4;
    case TestUnit::mg_no2_per_l: return NitrogenBasis::no2;
    case TestUnit::mg_no3_per_l: return NitrogenBasis::no3;
    default: return std::nullopt;
  }
}

/// Ages 11 to 14: the same water in mg of nitrogen, or back.
Task conversion_task(const MadeReading& made, double value, int places) {
  const bool as_n = made.test.unit == TestUnit::mg_n_per_l;
  const NitrogenBasis other = as_n ? NitrogenBasis::no3 : *basis_of(made.test.unit);
  const double factor = rounded(as_n ? mass_per_mass_n(other) : 1.0 / mass_per_mass_n(other), 3);
  const double result = rounded(value * factor, 2);
  const char* to = as_n ? "mg/L as NO3" : "mg/L as N";
  Task task{.key = "card", .title = "One water, two units"};
  task.text = {"On {0} the {1} test read {2}. 1 {3} is the same as {4} {5}. What is the reading in {5}?",
               {made.day, Word{records::quantity_text(made.test.quantity)}, Exact{value, places, records::unit_text(made.test.unit)}, Word{records::unit_text(made.test.unit)}, Exact{factor, 3}, Word{to}}};
  task.answer = {"{0}.", {Exact{result, 2, to}}};
  task.working = {"{0} x {1} = {2}", {Exact{value, places}, Exact{factor, 3}, Exact{result, 2}}};
  return task;
}

/// Ages 8 to 10: which values does a step stand for?
Task half_way_task(const MadeReading& made, std::size_t step, int places) {
  const auto& steps = made.test.steps;
  Task task{.key = "card", .title = "Between the colours"};
  task.text = {"The {0} card showed {1}. The next colour on the card is {2}. Which number is half-way between the two?",
               {Word{records::quantity_text(made.test.quantity)}, Exact{steps[step], places}, Exact{steps[step + 1], places}}};
  const double half = rounded(0.5 * (steps[step] + steps[step + 1]), places + 1);
  task.answer = {"{0}. Up to about there the water may be when the card shows {1}.", {Exact{half, places + 1}, Exact{steps[step], places}}};
  return task;
}

}  // namespace

Made card_task(Making m) {
  auto readings = newest_readings(m.data, Method::colour_steps);
  std::erase_if(readings, [&](const MadeReading& r) { return r.reading.form != Form::step || (m.older() && (!basis_of(r.test.unit) || r.reading.value.value_or(0) <= 0)); });
  if (m.older()) std::erase_if(readings, [](const MadeReading& r) { return r.test.unit == TestUnit::mg_n_per_l && r.test.quantity != Quantity::nitrate; });
  else std::erase_if(readings, [](const MadeReading& r) { return place_of(r.test, r.reading).value_or(0) + 1.5 > static_cast<double>(r.test.steps.size()); });
  if (readings.empty()) return {{}, m.older() ? Sentence("Converting units: no reading of ammonia, nitrite or nitrate on a step above nought.") : Sentence("Between the colours: no reading on a step of a card yet.")};
  const MadeReading& made = readings[m.chance.index_below(static_cast<std::uint32_t>(readings.size()))];
  const int places = places_of(made.test.steps);
  if (m.older()) return {conversion_task(made, *made.reading.value, places), {}};
  return {half_way_task(made, static_cast<std::size_t>(*place_of(made.test, made.reading)), places), {}};
}

Made drops_task(Making m) {
  auto readings = newest_readings(m.data, Method::drop_count);
  std::erase_if(readings, [](const MadeReading& r) { return r.reading.value.value_or(0) < 1; });
  if (readings.empty()) return {{}, {"Counting drops: no drop test has been read yet."}};
  const MadeReading& made = readings[m.chance.index_below(static_cast<std::uint32_t>(readings.size()))];
  const double drops = *made.reading.value, each = made.test.per_drop.value_or(1.0);
  const int places = places_of({each});
  const std::string unit = records::unit_text(made.test.unit);
  Task task{.key = "drops", .title = "Counting drops"};
  const Word name{records::quantity_text(made.test.quantity)};
  task.text = m.older() ? Sentence{"The {0} test took {1} drops on {2}. One drop counts {3}. The last drop turned the colour, the one before did not yet. Between which two values does the water lie?", {name, Exact{drops}, made.day, Exact{each, places, unit}}}
                        : Sentence{"The {0} test took {1} drops. One drop counts {2}. What does that make?", {name, Exact{drops}, Exact{each, places, unit}}};
  const Shown high = Exact{rounded(drops * each, places), places, unit};
  task.answer = m.older() ? Sentence{"Between {0} and {1}.", {Exact{rounded((drops - 1.0) * each, places), places}, high}} : Sentence{"{0}.", {high}};
  task.working = {"{0} x {1} = {2}", {Exact{drops}, Exact{each, places}, Exact{rounded(drops * each, places), places}}};
  return {std::move(task), {}};
}

Made teams_task(Making m) {
  const auto& sittings = m.data.replicates.sittings;
  if (sittings.empty()) return {{}, {"Doubt from several teams: no test has been read by two teams in one sitting yet."}};
  // There is more to work out where the teams differ.
  std::vector<const ReplicateSitting*> choice;
  for (const ReplicateSitting& each : sittings)
    if (each.printed.standard_deviation > 0.0 && choice.size() < 8) choice.push_back(&each);
  if (choice.empty()) choice.push_back(&sittings.front());
  const ReplicateSitting& s = *choice[m.chance.index_below(static_cast<std::uint32_t>(choice.size()))];
  std::vector<double> as_read;
  for (const TeamReading& r : s.readings) as_read.push_back(r.printed);
  const int places = places_of(as_read);
  const std::string unit = records::unit_text(s.test.unit);
  Task task{.key = "teams", .title = "What did the other team read?"};
  task.label_head = "Team";
  task.value_head = "Read";
  std::vector<double> values;
  for (const TeamReading& r : s.readings) {
    values.push_back(rounded(r.printed, places));
    task.rows.push_back({Word{verbatim(r.team)}, Exact{values.back(), places, unit}});
  }
  const auto spread = numerics::spread_of(values);
  const Word name{records::quantity_text(s.test.quantity)};
  const Shown range = Exact{rounded(spread.highest - spread.lowest, places), places, unit};
  if (!m.older()) {
    std::ranges::sort(values);
    const std::size_t half = values.size() / 2;
    const double middle = values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
    task.text = {"On {0} these teams all tested the same water for {1}. Put the numbers in order. How far apart are the smallest and the biggest? Which number is in the middle?", {s.day, name}};
    task.answer = {"{0} apart; in the middle {1}.", {range, Exact{middle, places + (values.size() % 2 == 1 ? 0 : 1), unit}}};
    if (values.size() % 2 == 0) task.working = "With an even number of teams the middle is half-way between the two in the middle.";
    return {std::move(task), {}};
  }
  task.text = {"On {0} these teams all tested the same water for {1}. Work out the mean, the standard deviation s (divide by the number of readings less one), and the standard error (s divided by the square root of the number of readings).", {s.day, name}};
  task.lines = 4;
  task.answer = {"Mean {0}, s = {1}, standard error {2}.", {Exact{spread.mean, places + 1, unit}, Exact{spread.standard_deviation, places + 1}, Exact{spread.standard_error, places + 1}}};
  task.working = {"{0} readings, {1} apart at most. One step of the card is {2} here, so s below about {3} says little: that much comes from the steps alone.",
                  {Number{spread.count}, range, Exact{s.step, places, unit}, Exact{s.rounding_sd, places + 1}}};
  return {std::move(task), {}};
}

Made ranges_task(Making m) {
  std::vector<const inference::QuantityBelief*> fitting;
  for (const auto& [quantity, q] : m.data.belief.water)
    if (q.sittings.size() >= 2 && !q.sittings.back().open_above && !q.sittings[q.sittings.size() - 2].open_above) fitting.push_back(&q);
  if (fitting.empty()) return {{}, {"Two ranges: no test has been made in two sittings yet."}};
  const auto& q = *fitting[m.chance.index_below(static_cast<std::uint32_t>(fitting.size()))];
  const auto &first = q.sittings[q.sittings.size() - 2], &second = q.sittings.back();
  const double largest = records::printed_value(q.unit, std::max(first.value.high, second.value.high));
  const int places = largest >= 20.0 ? 0 : largest >= 2.0 ? 1 : 2;  // no more digits than a card can tell
  const auto shown = [&](double canonical) { return rounded(records::printed_value(q.unit, canonical), places); };
  const double a = shown(first.value.low), b = shown(first.value.high), c = shown(second.value.low), d = shown(second.value.high);
  const bool shared = a <= d && c <= b;
  const std::string unit = records::unit_text(q.unit);
  Task task{.key = "ranges", .title = "Has it changed?"};
  const Word name{records::quantity_text(q.quantity)};
  task.text = m.older() ? Sentence{"The {0} readings of two sittings may be anything from {1} to {2} ({3}) and from {4} to {5} ({6}). Draw both ranges on one line. Can you be sure that the water changed? Say why.",
                                   {name, Exact{a, places}, Exact{b, places}, local_day(m.data.zone, first.at), Exact{c, places}, Exact{d, places, unit}, local_day(m.data.zone, second.at)}}
                        : Sentence{"The first {0} reading may be anything from {1} to {2}. The second may be anything from {3} to {4}. Draw both as bars. Is there a number that is in both?",
                                   {name, Exact{a, places}, Exact{b, places}, Exact{c, places}, Exact{d, places}}};
  task.lines = 3;
  if (shared) task.answer = {"Yes, numbers from {0} to {1} are in both: it need not have changed.", {Exact{std::max(a, c), places}, Exact{std::min(b, d), places}}};
  else task.answer = {"No number is in both: it very likely changed."};
  return {std::move(task), {}};
}

Made predict_task(Making m) {
  std::vector<MadeReading> readings = newest_readings(m.data, Method::colour_steps);
  const auto drops = newest_readings(m.data, Method::drop_count);
  readings.insert(readings.end(), drops.begin(), drops.end());
  if (readings.empty()) return {{}, {"Predict: no test has been read yet."}};
  const MadeReading& made = readings[m.chance.index_below(static_cast<std::uint32_t>(readings.size()))];
  Task task{.key = "predict", .title = "What comes next?"};
  const Word name{records::quantity_text(made.test.quantity)}, read{records::reading_text(made.test, made.reading)};
  task.text = m.older() ? Sentence{"The newest {0} reading was {1}, on {2}. Write a range for the next one that you would be right with 8 times in 10. What makes you think so?", {name, read, made.day}}
                        : Sentence{"The newest {0} reading was {1}. What will the next one be? Write the lowest and the highest you expect. Why?", {name, read}};
  task.lines = 3;
  task.answer = {"There is no answer yet: compare with the next reading. A narrow range is worth more, but only if the reading lies in it."};
  return {std::move(task), {}};
}

}  // namespace redd::lessons
