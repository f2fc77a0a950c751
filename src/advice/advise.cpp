#include "advice/advise.h"

#include <algorithm>
#include <set>

#include "advice/answers.h"
#include "advice/conflicts.h"
#include "advice/dose_after_change.h"
#include "advice/edges.h"
#include "advice/headline.h"
#include "advice/merging.h"
#include "advice/ranking.h"
#include "advice/rule.h"
#include "planning/doubted_water.h"
#include "quantities/verbatim.h"

namespace redd::advice {
namespace {

/// Rules that reckon from the day the eggs are to come.
constexpr std::string_view from_egg_day[] = {"egg_day", "ripening", "raise_the_odds", "crowding", "water_programme"};

constexpr std::string_view rule_names[] = {
#define REDD_ITEM(name) #name,
#include "advice/rules_list.inc"
#undef REDD_ITEM
};
static_assert(std::ranges::all_of(from_egg_day, [](std::string_view rule) { return std::ranges::find(rule_names, rule) != std::end(rule_names); }));

/// Every rule's actions, each with a key of its own.
std::vector<Action> asked_by_rules(const Situation& s) {
  std::vector<Action> all;
#define REDD_ITEM(name)                                                      \
  for (Action& action : rules::name(s)) {                                    \
    all.push_back(std::move(action));                                        \
  }
#include "advice/rules_list.inc"
#undef REDD_ITEM
  if (const auto assumed = inference::egg_day_assumed(s.season, s.belief.brood))
    for (Action& a : all)
      if (std::ranges::find(from_egg_day, a.rule) != std::end(from_egg_day)) {
        a.because.push_back({*assumed, setup_records(s)});
        a.tone = std::min(a.tone, Tone::watch);  // a day that nobody named presses nobody
      }
  std::set<std::string> keys;
  for (Action& a : all) {
    // What rests on no record of its own rests on what is planned: the eggs received, else the set-up.
    if (std::ranges::all_of(a.because, [](const Reason& r) { return r.records.empty(); }) && !a.because.empty())
      a.because.front().records = s.belief.brood.receipt ? std::vector{*s.belief.brood.receipt} : setup_records(s);
    if (a.key.empty()) a.key = a.rule;
    const std::string key = a.key;
    for (int number = 2; !keys.insert(a.key).second; ++number) a.key = key + "/" + std::to_string(number);
  }
  return all;
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
      action.cautions.push_back({"The school is closed on {0} ({1}) and nobody is noted as on duty: agree who comes in.", {day, Word{verbatim(closure->name)}}});
    else
      action.cautions.push_back({"The school is closed on {0} ({1}); on duty: {2}.", {day, Word{verbatim(closure->name)}, Word{verbatim(labels)}}});
  }
}

struct Asked {
  std::vector<Action> actions{}, put_aside{};
};

/// The whole way from judged water to the list: rules, answers, order, merged, moved apart, order again.
Asked asked_of(const Situation& s) {
  Asked asked{asked_by_rules(s)};
  asked.put_aside = take_answered(s, asked.actions);
  rank(s, asked.put_aside);
  rank(s, asked.actions);
  merge(s, asked.actions);
  dose_only_the_rest(s, asked.actions);
  rank(s, asked.actions);
  resolve_conflicts(s, asked.actions);
  drop_false_calm(s, asked.actions, asked.put_aside);
  rank(s, asked.actions);
  return asked;
}

Situation situation_of(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                       const planning::FilterOutlook* filter, const ZoneOffsets& zone, Instant now) {
  Situation s{season, records, belief, filter, zone, now};
  s.school = records::SchoolCalendar(records);
  s.habits = habits_of(records, belief, s.school, zone, now);
  return s;
}

}  // namespace

Advice advise(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
              const planning::FilterOutlook* filter, const ZoneOffsets& zone, Instant now, const Looks& looks) {
  // Whoever has not reckoned with the doubts yet does so here.
  const inference::Belief doubted = planning::with_doubt(belief, season, filter);
  Situation s = situation_of(season, records, doubted, filter, zone, now);
  s.looks = looks;
  s.water = assess(s);
  Asked asked = asked_of(s);
  say_edges(s, asked.actions, [](const Situation& moved) { return asked_of(moved).actions; });
  say_when_closed(s, asked.actions);
  Advice advice;
  advice.headline = headline_of(s, asked.actions, asked.put_aside);
  advice.shown = std::min(most_shown, asked.actions.size());
  advice.actions = std::move(asked.actions);
  advice.put_aside = std::move(asked.put_aside);
  advice.water = std::move(s.water);
  return advice;
}

planning::AskedToday asked_of_water(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                                    const planning::FilterOutlook* filter, const ZoneOffsets& zone, Instant now, const Looks& looks) {
  const inference::Belief doubted = planning::with_doubt(belief, season, filter);
  Situation s = situation_of(season, records, doubted, filter, zone, now);
  s.looks = looks;
  s.water = assess(s);
  const std::vector<Action> actions = asked_of(s).actions;
  planning::AskedToday asked;
  asked.apart = kept_free(s, actions);
  for (const Action& a : actions) {
    const Date day = std::max(s.today(), local_day(s.zone, a.by));
    if (a.water_change && !asked.change) asked.change = {a.water_change->fraction, day};
    if (a.set_to && !asked.set_point) asked.set_point = {day, *a.set_to};
  }
  return asked;
}

std::vector<TestDay> weekly_test_days(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                                      const ZoneOffsets& zone, Instant now, Date last) {
  std::vector<TestDay> test_days;
  if (belief.brood.animals == inference::Animals::released) return test_days;
  const Situation s = situation_of(season, records, belief, nullptr, zone, now);
  for (Date due = std::max(s.today(), next_weekly_test(s)); due <= last; due += std::chrono::days(7)) {
    // An overdue sitting is asked for today, open or not.
    const Date day = due == s.today() ? due : weekly_test_day(s, due);
    if (day <= last && (test_days.empty() || day > test_days.back().day)) test_days.push_back({due, day});
  }
  return test_days;
}

}  // namespace redd::advice
