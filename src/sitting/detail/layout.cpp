#include "sitting/detail/layout.h"

#include <algorithm>

#include "quantities/verbatim.h"

namespace redd::sitting::detail {
namespace {

using Do = records::TimedStep::Do;

int whole(seconds s) { return static_cast<int>(s.count()); }

/// When the last step before ended: with a task still to come, or at a moment (before now: less than nought), or nothing has begun.
struct Clock {
  int after = -1;
  int at = 0;
  bool runs = false;
};

class Builder {
 public:
  explicit Builder(Layout& out) : out_(out) {}

  /// The tasks of a test from its step `done` on.
  void add(std::size_t test, int vial, int done, Clock clock) {
    const std::vector<Step>& steps = out_.steps[test];
    int wait = 0, since_wait = 0;
    for (int i = done; i-- > 0 && at(steps, i).what != Do::wait;) since_wait += whole(at(steps, i).lasts);
    for (int i = done; i < static_cast<int>(steps.size());) {
      if (at(steps, i).what == Do::wait) {
        wait += whole(at(steps, i++).lasts);
        since_wait = 0;
        continue;
      }
      Task task{.vial = vial, .after = clock.after, .wait_seconds = clock.runs ? clock.at + wait : 0};
      Stretch stretch{.test = test, .first_step = i};
      for (; i < static_cast<int>(steps.size()) && at(steps, i).what != Do::wait; ++i) {
        const Step& step = at(steps, i);
        task.lasts_seconds += whole(step.lasts);
        if (!clock.runs) continue;
        if (step.read_by_after_wait) bind(task, stretch, clock.at + wait - since_wait + whole(*step.read_by_after_wait));
        if (step.read_by && i == stretch.first_step) bind(task, stretch, clock.at + wait + whole(*step.read_by));
      }
      stretch.end_step = i;
      out_.tasks.push_back(task);
      out_.stretches.push_back(stretch);
      clock = {static_cast<int>(out_.tasks.size()) - 1, 0, true};
      wait = since_wait = 0;
    }
  }

 private:
  static const Step& at(const std::vector<Step>& steps, int i) { return steps[static_cast<std::size_t>(i)]; }

  /// What has been laid of the task so far must be over by this moment, counted as the task's wait is.
  static void bind(Task& task, Stretch& stretch, int over_by) {
    const int latest = over_by - task.lasts_seconds;
    if (task.latest_seconds && *task.latest_seconds <= latest) return;
    task.latest_seconds = latest;
    stretch.read_by_after_start_seconds = task.lasts_seconds;
  }

  Layout& out_;
};

/// Hands-on steps at the beginning: the dip of a strip.
int dip_steps(const std::vector<Step>& steps) {
  return static_cast<int>(std::ranges::find(steps, Do::wait, &Step::what) - steps.begin());
}

Problem strip_without_time(const records::Kit& kit, std::size_t test) {
  return {"strip_without_time", "/state", said("Say how long ago the strip of test \"{0}\" was dipped, or dip a new one.", verbatim(kit.tests[test].key))};
}

}  // namespace

Result<Layout> layout(const records::Kit& kit, const Asked& asked, const std::vector<std::size_t>& tests, const std::vector<Standing>& standing) {
  Layout out{.tests = tests, .steps = std::vector<std::vector<Step>>(kit.tests.size()), .strip = std::vector<std::optional<std::size_t>>(kit.tests.size())};
  Problems problems;
  for (const std::size_t test : tests) {
    const auto strip = strip_of(kit, test);
    if (strip && std::ranges::find(tests, *strip) != tests.end()) out.strip[test] = strip;
    auto steps = steps_of(kit, test, asked.times, out.strip[test].has_value());
    if (steps) out.steps[test] = std::move(steps).value();
    else problems.insert(problems.end(), steps.problems().begin(), steps.problems().end());
  }
  std::vector<const Standing*> stands(kit.tests.size(), nullptr);
  for (const Standing& each : standing) {
    const auto test = std::ranges::find(tests, each.test, [&](std::size_t i) { return kit.tests[i].key; });
    if (test == tests.end()) problems.push_back({"unknown_test", "/state", said("Test \"{0}\" is not part of this sitting.", verbatim(each.test))});
    else if (std::exchange(stands[*test], &each)) problems.push_back({"given_twice", "/state", said("Test \"{0}\" is given twice.", verbatim(each.test))});
    else if (problems.empty() && (each.steps_done < 0 || each.steps_done > static_cast<int>(out.steps[*test].size())))
      problems.push_back({"unknown_step", "/state", said("Test \"{0}\" has {1} steps; {2} of them can't be done.", verbatim(each.test), out.steps[*test].size(), each.steps_done)});
  }
  if (!problems.empty()) return problems;

  Builder builder(out);
  std::vector<int> first_task(kit.tests.size(), -1);
  for (const std::size_t test : tests) {
    const Standing* here = stands[test];
    Clock clock;
    if (here && (here->steps_done > 0 || out.strip[test])) clock = {-1, -whole(here->ended_ago), true};
    const std::size_t vial = out.strip[test].value_or(test);
    if (out.strip[test] && !here) {
      const Standing* dipped = stands[vial];
      const bool begun = dipped && dipped->steps_done > 0;
      // A strip half read: only its own entry can tell how old this colour is.
      if (begun && dipped->steps_done > dip_steps(out.steps[vial])) return strip_without_time(kit, test);
      clock = begun ? Clock{-1, -whole(dipped->ended_ago), true} : Clock{first_task[vial], 0, true};
    }
    first_task[test] = static_cast<int>(out.tasks.size());
    builder.add(test, static_cast<int>(vial), here ? here->steps_done : 0, clock);
  }
  if (out.tasks.size() > most_tasks)
    return Problem{"too_many_tests", "/tests", said("A sitting can have {0} turns at the vials; this one has {1}. Split it into two.", most_tasks, out.tasks.size())};
  return out;
}

std::vector<Task> tasks_of(const Layout& all, const std::vector<std::size_t>& tests) {
  std::vector<int> place(all.tasks.size(), -1);
  std::vector<Task> some;
  for (std::size_t i = 0; i < all.tasks.size(); ++i) {
    if (std::ranges::find(tests, all.stretches[i].test) == tests.end()) continue;
    place[i] = static_cast<int>(some.size());
    Task task = all.tasks[i];
    if (task.after >= 0 && (task.after = place[static_cast<std::size_t>(task.after)]) < 0) {
      task.wait_seconds = 0;
      task.latest_seconds.reset();
    }
    some.push_back(task);
  }
  return some;
}

}  // namespace redd::sitting::detail
