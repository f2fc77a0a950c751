#include "lessons/question.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "quantities/verbatim.h"
#include "records/reading.h"

namespace redd::lessons {
namespace {

using records::Count;
using records::Method;
using records::Milestone;
using records::Reading;
using records::Record;
using records::TemperatureReading;
using Kind = Question::Kind;
using std::chrono::days;

// Assumed: a test read again within two days belongs to the same sitting; the next one is a week later, and after two weeks nobody remembers.
constexpr days same_sitting{3}, a_week{7}, two_weeks{14};
constexpr days temperature_patience{6}, hatch_patience{3};

// Losses that cost 100 points. Assumed: the width of the range that somebody gives who knows only the kind of test.
constexpr double drops_scale = 10.0, temperature_scale_c = 10.0, ph_scale = 2.0;

// What can be read at all: beyond it a guess is a slip of the hand. Assumed: nobody counts more drops than that; no receipt is off by more than half.
constexpr double most_drops = 200.0, least_c = -2.0, most_c = 45.0, most_ph = 14.0, most_on_a_meter = 5000.0, most_animals = 1e6;

/// Known from this moment on.
Instant known_at(const Record& record) { return std::max(record.entry.at, record.logged_at); }

Date monday_of(Date day) { return day - (std::chrono::weekday{day} - std::chrono::Monday); }
/// The next Friday after a day.
Date friday_after(Date day) {
  const Date friday = day + (std::chrono::Friday - std::chrono::weekday{day});
  return friday == day ? friday + a_week : friday;
}

bool of_tank(const Record& record) {
  const auto* t = std::get_if<TemperatureReading>(&record.entry.body);
  return t && t->place == TemperatureReading::Place::tank;
}
bool tells_of_hatching(const Record& record) {
  if (const auto* count = std::get_if<Count>(&record.entry.body)) return count->what == Count::What::hatched;
  const auto* milestone = std::get_if<Milestone>(&record.entry.body);
  return milestone && milestone->which == Milestone::Which::first_hatch && milestone->seen;
}

double scale_of_test(const records::KitTest& test, double place) {
  switch (test.method) {
    case Method::colour_steps: {
      // What chips spread evenly over the card lose on average when every step is as likely as the next.
      const double steps = static_cast<double>(test.steps.size());
      return (steps * steps - 1.0) / (6.0 * steps);
    }
    case Method::drop_count: return drops_scale;
    case Method::meter: break;
  }
  if (test.unit == records::TestUnit::ph) return ph_scale;
  return std::max(20.0 * test.accuracy.value_or(0.0), std::max(place, 1.0));
}

Kind kind_of(Method method) { return method == Method::colour_steps ? Kind::steps : method == Method::drop_count ? Kind::drops : Kind::meter; }

/// The readings of one test by day, each day with the moment it was first known.
struct OpenedDay {
  Instant known{};
  records::KitTest test{};
  std::string kit{};
  double place = 0;
};

void add_test_questions(std::vector<Question>& questions, std::span<const Record> log, const ZoneOffsets& zone, Instant now) {
  std::map<std::string, std::map<Date, OpenedDay>> by_test;
  std::map<std::string, const records::Kit*, std::less<>> kits;  // as they stood when each reading was written down
  for (const Record& record : log) {
    if (known_at(record) > now) continue;
    if (const auto* kit = std::get_if<records::Kit>(&record.entry.body)) kits[kit->key] = kit;
    const auto* reading = std::get_if<Reading>(&record.entry.body);
    if (!reading) continue;
    const auto kit = kits.find(reading->kit);
    const auto* test = kit == kits.end() ? nullptr : records::find_test(*kit->second, reading->test);
    const auto place = test ? place_of(*test, *reading) : std::nullopt;
    if (!place) continue;
    auto& found = by_test[reading->kit + "/" + reading->test];
    const auto [day, fresh] = found.try_emplace(local_day(zone, record.entry.at), OpenedDay{known_at(record), *test, reading->kit, *place});
    if (!fresh && known_at(record) < day->second.known) day->second = {known_at(record), *test, reading->kit, *place};
  }
  for (const auto& [name, opened] : by_test) {
    std::optional<Date> sitting;
    for (const auto& [day, first] : opened) {
      if (sitting && day < *sitting + same_sitting) continue;
      sitting = day;
      Question q{.key = name + "/" + iso_from_date(day), .kind = kind_of(first.test.method), .kit = first.kit, .test = first.test, .opens_at = first.known};
      q.opened_on = day;
      q.first_day = day + same_sitting;
      q.due = day + a_week;
      q.last_day = day + two_weeks;
      q.scale = scale_of_test(first.test, first.place);
      q.most = q.kind == Kind::drops ? most_drops : first.test.unit == records::TestUnit::ph ? most_ph : most_on_a_meter;
      questions.push_back(std::move(q));
    }
  }
}

/// One a week of readings of the tank; about the first reading of the week after.
void add_temperature_questions(std::vector<Question>& questions, std::span<const Record> log, const ZoneOffsets& zone, Instant now) {
  std::map<Date, std::pair<Instant, Date>> weeks;
  for (const Record& record : log) {
    if (!of_tank(record) || known_at(record) > now) continue;
    const Date day = local_day(zone, record.entry.at);
    const auto [week, fresh] = weeks.try_emplace(monday_of(day), known_at(record), day);
    if (!fresh && known_at(record) < week->second.first) week->second = {known_at(record), day};
  }
  for (const auto& [monday, first] : weeks) {
    Question q{.key = "temperature/" + iso_from_date(monday), .kind = Kind::temperature, .opens_at = first.first};
    q.opened_on = first.second;
    q.first_day = q.due = monday + a_week;
    q.last_day = q.due + temperature_patience;
    q.scale = temperature_scale_c;
    q.least = least_c;
    q.most = most_c;
    questions.push_back(std::move(q));
  }
}

/// One a Friday once hatching has been seen.
void add_hatching_questions(std::vector<Question>& questions, std::span<const Record> log, const ZoneOffsets& zone, Instant now) {
  std::map<Date, std::pair<Instant, Date>> fridays;
  int received = 0;
  for (const Record& record : log) {
    if (known_at(record) > now) continue;
    if (const auto* eggs = std::get_if<records::EggReceipt>(&record.entry.body)) received += eggs->count;
    if (!tells_of_hatching(record)) continue;
    const Date day = local_day(zone, record.entry.at);
    const auto [friday, fresh] = fridays.try_emplace(friday_after(day), known_at(record), day);
    if (!fresh && known_at(record) < friday->second.first) friday->second = {known_at(record), day};
  }
  for (const auto& [friday, first] : fridays) {
    Question q{.key = "hatched/" + iso_from_date(friday), .kind = Kind::hatched, .opens_at = first.first};
    q.opened_on = first.second;
    q.first_day = q.due = friday;
    q.last_day = friday + hatch_patience;
    q.scale = std::max(10.0, static_cast<double>(received));
    q.most = received > 0 ? 2.0 * received : most_animals;
    questions.push_back(std::move(q));
  }
}

std::size_t nearest_step(const records::KitTest& test, double value) {
  return static_cast<std::size_t>(std::ranges::min_element(test.steps, {}, [&](double step) { return std::abs(step - value); }) - test.steps.begin());
}

/// First and last step that a reading of a card may stand for; beyond its ends the end itself.
std::pair<std::size_t, std::size_t> steps_of(const records::KitTest& test, const Reading& reading) {
  const std::size_t last = test.steps.size() - 1;
  if (reading.form == Reading::Form::below_first) return {0, 0};
  if (reading.form == Reading::Form::above_last) return {last, last};
  const std::size_t from = nearest_step(test, reading.value.value_or(0.0));
  return {from, reading.form == Reading::Form::between ? nearest_step(test, reading.upper_value.value_or(0.0)) : from};
}

/// Adds one reading of the test to what settles the question.
void settle(Outcome& outcome, const Question& q, const Reading& reading, double place) {
  Phrase text = records::short_reading_text(q.test, reading);
  if (reading.team) text = said("{0}: {1}", verbatim(*reading.team), text);
  outcome.text = outcome.text.empty() ? text : said("{0}; {1}", outcome.text, text);
  if (q.kind != Kind::steps) {
    const double give = q.kind == Kind::meter ? q.test.accuracy.value_or(0.0) : 0.0;
    if (outcome.records.empty()) outcome.low = outcome.high = place;
    outcome.low = std::min(outcome.low, place - give);
    outcome.high = std::max(outcome.high, place + give);
    return;
  }
  // Between two steps the colour may be that of any from one to the other.
  const auto [from, to] = steps_of(q.test, reading);
  outcome.weights.resize(q.test.steps.size());
  for (std::size_t i = from; i <= to; ++i) outcome.weights[i] += 1.0 / static_cast<double>(to - from + 1);
}

std::optional<Outcome> outcome_of_test(const Question& q, std::span<const Record> records, const ZoneOffsets& zone) {
  Outcome outcome;
  std::optional<Date> day;
  for (const Record& record : records) {
    const auto* reading = std::get_if<Reading>(&record.entry.body);
    if (!reading || reading->kit != q.kit || reading->test != q.test.key) continue;
    const Date on = local_day(zone, record.entry.at);
    const auto place = place_of(q.test, *reading);
    if (on < q.first_day || on > q.last_day || (day && on != *day) || !place) continue;
    if (!day) outcome.at = record.entry.at;
    day = on;
    settle(outcome, q, *reading, *place);
    outcome.records.push_back(record.id);
  }
  if (!day) return std::nullopt;
  double sum = 0.0;
  for (const double w : outcome.weights) sum += w;
  for (double& w : outcome.weights) w /= sum;
  return outcome;
}

/// A number counted as it stands; an estimated one within a tenth of it; a sample within its own range of what was seen.
std::pair<double, double> range_of(const Count& count) {
  if (count.how == Count::How::counted) return {count.count, count.count};
  const double whole = count.count / std::max(0.01, count.looked_at_fraction.value_or(1.0));
  const double give = count.how == Count::How::estimated ? 0.1 : 0.2;  // Assumed
  return {whole * (1.0 - give), whole * (1.0 + give)};
}

std::optional<Outcome> outcome_of_number(const Question& q, std::span<const Record> records, const ZoneOffsets& zone) {
  for (const Record& record : records) {
    const Date on = local_day(zone, record.entry.at);
    if (on < q.first_day || on > q.last_day) continue;
    Outcome outcome{.at = record.entry.at, .records = {record.id}};
    if (q.kind == Kind::temperature && of_tank(record)) {
      outcome.low = outcome.high = std::get<TemperatureReading>(record.entry.body).temperature.c();
      return outcome;
    }
    const auto* count = std::get_if<Count>(&record.entry.body);
    if (q.kind != Kind::hatched || !count || count->what != Count::What::hatched) continue;
    std::tie(outcome.low, outcome.high) = range_of(*count);
    return outcome;
  }
  return std::nullopt;
}

}  // namespace

std::optional<double> place_of(const records::KitTest& test, const Reading& reading) {
  if (!records::observed_interval(test, reading)) return std::nullopt;
  if (test.method != Method::colour_steps) return reading.value.value_or(0.0);
  const double last = static_cast<double>(test.steps.size()) - 1.0;
  if (reading.form == Reading::Form::below_first) return -0.5;
  if (reading.form == Reading::Form::above_last) return last + 0.5;
  const auto [from, to] = steps_of(test, reading);
  return 0.5 * static_cast<double>(from + to);
}

const records::KitTest* test_of(std::span<const Record> records, const Reading& reading) {
  const auto* kit = records::find_kit(records, reading.kit);
  return kit ? records::find_test(*kit, reading.test) : nullptr;
}

std::vector<Question> questions_of(std::span<const Record> log, const ZoneOffsets& zone, Instant now) {
  std::vector<Question> questions;
  add_test_questions(questions, log, zone, now);
  add_temperature_questions(questions, log, zone, now);
  add_hatching_questions(questions, log, zone, now);
  std::ranges::stable_sort(questions, {}, [](const Question& q) { return std::pair(q.opens_at, q.key); });
  return questions;
}

std::optional<Outcome> outcome_of(const Question& q, std::span<const Record> records, const ZoneOffsets& zone) {
  const bool number = q.kind == Kind::temperature || q.kind == Kind::hatched;
  return number ? outcome_of_number(q, records, zone) : outcome_of_test(q, records, zone);
}

Sentence question_text(const Question& q) {
  switch (q.kind) {
    case Kind::steps: return {"Which step of the card will the {0} test show at the next sitting, about {1}?", {Word{records::quantity_text(q.test.quantity)}, q.due}};
    case Kind::drops: return {"How many drops will the {0} test take at the next sitting, about {1}?", {Word{records::quantity_text(q.test.quantity)}, q.due}};
    case Kind::meter: return {"What will the {0} meter read at the next sitting, about {1}?", {Word{records::quantity_text(q.test.quantity)}, q.due}};
    case Kind::temperature: return {"How warm will the tank be at its first reading on or after {0}?", {q.due}};
    case Kind::hatched: break;
  }
  return {"How many will have hatched when they are counted on {0} or soon after?", {q.due}};
}

}  // namespace redd::lessons
