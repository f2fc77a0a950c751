#include "report/sitting_view.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "quantities/verbatim.h"
#include "records/reading.h"
#include "report/numbers.h"
#include "report/wrapped.h"
#include "wire/describe.h"

namespace redd::report {
namespace {

using sitting::seconds;
using sitting::Step;
using sitting::Timetable;
using sitting::Turn;
using wire::Json;
using Do = records::TimedStep::Do;

/// "4:05", as a timer shows it.
std::string clock_text(seconds s) {
  const auto size = std::abs(s.count());
  const std::string rest = std::to_string(size % 60);
  return (s.count() < 0 ? "-" : "") + std::to_string(size / 60) + ":" + (rest.size() < 2 ? "0" : "") + rest;
}

/// Whole minutes: the hands' own times are assumptions, so nobody can say it finer.
std::string about(seconds s, const Reader& reader) {
  if (s.count() == 0) return say(reader, "no time");
  if (s.count() < 60) return say(reader, "less than a minute");
  return say(reader, "about {0, plural, one {# minute} other {# minutes}}", {Number{(s.count() + 30) / 60}});
}

const Step& step_of(const Timetable& table, const Turn& turn, int step) { return table.steps[turn.test][static_cast<std::size_t>(step)]; }

std::string hands_do(const Step& step, const Reader& reader) {
  if (step.assumed) return say(reader, step.what == Do::fill ? "begin" : step.lasts >= std::chrono::minutes(1) ? "do the whole test" : "read");
  const Number lasts{step.lasts.count()};
  switch (step.what) {
    case Do::fill: return say(reader, "fill");
    case Do::drops: return say(reader, "drops");
    case Do::powder: return say(reader, "powder");
    case Do::mix: return say(reader, "mix {0} s", {lasts});
    case Do::wait: return say(reader, "wait {0} s", {lasts});
    case Do::read: return say(reader, "read");
  }
  broken_promise("hands_do", "unknown step");
}

/// "ammonia: fill, drops, mix 10 s; then it waits until 11:05."
std::string turn_sentence(const records::Kit& kit, const Timetable& table, const Turn& turn, const Reader& reader) {
  std::string deeds;
  for (const Turn::Part& part : turn.parts) deeds += (deeds.empty() ? "" : ", ") + hands_do(step_of(table, turn, part.step), reader);
  const Phrase test = verbatim(kit.tests[turn.test].key);
  if (turn.read_by && turn.waits_until)
    return say(reader, "{0}: {1}, by {2} at the latest; then it waits until {3}.", test, deeds, clock_text(*turn.read_by), clock_text(*turn.waits_until));
  if (turn.read_by) return say(reader, "{0}: {1}, by {2} at the latest.", test, deeds, clock_text(*turn.read_by));
  if (turn.waits_until) return say(reader, "{0}: {1}; then it waits until {2}.", test, deeds, clock_text(*turn.waits_until));
  return say(reader, "{0}: {1}.", test, deeds);
}

/// A number of the card, without the noise of another unit.
std::string as_printed(double value) { return wire::printed(Json(std::round(value * 1e6) / 1e6)); }

std::string later_sentence(const records::Kit& kit, const sitting::HandOver& rule, const Reader& reader) {
  const records::KitTest* first = records::find_test(kit, rule.first);
  const std::string number = number_text(as_printed(rule.printed), reader);
  const std::string value = first && first->unit != records::TestUnit::ph ? number + " " + say(reader, records::unit_text(first->unit)) : number;
  return say(reader, rule.at_or_above ? "{0} only if {1} reads {2} or more." : "{0} only if {1} reads {2} or less.", verbatim(rule.then), verbatim(rule.first), value);
}

std::size_t tests_in(const Timetable& table) {
  return static_cast<std::size_t>(std::ranges::count_if(table.steps, [](const auto& steps) { return !steps.empty(); }));
}

std::string headline(const Timetable& table, int hands, const Reader& reader) {
  if (table.turns.empty()) return say(reader, "Nothing is left to do.");
  const Number tests{static_cast<long long>(tests_in(table))}, pairs{hands};
  const Word lasts{about(table.lasts, reader)};
  if (table.one_after_another && *table.one_after_another > table.lasts)
    return say(reader, "{0, plural, one {# test} other {# tests}} with {1, plural, one {one pair of hands} other {two pairs of hands}}: {2} (one after the other: {3}).",
               {tests, pairs, lasts, Word{about(*table.one_after_another, reader)}});
  return say(reader, "{0, plural, one {# test} other {# tests}} with {1, plural, one {one pair of hands} other {two pairs of hands}}: {2}.", {tests, pairs, lasts});
}

std::vector<std::string> safety(const Reader& reader) {
  // Common practice, no source.
  return {say(reader, "Eye protection for everyone at the table; an adult opens bottles of acid or alkali. Nothing goes back into the tank: rinse into the waste jar, then wash hands.")};
}

std::vector<std::string> remarks(const Timetable& table, const Reader& reader) {
  std::vector<std::string> texts;
  for (const Sentence& each : table.remarks) texts.push_back(text_of(each, reader));
  if (!table.turns.empty()) texts.push_back(say(reader, "How long hands take is assumed where the card gives no seconds; with your class it may be more."));
  if (!table.shortest) texts.push_back(say(reader, "So many tests at once: a shorter order may exist."));
  return texts;
}

Json turn_json(const records::Kit& kit, const Timetable& table, const Turn& turn, const Reader& reader) {
  Json steps = Json::array();
  for (const Turn::Part& part : turn.parts) {
    const Step& step = step_of(table, turn, part.step);
    steps.push_back({{"step", part.step}, {"do", std::string(wire::words::step_do[static_cast<std::size_t>(step.what)])}, {"text", text_of(step.text, reader)}, {"assumed", step.assumed},
                     {"starts_s", part.starts.count()}, {"ends_s", part.ends.count()}});
    if (step.count) steps.back()["count"] = *step.count;
  }
  Json out{{"test", kit.tests[turn.test].key}, {"hands", turn.hands + 1}, {"starts_s", turn.starts.count()}, {"ends_s", turn.ends.count()},
           {"starts_text", clock_text(turn.starts)}, {"ends_text", clock_text(turn.ends)}, {"sentence", turn_sentence(kit, table, turn, reader)}, {"steps", steps}};
  if (const auto& dip = table.strip[turn.test]) out["strip_of"] = kit.tests[*dip].key;
  if (turn.waits_until) {
    const int wait = turn.parts.back().step + 1;
    out["waits_until_s"] = turn.waits_until->count();
    out["waits_until_text"] = clock_text(*turn.waits_until);
    out["wait_step"] = {{"step", wait}, {"text", text_of(step_of(table, turn, wait).text, reader)}};
  }
  if (turn.read_by) {
    out["read_by_s"] = turn.read_by->count();
    out["read_by_text"] = clock_text(*turn.read_by);
  }
  return out;
}

void put_span(Json& out, const std::string& name, const std::optional<seconds>& span, const Reader& reader) {
  if (!span) return;
  out[name + "_s"] = span->count();
  out[name + "_text"] = about(*span, reader);
}

}  // namespace

Json sitting_json(const records::Kit& kit, const Timetable& table, int hands, const Reader& reader) {
  Json out{{"headline", headline(table, hands, reader)}};
  put_span(out, "lasts", table.lasts, reader);
  out["hands"] = hands;
  out["hands_on_s"] = table.hands_on.count();
  put_span(out, "one_after_another", table.one_after_another, reader);
  put_span(out, "lasts_with_later", table.lasts_with_later, reader);
  out["switches"] = table.switches;
  out["shortest"] = table.shortest;
  out["turns"] = Json::array();
  for (const Turn& turn : table.turns) out["turns"].push_back(turn_json(kit, table, turn, reader));
  out["later"] = Json::array();
  for (const sitting::HandOver& rule : table.later)
    out["later"].push_back({{"first", rule.first}, {"then", rule.then}, {"at_or_above", rule.at_or_above}, {"printed", rule.printed}, {"sentence", later_sentence(kit, rule, reader)}});
  out["remarks"] = remarks(table, reader);
  out["safety"] = safety(reader);
  return out;
}

std::string sitting_text(const records::Kit& kit, const Timetable& table, int hands, const Reader& reader) {
  constexpr int width = 100;
  std::string out = kit.name + "\n" + wrapped(headline(table, hands, reader), width, "", "") + "\n";
  for (const std::string& each : safety(reader)) out += wrapped(each, width, "", "");
  out += "\n";
  for (const Turn& turn : table.turns) {
    std::string first = clock_text(turn.starts);
    first.insert(0, std::max<std::size_t>(6, first.size()) - first.size(), ' ');
    if (hands > 1) first += "  " + say(reader, "hands {0}", turn.hands + 1);
    first += "  ";
    out += wrapped(turn_sentence(kit, table, turn, reader), width, first, std::string(first.size(), ' '));
  }
  if (!table.turns.empty()) {
    std::string end = clock_text(table.lasts);
    end.insert(0, std::max<std::size_t>(6, end.size()) - end.size(), ' ');
    out += end + "  " + say(reader, "All read.") + "\n";
  }
  if (!table.later.empty()) out += "\n";
  for (const sitting::HandOver& rule : table.later) out += wrapped(later_sentence(kit, rule, reader), width, "", "");
  if (table.lasts_with_later) out += wrapped(say(reader, "If it comes to that, plan {0}.", about(*table.lasts_with_later, reader)), width, "", "");
  out += "\n";
  for (const std::string& each : remarks(table, reader)) out += wrapped(each, width, "", "");
  return out;
}

}  // namespace redd::report
