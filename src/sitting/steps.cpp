#include "sitting/steps.h"

#include <algorithm>
#include <utility>

#include "quantities/verbatim.h"

namespace redd::sitting {
namespace {

using records::KitTest;
using records::TimedStep;
using Do = TimedStep::Do;

bool has_step(const KitTest& test, std::initializer_list<Do> kinds) {
  return std::ranges::any_of(test.timed_steps, [&](const TimedStep& step) { return std::ranges::find(kinds, step.what) != kinds.end(); });
}

seconds hands_on(const TimedStep& step, const HandTimes& hands) {
  if (step.seconds) return seconds(*step.seconds);
  switch (step.what) {
    case Do::fill: return hands.fill;
    case Do::drops: return step.count ? hands.bottle + *step.count * hands.drop : hands.titration;
    case Do::powder: return step.count.value_or(1) * hands.spoon;
    case Do::mix: return hands.mix;
    case Do::read: return hands.read;
    case Do::wait: break;
  }
  broken_promise("hands_on", "a wait is not hands-on");
}

std::string pointer(std::size_t test, std::size_t step, const char* field) {
  return "/kit/tests/" + std::to_string(test) + "/timed_steps/" + std::to_string(step) + "/" + field;
}

Problem wait_without_seconds(const KitTest& test, std::string field) {
  return {"wait_without_seconds", std::move(field), said("Test \"{0}\" has a wait whose length is not known: write the seconds that the card prints.", verbatim(test.key))};
}

void add_wait(std::vector<Step>& steps, seconds lasts, const std::string& text) {
  if (steps.empty() || steps.back().what != Do::wait) return steps.push_back({.what = Do::wait, .lasts = lasts, .text = text});
  steps.back().lasts += lasts;
  if (!text.empty()) steps.back().text += (steps.back().text.empty() ? "" : " ") + text;
}

/// The last step, a read, is over too late even if nobody lingers.
bool outlasts_its_window(const std::vector<Step>& steps) {
  const Step& read = steps.back();
  if (read.read_by && *read.read_by < read.lasts) return true;
  seconds since_wait{0};
  for (auto step = steps.rbegin(); step != steps.rend() && step->what != Do::wait; ++step) since_wait += step->lasts;
  return read.read_by_after_wait && *read.read_by_after_wait < since_wait;
}

Problem outlasting(const KitTest& test, const Step& read, std::string field) {
  return {"reading_outlasts_its_window", std::move(field),
          said("Test \"{0}\" cannot be read in the time its card gives: reading is taken to last {1} s. Check the times on the card, or say that your class reads faster.", verbatim(test.key), read.lasts.count())};
}

}  // namespace

std::optional<std::size_t> strip_of(const records::Kit& kit, std::size_t test) {
  const KitTest& asked = kit.tests[test];
  if (asked.method != records::Method::colour_steps || asked.timed_steps.empty()) return std::nullopt;
  if (has_step(asked, {Do::fill, Do::drops, Do::powder, Do::mix})) return std::nullopt;
  for (std::size_t i = test; i-- > 0;) {
    const KitTest& earlier = kit.tests[i];
    if (earlier.method != records::Method::colour_steps || !has_step(earlier, {Do::fill})) continue;
    return has_step(earlier, {Do::drops, Do::powder, Do::mix}) ? std::nullopt : std::optional(i);
  }
  return std::nullopt;
}

Result<std::vector<Step>> steps_of(const records::Kit& kit, std::size_t test, const HandTimes& hands, bool on_a_strip) {
  const KitTest& asked = kit.tests[test];
  std::vector<Step> steps;
  if (asked.timed_steps.empty()) return std::vector<Step>{{.what = Do::read, .lasts = hands.whole_test, .assumed = true}};
  Problems problems;
  std::optional<seconds> after_wait;  // a time to read by that stood on a wait
  if (asked.timed_steps.front().what == Do::wait && !on_a_strip) steps.push_back({.what = Do::fill, .lasts = hands.begin, .assumed = true});
  for (std::size_t i = 0; i < asked.timed_steps.size(); ++i) {
    const TimedStep& step = asked.timed_steps[i];
    const auto by = step.read_by_seconds ? std::optional(seconds(*step.read_by_seconds)) : std::nullopt;
    if (step.what == Do::wait) {
      if (!step.seconds) problems.push_back(wait_without_seconds(asked, pointer(test, i, "seconds")));
      add_wait(steps, seconds(step.seconds.value_or(0)), step.text);
      if (by) after_wait = std::min(*by, after_wait.value_or(*by));
      continue;
    }
    steps.push_back({.what = step.what, .lasts = hands_on(step, hands), .text = step.text, .count = step.count});
    if (step.what != Do::read) continue;
    steps.back().read_by = by;
    steps.back().read_by_after_wait = std::exchange(after_wait, std::nullopt);
    if (outlasts_its_window(steps)) problems.push_back(outlasting(asked, steps.back(), pointer(test, i, "read_by_seconds")));
  }
  if (problems.empty() && steps.back().what != Do::read) {
    steps.push_back({.what = Do::read, .lasts = hands.read, .read_by_after_wait = after_wait, .assumed = true});
    if (outlasts_its_window(steps)) problems.push_back(outlasting(asked, steps.back(), pointer(test, asked.timed_steps.size() - 1, "read_by_seconds")));
  }
  if (!problems.empty()) return problems;
  return steps;
}

}  // namespace redd::sitting
