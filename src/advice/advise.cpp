#include "advice/advise.h"

#include <algorithm>

#include "advice/rule.h"

namespace redd::advice {
namespace {

std::vector<Action> every_rules_actions(const Situation& s) {
  std::vector<Action> all;
#define REDD_ITEM(name)                                                      \
  for (Action& action : rules::name(s)) {                                    \
    all.push_back(std::move(action));                                        \
  }
#include "advice/rules_list.inc"
#undef REDD_ITEM
  return all;
}

/// One water change does the work of all that were asked for: the largest stands, and carries the others' reasons.
void merge_water_changes(std::vector<Action>& actions) {
  const auto is_change = [](const Action& a) { return a.water_change.has_value(); };
  const auto larger = [](const Action& a, const Action& b) {
    return (a.water_change ? a.water_change->fraction : -1.0) < (b.water_change ? b.water_change->fraction : -1.0);
  };
  if (std::ranges::count_if(actions, is_change) < 2) return;
  Action merged = *std::max_element(actions.begin(), actions.end(), larger);
  for (const Action& other : actions) {
    if (!is_change(other) || other.rule == merged.rule) continue;
    merged.because.insert(merged.because.end(), other.because.begin(), other.because.end());
    merged.would_change_if.insert(merged.would_change_if.end(), other.would_change_if.begin(), other.would_change_if.end());
    merged.sources.insert(merged.sources.end(), other.sources.begin(), other.sources.end());
    for (const Sentence& caution : other.cautions)
      if (std::ranges::none_of(merged.cautions, [&](const Sentence& c) { return c.pattern == caution.pattern; })) merged.cautions.push_back(caution);
    if (other.tone > merged.tone) {
      merged.tone = other.tone;
      merged.by = other.by;
      merged.by_text = other.by_text;
    }
  }
  std::erase_if(actions, is_change);
  actions.push_back(std::move(merged));
}

/// Animals first: alarms, then what falls due; among equals the one that takes least time.
void rank(std::vector<Action>& actions) {
  std::ranges::stable_sort(actions, [](const Action& a, const Action& b) {
    if (a.tone != b.tone) return a.tone > b.tone;
    if (a.by != b.by) return a.by < b.by;
    return a.effort_minutes < b.effort_minutes;
  });
}

/// A reading two rules doubt is repeated once: the rule that looks at the card itself says it best.
void drop_second_doubts(std::vector<Action>& actions) {
  const auto names = [](const Action& a, records::RecordId id) {
    return std::ranges::any_of(a.because, [&](const Reason& r) { return std::ranges::find(r.records, id) != r.records.end(); });
  };
  std::vector<Action> direct;
  std::ranges::copy_if(actions, std::back_inserter(direct), [](const Action& a) { return a.rule == "contradiction"; });
  std::erase_if(actions, [&](const Action& a) {
    if (a.rule != "doubted_reading") return false;
    return std::ranges::any_of(direct, [&](const Action& d) {
      return std::ranges::any_of(a.because.front().records, [&](records::RecordId id) { return names(d, id); });
    });
  });
}

/// "Nothing to do for the water" must not stand beside something to do for it; what the brood will do next, or a count that is due, may.
void drop_false_calm(std::vector<Action>& actions) {
  const bool busy = std::ranges::any_of(actions, [](const Action& a) { return a.tone != Tone::good && (a.tone >= Tone::act || (a.rule != "milestones" && a.rule != "drift" && a.rule != "count_due" && a.rule != "losses")); });
  if (busy) std::erase_if(actions, [](const Action& a) { return a.tone == Tone::good; });
}

/// What is asked on a day the school is closed needs somebody who comes in. Ordinary weekends are said nothing of.
void say_when_closed(const Situation& s, std::vector<Action>& actions) {
  for (Action& action : actions) {
    const Date day = local_day(s.zone, action.by);
    const auto closure = s.school.closure_on(day);
    if (!closure) continue;
    std::string labels;
    for (const std::string& label : s.school.on_duty(day)) labels += (labels.empty() ? "" : ", ") + label;
    if (labels.empty())
      action.cautions.push_back({"The school is closed on {0} ({1}) and nobody is noted as on duty: agree who comes in.", {day, Word{closure->name}}});
    else
      action.cautions.push_back({"The school is closed on {0} ({1}); on duty: {2}.", {day, Word{closure->name}, Word{labels}}});
  }
}

Headline headline_of(const Situation& s, const std::vector<Action>& actions) {
  Headline h;
  h.tone = actions.empty() ? Tone::unknown : actions.front().tone;
  int unknown = 0;
  for (const auto& [key, a] : s.water)
    if (a.tone == Tone::unknown && key != WaterKey::oxygen) ++unknown;
  if (h.tone == Tone::good && unknown > 0 && s.belief.brood.animals != inference::Animals::released) h.tone = Tone::unknown;
  if (h.tone == Tone::unknown || actions.empty()) {
    h.sentence = {"Not enough is known to say that all is well."};
    h.detail = unknown > 0 ? Sentence{"{0} of the weekly values are unknown or too old.", {Number{unknown}}} : Sentence{};
    return h;
  }
  h.sentence = actions.front().concern;
  h.detail = actions.front().what;
  return h;
}

}  // namespace

Advice advise(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
              const planning::FilterOutlook* filter, const ZoneOffsets& zone, Instant now, const Looks& looks) {
  Situation s{season, records, belief, filter, zone, now};
  s.school = records::SchoolCalendar(records);
  s.looks = looks;
  s.water = assess(s);
  Advice advice;
  advice.actions = every_rules_actions(s);
  merge_water_changes(advice.actions);
  drop_second_doubts(advice.actions);
  drop_false_calm(advice.actions);
  say_when_closed(s, advice.actions);
  rank(advice.actions);
  advice.headline = headline_of(s, advice.actions);
  advice.water = std::move(s.water);
  return advice;
}

std::vector<TestDay> weekly_test_days(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                                      const ZoneOffsets& zone, Instant now, Date last) {
  std::vector<TestDay> test_days;
  if (belief.brood.animals == inference::Animals::released) return test_days;
  Situation s{season, records, belief, nullptr, zone, now};
  s.school = records::SchoolCalendar(records);
  for (Date due = std::max(s.today(), next_weekly_test(s)); due <= last; due += std::chrono::days(7)) {
    // An overdue sitting is asked for today, open or not.
    const Date day = due == s.today() ? due : weekly_test_day(s, due);
    if (day <= last && (test_days.empty() || day > test_days.back().day)) test_days.push_back({due, day});
  }
  return test_days;
}

}  // namespace redd::advice
