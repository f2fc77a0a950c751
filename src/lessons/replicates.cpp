#include "lessons/replicates.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "inference/card_reading.h"
#include "inference/observation_model.h"
#include "records/reading.h"

namespace redd::lessons {
namespace {

using records::Method;
using records::Reading;
using records::Record;
using Fit = Repeatability::Fit;

double step_at(const records::KitTest& test, double place) {
  if (test.method == Method::drop_count) return test.per_drop.value_or(1.0);
  if (test.method == Method::meter) return 2.0 * test.accuracy.value_or(0.0);
  const auto i = static_cast<std::size_t>(std::clamp(std::floor(place), 0.0, static_cast<double>(test.steps.size() - 2)));
  return test.steps[i + 1] - test.steps[i];
}

ReplicateSitting with_spread(ReplicateSitting sitting) {
  std::vector<double> places, printed;
  for (const TeamReading& r : sitting.readings) {
    places.push_back(r.place);
    printed.push_back(r.printed);
  }
  sitting.places = numerics::spread_of(places);
  sitting.printed = numerics::spread_of(printed);
  sitting.step = step_at(sitting.test, sitting.places.mean);
  sitting.rounding_sd = sitting.step / std::sqrt(12.0);
  return sitting;
}

/// The newest reading of each team; they come oldest first.
void add_reading(ReplicateSitting& sitting, TeamReading reading) {
  const auto before = std::ranges::find(sitting.readings, reading.team, &TeamReading::team);
  if (before == sitting.readings.end()) sitting.readings.push_back(std::move(reading));
  else *before = std::move(reading);
}

/// Scatter of readings: the reader's own, and the even spread that rounding adds (so many steps wide: variance width^2 / 12).
double rounded(double reader_sd, double width) { return std::sqrt(reader_sd * reader_sd + width * width / 12.0); }

/// At the ends of a card all readers say the same whatever they see, which tells nothing of their scatter.
bool inside_the_card(const ReplicateSitting& s) {
  if (s.test.method == Method::drop_count) return s.places.lowest > 1.0;
  return s.places.lowest > 0.0 && s.places.highest < static_cast<double>(s.test.steps.size()) - 1.0;
}

Repeatability repeatability_of(Method method, std::span<const ReplicateSitting> sittings) {
  Repeatability out{.method = method};
  std::vector<numerics::Spread> groups;
  for (const ReplicateSitting& s : sittings)
    if (s.test.method == method && inside_the_card(s)) groups.push_back(s.places);
  out.sittings = static_cast<int>(groups.size());
  for (const auto& g : groups) out.readings += g.count;
  out.freedom = numerics::degrees_of_freedom(groups);
  if (out.freedom == 0) return out;
  out.sd = numerics::pooled_standard_deviation(groups);
  const auto range = numerics::standard_deviation_range(out.sd, out.freedom);
  out.low = range.low;
  out.high = range.high;
  // Teams that look at one vial differ by their eyes alone; with a vial each by all of a reader's error.
  // Who may answer "between" rounds to half steps.
  out.assumed_low = rounded(inference::eye_error_steps, method == Method::colour_steps ? 0.5 : 1.0);
  out.assumed_high = rounded(inference::reader_error_steps, 1.0);
  constexpr int enough = 4;  // Assumed: with fewer degrees of freedom the range spans a factor of three and more
  // Readings that all fell into one step are hidden by it: no sign of teams that looked at each other's answer.
  out.fit = out.freedom < enough ? Fit::too_few : out.sd == 0.0 ? Fit::alike : out.low > out.assumed_high ? Fit::wider : out.high < out.assumed_low ? Fit::narrower : Fit::fits;
  return out;
}

}  // namespace

double printed_at(const records::KitTest& test, double place) {
  if (test.method == Method::drop_count) return place * test.per_drop.value_or(1.0);
  if (test.method == Method::meter) return place;
  const double last = static_cast<double>(test.steps.size()) - 1.0;
  const auto i = static_cast<std::size_t>(std::clamp(std::floor(place), 0.0, last - 1.0));
  return std::max(0.0, test.steps[i] + (place - static_cast<double>(i)) * (test.steps[i + 1] - test.steps[i]));
}

Replicates replicates_of(std::span<const Record> records, const ZoneOffsets& zone) {
  std::map<std::tuple<Date, int, std::string, std::string>, ReplicateSitting> groups;
  int deeds = 0;
  for (const Record& record : records) {
    if (std::holds_alternative<records::WaterChange>(record.entry.body) || std::holds_alternative<records::Dose>(record.entry.body)) ++deeds;
    const auto* reading = std::get_if<Reading>(&record.entry.body);
    const auto* test = reading ? test_of(records, *reading) : nullptr;
    const auto place = test ? place_of(*test, *reading) : std::nullopt;
    if (!place) continue;
    const Date day = local_day(zone, record.entry.at);
    auto& sitting = groups[{day, deeds, reading->kit, reading->test}];
    sitting.day = day;
    sitting.test = *test;
    add_reading(sitting, {reading->team.value_or(record.entry.author), records::short_reading_text(*test, *reading), *place, printed_at(*test, *place), record.id});
  }
  Replicates out;
  for (auto& [key, sitting] : groups)
    if (sitting.readings.size() > 1) out.sittings.push_back(with_spread(std::move(sitting)));
  std::ranges::reverse(out.sittings);
  for (const Method method : {Method::colour_steps, Method::drop_count}) {
    const auto found = repeatability_of(method, out.sittings);
    if (found.sittings > 0) out.repeatability.push_back(found);
  }
  return out;
}

}  // namespace redd::lessons
