#include "lessons/graphs.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "lessons/detail/degrees.h"
#include "records/reading.h"

namespace redd::lessons {
namespace {

using inference::QuantityBelief;
using inference::SeriesPoint;
using records::Quantity;
using Kind = GraphQuestion::Kind;
using std::chrono::days;

constexpr double z90 = 1.6448536269514722;

double to_tenth(double value) { return std::round(10.0 * value) / 10.0; }

Graph temperature_graph(const LessonData& data) {
  const detail::Degrees degrees{data.us_units};
  Graph g{.key = "temperature", .title = {"Temperature, and the degree-days it adds up to"}, .unit = degrees.unit()};
  const auto read = read_temperatures(data);
  if (read.size() < 3) {
    g.summary = {"Nothing to draw yet: the tank has been read on {0} days, three are needed.", {Number{static_cast<long long>(read.size())}}};
    return g;
  }
  const Date from = std::max(read.front().day, data.today() - days(55));
  GraphLine line{.key = "mean", .name = {"Daily mean as the model takes it"}};
  int filled = 0, shown = 0;
  for (const auto& day : data.belief.temperature.days) {
    if (day.day < from || day.day > data.today()) continue;
    line.days.push_back(day.day);
    line.mid.push_back(degrees.of(day.mean.c()));
    line.low.push_back(degrees.of(day.mean.c() - z90 * day.sd.c()));
    line.high.push_back(degrees.of(day.mean.c() + z90 * day.sd.c()));
    ++shown;
    if (!day.measured) ++filled;
  }
  g.lines.push_back(std::move(line));
  std::vector<DayTemperature> drawn;
  for (const auto& day : read)
    if (day.day >= from) drawn.push_back(day);
  for (const auto& day : drawn) g.marks.push_back({day.day, day.mean, day.mean, day.mean, ""});
  g.summary = {"Daily readings since {0}. The band is where each day's mean lies nine times in ten; it widens where nobody read.", {from}};
  const auto [coldest, warmest] = std::ranges::minmax_element(drawn, {}, &DayTemperature::mean);
  if (drawn.size() < 3) return g;
  g.questions.push_back({Kind::see, {"On which day was the water warmest, and on which coldest?"},
                         {"Warmest on {0} ({1}), coldest on {2} ({3}). Where several days share the number, the first is named.", {warmest->day, Exact{warmest->mean, 1, degrees.unit()}, coldest->day, Exact{coldest->mean, 1, degrees.unit()}}}});
  const auto last = std::span(drawn).last(std::min<std::size_t>(7, drawn.size()));
  double sum = 0.0;
  for (const auto& day : last) sum += day.mean - degrees.frost();
  const Number count{static_cast<long long>(last.size())};
  const Sentence add = degrees.f ? Sentence{"Take 32 from each reading of the last {0} days that were read, and add them up. Each day's degrees above 32 °F count as so many °F degree-days.", {count}}
                                 : Sentence{"Add the readings of the last {0} days that were read. Each day's mean temperature above 0 °C counts as so many degree-days.", {count}};
  g.questions.push_back({Kind::check, add, {"{0}, from {1} to {2}.", {Exact{sum, 1, degrees.f ? "°F degree-days" : "degree-days"}, last.front().day, last.back().day}}});
  g.questions.push_back({Kind::ask, {"Why is the band wider on some days than on others?"},
                         {"On {0} of the {1} days drawn nobody read the tank. There the model goes in a straight line between readings and is less sure.", {Number{filled}, Number{shown}}}});
  return g;
}

/// The sitting with the highest middle, the first of several.
const SeriesPoint& peak_of(const QuantityBelief& q) {
  return *std::ranges::max_element(q.sittings, {}, [](const SeriesPoint& p) { return p.value.mid; });
}

GraphLine line_of(const char* key, const char* name, const QuantityBelief& q, const ZoneOffsets& zone) {
  GraphLine line{.key = key, .name = {name}};
  for (const SeriesPoint& p : q.sittings) {
    const Date day = local_day(zone, p.at);
    if (!line.days.empty() && line.days.back() == day) continue;  // before a change of water, when there were two sittings
    line.days.push_back(day);
    line.mid.push_back(p.value.mid);
    line.low.push_back(p.value.low);
    line.high.push_back(p.value.high);
  }
  return line;
}

Graph nitrogen_graph(const LessonData& data) {
  Graph g{.key = "nitrogen", .title = {"Ammonia, nitrite, nitrate: who comes first?"}, .unit = "mg N/L"};
  struct Part {
    Quantity quantity;
    const char* key;
    const char* name;
    const QuantityBelief* belief = nullptr;
  };
  std::vector<Part> parts{{Quantity::total_ammonia, "ammonia", "Total ammonia"}, {Quantity::nitrite, "nitrite", "Nitrite"}, {Quantity::nitrate, "nitrate", "Nitrate"}};
  for (Part& part : parts) {
    part.belief = data.belief.find(part.quantity);
    if (!part.belief || part.belief->sittings.size() < 3) {
      g.summary = {"Nothing to compare yet: ammonia, nitrite and nitrate must each have been tested in three sittings."};
      return g;
    }
  }
  for (const Part& part : parts) g.lines.push_back(line_of(part.key, part.name, *part.belief, data.zone));
  g.summary = {"All three as nitrogen, so that they can be compared. Lines join the middles of the readings; what went on between two sittings nobody saw."};
  std::ranges::stable_sort(parts, {}, [](const Part& p) { return peak_of(*p.belief).at; });
  const auto peak_day = [&](std::size_t i) { return local_day(data.zone, peak_of(*parts[i].belief).at); };
  g.questions.push_back({Kind::see, {"In which order did the three reach their highest reading?"},
                         {"{0} ({1}), then {2} ({3}), then {4} ({5}).", {Word{parts[0].name}, peak_day(0), Word{parts[1].name}, peak_day(1), Word{parts[2].name}, peak_day(2)}}});
  const auto& ammonia = *data.belief.find(Quantity::total_ammonia);
  // Above the card's last step nobody knows how much it was.
  if (!peak_of(ammonia).open_above && !ammonia.sittings.back().open_above)
    g.questions.push_back({Kind::check, {"By how much has total ammonia fallen from its highest reading to the newest one?"},
                           {"From about {0} to about {1} mg N/L, reading the middles. Both are ranges: {2} to {3}, and {4} to {5}.",
                            {Measured{peak_of(ammonia).value.mid}, Measured{ammonia.as_read.mid}, Measured{peak_of(ammonia).value.low}, Measured{peak_of(ammonia).value.high}, Measured{ammonia.as_read.low}, Measured{ammonia.as_read.high}}}});
  g.questions.push_back({Kind::ask, {"Ammonia goes away and nitrate comes. What happens between, and who does it?"},
                         {"Bacteria on the filter turn ammonia into nitrite, and others turn nitrite into nitrate. Nitrate stays until water is changed."}});
  return g;
}

Graph survival_graph(const LessonData& data) {
  Graph g{.key = "survival", .title = {"How many live"}, .unit = "%"};
  const auto& counts = data.counts;
  if (!counts.received_on) {
    g.summary = {"Nothing to draw yet: no eggs have been received."};
    return g;
  }
  GraphLine line{.key = "alive", .name = {"Alive of those received"}, .step = true};
  const auto add = [&](Date day, const Estimate<double>& share) {
    line.days.push_back(day);
    line.mid.push_back(100.0 * share.mid);
    line.low.push_back(100.0 * share.low);
    line.high.push_back(100.0 * share.high);
  };
  add(*counts.received_on, {1, 1, 1});
  for (const auto& step : counts.curve) add(step.found, step.survival_fraction);
  if (line.days.back() < data.today()) add(data.today(), counts.curve.empty() ? Estimate<double>{1, 1, 1} : counts.curve.back().survival_fraction);
  g.lines.push_back(std::move(line));
  g.summary = {"Each step down is a day on which dead were found. The band is where the share lies nine times in ten, for so small a lot."};
  const auto& a = counts.account;
  const int living = a.received - a.dead();
  if (living >= 0) g.questions.push_back({Kind::check, {"{0} were received and {1} were found dead. What percentage was not found dead?", {Number{a.received}, Number{a.dead()}}},
                         {"{0} - {1} = {2}; {2} / {0} = {3}.", {Number{a.received}, Number{a.dead()}, Number{living}, Exact{100.0 * living / std::max(1, a.received), 1, "%"}}}});
  if (counts.curve.empty()) return g;
  const auto worst = std::ranges::max_element(counts.curve, {}, [](const auto& step) { return step.died; });
  g.questions.push_back({Kind::see, {"On which day is the biggest step down?"}, {"{0}: {1} found dead that day.", {worst->found, Number{std::llround(worst->died)}}}});
  g.questions.push_back({Kind::ask, {"A step stands on the day the dead were found. When did they die?"},
                         {"For the biggest step: some time from {0} to {1}, the days since the look before.", {worst->from, worst->found}}});
  return g;
}

/// Nitrate, which moves most over a season, unless another test was made in more than two sittings more; then the one made most often.
const QuantityBelief* most_read(const inference::Belief& belief) {
  const QuantityBelief* nitrate = belief.find(Quantity::nitrate);
  const QuantityBelief* most = nitrate;
  for (const auto& [quantity, q] : belief.water)
    if (!most || q.sittings.size() > most->sittings.size()) most = &q;
  return nitrate && most->sittings.size() <= nitrate->sittings.size() + 2 ? nitrate : most;
}

Graph range_graph(const LessonData& data) {
  Graph g{.key = "ranges", .title = {"A reading is a range"}};
  const QuantityBelief* q = most_read(data.belief);
  if (!q || q->sittings.size() < 2) {
    g.summary = {"Nothing to compare yet: no test has been made in two sittings."};
    return g;
  }
  g.unit = records::unit_text(q->unit);
  const auto shown = [&](double canonical) { return records::printed_value(q->unit, canonical); };
  const auto points = std::span(q->sittings).last(std::min<std::size_t>(12, q->sittings.size()));
  for (const SeriesPoint& p : points) g.marks.push_back({local_day(data.zone, p.at), shown(p.value.low), shown(p.value.mid), shown(p.value.high), p.raw_text});
  const Date read_on = local_day(data.zone, q->read_at);
  GraphLine now{.key = "now", .name = {"What the model believes since then"}};
  for (const Date day : {read_on, data.today()}) {
    if (!now.days.empty() && now.days.back() == day) continue;
    const auto& value = day == read_on && data.today() != read_on ? q->as_read : q->value;
    now.days.push_back(day);
    now.low.push_back(shown(value.low));
    now.mid.push_back(shown(value.mid));
    now.high.push_back(shown(value.high));
  }
  g.lines.push_back(std::move(now));
  const Word name{records::quantity_text(q->quantity)};
  g.summary = {"The last sittings of {0}. A bar reaches over all values that such a reading allows nine times in ten.", {name}};
  const SeriesPoint &before = points[points.size() - 2], &last = points.back();
  // Above the card's last step nobody knows where a bar ends.
  const bool overlap = (before.value.low <= last.value.high || last.open_above) && (last.value.low <= before.value.high || before.open_above);
  const Shown low1 = Measured{shown(before.value.low)}, high1 = Measured{shown(before.value.high)}, low2 = Measured{shown(last.value.low)}, high2 = Measured{shown(last.value.high)};
  if (overlap)
    g.questions.push_back({Kind::see, {"Do the last two bars overlap? May both readings be of the same water?"}, {"Yes: {0} to {1} and {2} to {3} share values. From these two alone nobody can say that it changed.", {low1, high1, low2, high2}}});
  else
    g.questions.push_back({Kind::see, {"Do the last two bars overlap? May both readings be of the same water?"}, {"No: {0} to {1} and {2} to {3} share no value, so it very likely changed.", {low1, high1, low2, high2}}});
  if (std::ranges::any_of(points, &SeriesPoint::open_above)) {
    g.questions.push_back({Kind::check, {"Which bars have no upper end that is known?"}, {"Those of readings above the card's last step: only \"at least\" is known there."}});
    return g;
  }
  const auto widest = std::ranges::max_element(points, {}, [&](const SeriesPoint& p) { return shown(p.value.high) - shown(p.value.low); });
  g.questions.push_back({Kind::check, {"Which of the bars is the longest, and how long is it?"},
                         {"That of {0}: {1} to {2}, so about {3}.", {local_day(data.zone, widest->at), Measured{shown(widest->value.low)}, Measured{shown(widest->value.high)}, Measured{shown(widest->value.high) - shown(widest->value.low), g.unit}}}});
  g.questions.push_back({Kind::ask, {"What would make a bar shorter?"}, {"Finer steps on the card, or several teams reading the same water: see the readings by team."}});
  return g;
}

}  // namespace

std::vector<DayTemperature> read_temperatures(const LessonData& data) {
  std::map<Date, std::pair<double, int>> sums;
  for (const SeriesPoint& p : data.belief.temperature.series) {
    auto& [sum, count] = sums[local_day(data.zone, p.at)];
    sum += p.value.mid;
    ++count;
  }
  std::vector<DayTemperature> out;
  for (const auto& [day, sum] : sums) out.push_back({day, to_tenth(detail::Degrees{data.us_units}.of(sum.first / sum.second))});
  return out;
}

std::vector<Graph> graphs_of(const LessonData& data) { return {temperature_graph(data), nitrogen_graph(data), survival_graph(data), range_graph(data)}; }

}  // namespace redd::lessons
