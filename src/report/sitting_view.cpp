#include "report/sitting_view.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

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
std::string about(seconds s) {
  if (s.count() == 0) return "no time";
  if (s.count() < 60) return "less than a minute";
  const auto minutes = (s.count() + 30) / 60;
  return "about " + std::to_string(minutes) + (minutes == 1 ? " minute" : " minutes");
}

std::string counted(std::size_t n, const char* one) { return std::to_string(n) + " " + one + (n == 1 ? "" : "s"); }

const Step& step_of(const Timetable& table, const Turn& turn, int step) { return table.steps[turn.test][static_cast<std::size_t>(step)]; }

std::string lasting(const char* what, seconds s) { return std::string(what) + " " + std::to_string(s.count()) + " s"; }

std::string hands_do(const Step& step) {
  if (step.assumed) return step.what == Do::fill ? "begin" : step.lasts >= std::chrono::minutes(1) ? "do the whole test" : "read";
  switch (step.what) {
    case Do::fill: return "fill";
    case Do::drops: return "drops";
    case Do::powder: return "powder";
    case Do::mix: return lasting("mix", step.lasts);
    case Do::wait: return lasting("wait", step.lasts);
    case Do::read: return "read";
  }
  broken_promise("hands_do", "unknown step");
}

/// "ammonia: fill, drops, mix 10 s; then it waits until 11:05."
std::string turn_sentence(const records::Kit& kit, const Timetable& table, const Turn& turn) {
  std::string text = kit.tests[turn.test].key + ": ";
  for (std::size_t i = 0; i < turn.parts.size(); ++i) text += (i == 0 ? "" : ", ") + hands_do(step_of(table, turn, turn.parts[i].step));
  if (turn.read_by) text += ", by " + clock_text(*turn.read_by) + " at the latest";
  if (turn.waits_until) text += "; then it waits until " + clock_text(*turn.waits_until);
  return text + ".";
}

/// A number of the card, without the noise of another unit.
std::string as_printed(double value) { return wire::printed(Json(std::round(value * 1e6) / 1e6)); }

std::string later_sentence(const records::Kit& kit, const sitting::HandOver& rule) {
  const records::KitTest* first = records::find_test(kit, rule.first);
  const std::string unit = first && first->unit != records::TestUnit::ph ? " " + records::unit_text(first->unit) : "";
  return rule.then + " only if " + rule.first + " reads " + as_printed(rule.printed) + unit + (rule.at_or_above ? " or more." : " or less.");
}

std::size_t tests_in(const Timetable& table) {
  return static_cast<std::size_t>(std::ranges::count_if(table.steps, [](const auto& steps) { return !steps.empty(); }));
}

std::string headline(const Timetable& table, int hands) {
  if (table.turns.empty()) return "Nothing is left to do.";
  std::string text = counted(tests_in(table), "test") + " with " + (hands == 1 ? "one pair of hands: " : "two pairs of hands: ") + about(table.lasts);
  if (table.one_after_another && *table.one_after_another > table.lasts) text += " (one after the other: " + about(*table.one_after_another) + ")";
  return text + ".";
}

const std::vector<std::string>& safety() {
  // Common practice, no source.
  static const std::vector<std::string> sentences{
      "Eye protection for everyone at the table; an adult opens bottles of acid or alkali. Nothing goes back into the tank: rinse into the waste jar, then wash hands."};
  return sentences;
}

std::vector<std::string> remarks(const Timetable& table) {
  std::vector<std::string> texts;
  for (const Sentence& each : table.remarks) texts.push_back(text_of(each, {}));
  if (!table.turns.empty()) texts.push_back("How long hands take is assumed where the card gives no seconds; with your class it may be more.");
  if (!table.shortest) texts.push_back("So many tests at once: a shorter order may exist.");
  return texts;
}

Json turn_json(const records::Kit& kit, const Timetable& table, const Turn& turn) {
  Json steps = Json::array();
  for (const Turn::Part& part : turn.parts) {
    const Step& step = step_of(table, turn, part.step);
    steps.push_back({{"step", part.step}, {"do", std::string(wire::words::step_do[static_cast<std::size_t>(step.what)])}, {"text", step.text}, {"assumed", step.assumed},
                     {"starts_s", part.starts.count()}, {"ends_s", part.ends.count()}});
    if (step.count) steps.back()["count"] = *step.count;
  }
  Json out{{"test", kit.tests[turn.test].key}, {"hands", turn.hands + 1}, {"starts_s", turn.starts.count()}, {"ends_s", turn.ends.count()},
           {"starts_text", clock_text(turn.starts)}, {"ends_text", clock_text(turn.ends)}, {"sentence", turn_sentence(kit, table, turn)}, {"steps", steps}};
  if (turn.waits_until) {
    const int wait = turn.parts.back().step + 1;
    out["waits_until_s"] = turn.waits_until->count();
    out["waits_until_text"] = clock_text(*turn.waits_until);
    out["wait_step"] = {{"step", wait}, {"text", step_of(table, turn, wait).text}};
  }
  if (turn.read_by) {
    out["read_by_s"] = turn.read_by->count();
    out["read_by_text"] = clock_text(*turn.read_by);
  }
  return out;
}

void put_span(Json& out, const std::string& name, const std::optional<seconds>& span) {
  if (!span) return;
  out[name + "_s"] = span->count();
  out[name + "_text"] = about(*span);
}

}  // namespace

Json sitting_json(const records::Kit& kit, const Timetable& table, int hands) {
  Json out{{"headline", headline(table, hands)}};
  put_span(out, "lasts", table.lasts);
  out["hands"] = hands;
  out["hands_on_s"] = table.hands_on.count();
  put_span(out, "one_after_another", table.one_after_another);
  put_span(out, "lasts_with_later", table.lasts_with_later);
  out["switches"] = table.switches;
  out["shortest"] = table.shortest;
  out["turns"] = Json::array();
  for (const Turn& turn : table.turns) out["turns"].push_back(turn_json(kit, table, turn));
  out["later"] = Json::array();
  for (const sitting::HandOver& rule : table.later)
    out["later"].push_back({{"first", rule.first}, {"then", rule.then}, {"at_or_above", rule.at_or_above}, {"printed", rule.printed}, {"sentence", later_sentence(kit, rule)}});
  out["remarks"] = remarks(table);
  out["safety"] = safety();
  return out;
}

std::string sitting_text(const records::Kit& kit, const Timetable& table, int hands) {
  constexpr int width = 100;
  std::string out = kit.name + "\n" + wrapped(headline(table, hands), width, "", "") + "\n";
  for (const std::string& each : safety()) out += wrapped(each, width, "", "");
  out += "\n";
  for (const Turn& turn : table.turns) {
    std::string first = clock_text(turn.starts);
    first.insert(0, std::max<std::size_t>(6, first.size()) - first.size(), ' ');
    if (hands > 1) first += turn.hands == 0 ? "  hands 1" : "  hands 2";
    first += "  ";
    out += wrapped(turn_sentence(kit, table, turn), width, first, std::string(first.size(), ' '));
  }
  if (!table.turns.empty()) {
    std::string end = clock_text(table.lasts);
    end.insert(0, std::max<std::size_t>(6, end.size()) - end.size(), ' ');
    out += end + "  All read.\n";
  }
  if (!table.later.empty()) out += "\n";
  for (const sitting::HandOver& rule : table.later) out += wrapped(later_sentence(kit, rule), width, "", "");
  if (table.lasts_with_later) out += wrapped("If it comes to that, plan " + about(*table.lasts_with_later) + ".", width, "", "");
  out += "\n";
  for (const std::string& each : remarks(table)) out += wrapped(each, width, "", "");
  return out;
}

}  // namespace redd::report
