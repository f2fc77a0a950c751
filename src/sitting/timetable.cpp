#include "sitting/timetable.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "quantities/verbatim.h"
#include "sitting/detail/layout.h"

namespace redd::sitting {
namespace {

using detail::Layout;
using detail::Search;
using Tests = std::vector<std::size_t>;

/// Some tenths of a second at most; ten tests mostly take a hundredth of it.
constexpr std::int64_t most_nodes = 200000;

int whole(seconds s) { return static_cast<int>(s.count()); }

Result<Tests> asked_tests(const records::Kit& kit, const std::vector<std::string>& keys) {
  Problems problems;
  std::set<std::size_t> found;  // in kit order
  for (const std::string& key : keys) {
    const auto test = std::ranges::find(kit.tests, key, &records::KitTest::key);
    if (test == kit.tests.end()) problems.push_back({"unknown_test", "/tests", said("Kit \"{0}\" has no test \"{1}\".", verbatim(kit.key), verbatim(key))});
    else if (!found.insert(static_cast<std::size_t>(test - kit.tests.begin())).second) problems.push_back({"given_twice", "/tests", said("Test \"{0}\" is asked for twice.", verbatim(key))});
  }
  if (!problems.empty()) return problems;
  return Tests(found.begin(), found.end());
}

Tests all_of(const records::Kit& kit) {
  Tests tests(kit.tests.size());
  std::iota(tests.begin(), tests.end(), std::size_t{0});
  return tests;
}

/// "a", "b" and "c", each in quotes.
Phrase named(const records::Kit& kit, const Tests& tests) {
  std::string names;
  for (std::size_t i = 0; i < tests.size(); ++i) {
    const std::string quoted = "\"" + kit.tests[tests[i]].key + "\"";
    if (i > 0 && i + 1 == tests.size()) return said("{0} and {1}", verbatim(names), verbatim(quoted));
    names += (i == 0 ? "" : ", ") + quoted;
  }
  return verbatim(names);
}

/// Why no order keeps every window: the fewest tests that cannot be read in time together.
Problem collision(const records::Kit& kit, const Layout& all, const std::vector<int>& free, bool begun) {
  Tests left = all.tests;
  const auto without = [&](std::size_t test) {
    Tests rest = left;
    std::erase(rest, test);
    return rest;
  };
  const auto impossible = [&](const Tests& tests) {
    return !detail::best_order(detail::tasks_of(all, tests), free, most_nodes / 10).possible;
  };
  for (const std::size_t test : all.tests)
    if (impossible(without(test))) left = without(test);
  if (left.size() == 1 && begun)
    return {"read_too_late", "/state", said("Test {0} can't be read in time any more: its colour no longer counts. Begin it again.", named(kit, left))};
  if (left.size() == 1) return {"windows_collide", "/tests", said("Test {0} can't be read in the times its card gives: check them.", named(kit, left))};
  const bool alone = free.size() == 1;
  const char* sentence = alone && begun ? "Tests {0} can't all be read in time by one pair of hands. Take a second pair of hands, or begin one of them again later."
                         : alone        ? "Tests {0} can't all be read in time by one pair of hands. Take a second pair of hands, or do one of them in a sitting of its own."
                         : begun        ? "Tests {0} can't all be read in time by two pairs of hands. Begin one of them again later."
                                        : "Tests {0} can't all be read in time by two pairs of hands. Do one of them in a sitting of its own.";
  return {"windows_collide", begun ? "/state" : "/tests", said(sentence, named(kit, left))};
}

seconds one_after_another(const Layout& all) {
  const std::vector<int> one{0};
  int sum = 0;
  std::set<std::size_t> vials;
  for (const std::size_t test : all.tests) vials.insert(all.strip[test].value_or(test));
  for (const std::size_t vial : vials) {
    Tests together;
    for (const std::size_t test : all.tests)
      if (all.strip[test].value_or(test) == vial) together.push_back(test);
    sum += detail::best_order(detail::tasks_of(all, together), one, most_nodes).lasts_seconds;
  }
  return seconds(sum);
}

std::vector<Turn> turns_of(const Layout& all, const Search& found) {
  std::vector<int> ends(all.tasks.size(), 0);
  std::vector<Turn> turns;
  for (const detail::Placed& placed : found.placed) {
    const auto i = static_cast<std::size_t>(placed.task);
    const detail::Task& task = all.tasks[i];
    const detail::Stretch& stretch = all.stretches[i];
    const std::vector<Step>& steps = all.steps[stretch.test];
    Turn turn{.test = stretch.test, .hands = placed.hands, .starts = seconds(placed.start_seconds)};
    seconds at = turn.starts;
    for (int step = stretch.first_step; step < stretch.end_step; ++step) {
      const seconds ends_at = at + steps[static_cast<std::size_t>(step)].lasts;
      turn.parts.push_back({step, at, ends_at});
      at = ends_at;
    }
    turn.ends = at;
    ends[i] = whole(at);
    if (stretch.end_step < static_cast<int>(steps.size())) turn.waits_until = at + steps[static_cast<std::size_t>(stretch.end_step)].lasts;
    if (task.latest_seconds)
      turn.read_by = seconds((task.after < 0 ? 0 : ends[static_cast<std::size_t>(task.after)]) + *task.latest_seconds + *stretch.read_by_after_start_seconds);
    turns.push_back(std::move(turn));
  }
  return turns;
}

std::vector<Sentence> remarks_on(const records::Kit& kit, const Layout& all, const HandTimes& times) {
  std::vector<Sentence> remarks;
  for (const std::size_t test : all.tests) {
    const Word key{verbatim(kit.tests[test].key)};
    if (kit.tests[test].timed_steps.empty())
      remarks.push_back({"The card of {0} gives no steps: {1} minutes of busy hands are taken for it, with any wait in them. Do as its leaflet says, and write its steps into the kit.",
                         {key, Measured{static_cast<double>(times.whole_test.count()) / 60.0}}});
    if (all.strip[test]) remarks.push_back({"{0} is taken to be read on the strip of {1}, from the same dip.", {key, Word{verbatim(kit.tests[*all.strip[test]].key)}}});
    else if (const auto dip = strip_of(kit, test))
      remarks.push_back({"{0} looks like a colour on the strip of {1}, which is not part of this sitting: its time to read can't be kept for you.", {key, Word{verbatim(kit.tests[*dip].key)}}});
  }
  return remarks;
}

Result<Timetable> laid_out(const records::Kit& kit, const Asked& asked, const std::vector<Standing>& standing, const std::vector<seconds>& free_in, bool begun) {
  if (asked.hands < 1 || asked.hands > 2) return Problem{"not_one_or_two_hands", "/hands", "A sitting is for one or two pairs of hands."};
  if (!free_in.empty() && free_in.size() != static_cast<std::size_t>(asked.hands))
    return Problem{"wrong_length", "/state", "Say for each pair of hands when it is free."};
  std::vector<int> free(static_cast<std::size_t>(asked.hands), 0);
  for (std::size_t i = 0; i < free_in.size(); ++i) free[i] = std::max(0, whole(free_in[i]));

  UsualTests usual;
  auto tests = asked_tests(kit, asked.tests);
  if (!tests) return tests.problems();
  const bool usual_only = asked.tests.empty() || asked.hand_over;
  const Tests named_ones = asked.tests.empty() ? all_of(kit) : *tests;
  if (usual_only) {
    usual = usual_tests(kit, named_ones, asked.expected);
    tests = usual.now;
  }
  const auto all = detail::layout(kit, asked, *tests, standing);
  if (!all) return all.problems();
  const Search found = detail::best_order(all->tasks, free, most_nodes);
  if (found.placed.empty() && !all->tasks.empty()) {
    if (!found.possible) return collision(kit, *all, free, begun);
    return Problem{"too_many_tests", "/tests", "No order was found in time that reads every test in time: split the sitting into two."};
  }
  Timetable table{.lasts = seconds(std::max(found.lasts_seconds, *std::ranges::max_element(free))), .switches = found.switches, .shortest = found.shortest, .turns = turns_of(*all, found), .steps = all->steps, .strip = all->strip, .later = usual.later};
  for (const detail::Task& task : all->tasks) table.hands_on += seconds(task.lasts_seconds);
  if (!begun) table.one_after_another = one_after_another(*all);
  table.remarks = remarks_on(kit, *all, asked.times);
  if (!usual.later.empty() && !begun) {
    Asked everything = asked;
    everything.hand_over = false;
    everything.tests.clear();
    for (const std::size_t test : named_ones) everything.tests.push_back(kit.tests[test].key);
    if (const auto longer = laid_out(kit, everything, {}, {}, false)) table.lasts_with_later = longer->lasts;
  }
  return table;
}

}  // namespace

Result<Timetable> timetable(const records::Kit& kit, const Asked& asked) { return laid_out(kit, asked, {}, {}, false); }

Result<Timetable> continue_from(const records::Kit& kit, const Asked& asked, const std::vector<Standing>& standing, const std::vector<seconds>& free_in) {
  return laid_out(kit, asked, standing, free_in, true);
}

}  // namespace redd::sitting
