#include "advice/merging.h"

#include <algorithm>

#include "advice/answers.h"
#include "advice/ranking.h"
#include "emergency/holds.h"

namespace redd::advice {
namespace {

template <class T, class Same>
void add_new(std::vector<T>& all, const std::vector<T>& more, Same same) {
  for (const T& one : more)
    if (std::ranges::none_of(all, [&](const T& known) { return same(known, one); })) all.push_back(one);
}

void take_in(Action& into, const Action& other) {
  const auto same_reason = [](const Reason& a, const Reason& b) { return a.sentence.pattern == b.sentence.pattern && a.records == b.records && a.sentence.values.empty(); };
  add_new(into.because, other.because, same_reason);
  add_new(into.would_change_if, other.would_change_if, same_reason);
  add_new(into.cautions, other.cautions, [](const Sentence& a, const Sentence& b) { return a.pattern == b.pattern; });
  add_new(into.sources, other.sources, std::equal_to<>());
  add_new(into.deeds, other.deeds, std::equal_to<>());
  if (!into.benefit) into.benefit = other.benefit;
  else if (other.benefit && other.benefit->pattern != into.benefit->pattern) into.benefit = joined(*into.benefit, *other.benefit);
  into.stake = std::max(into.stake, other.stake);
  into.again = std::min(into.again, other.again);
  into.aim = std::min(into.aim, other.aim);
  if (other.tone > into.tone) into.tone = other.tone;
  if (other.by < into.by) {
    into.by = other.by;
    into.by_text = other.by_text;
  }
  if (!into.answer) into.answer = other.answer;
  into.key = joined_keys(into.key, other.key);
}

bool is_change(const Action& a) { return a.water_change.has_value(); }

/// The largest change does the work of all that were asked for.
void join_changes(Action& first, const Action& other) {
  if (other.water_change->fraction > first.water_change->fraction) {
    first.what = other.what;
    first.how_much = other.how_much;
    first.water_change = other.water_change;
    first.effort_minutes = other.effort_minutes;
    std::erase_if(first.cautions, [&](const Sentence& c) { return std::ranges::any_of(other.cautions, [&](const Sentence& o) { return o.pattern == c.pattern; }); });
  }
  take_in(first, other);
}

/// A look at the thermometer is no sitting of tests: it is quicker and does not wait for one.
bool is_test(const Action& a) { return a.tone != Tone::good && a.rule != "temperature" && a.deeds == std::vector{Deed::test}; }

void join_tests(Action& first, const Action& other) {
  constexpr int one_more_test_minutes = 5;  // Assumed: bottles, card and thermometer stand ready
  first.how_much = joined(first.how_much, joined({"In the same sitting:"}, other.what));
  first.effort_minutes = std::max(first.effort_minutes, other.effort_minutes) + one_more_test_minutes;
  take_in(first, other);
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

template <class May, class Join>
void join_where(std::vector<Action>& actions, May may, Join join) {
  for (std::size_t first = 0; first < actions.size(); ++first)
    for (std::size_t other = first + 1; other < actions.size();) {
      if (!may(actions[first], actions[other])) {
        ++other;
        continue;
      }
      join(actions[first], actions[other]);
      actions.erase(actions.begin() + static_cast<std::ptrdiff_t>(other));
    }
}

}  // namespace

void merge(const Situation& s, std::vector<Action>& actions) {
  drop_second_doubts(actions);
  join_where(actions, [](const Action& a, const Action& b) { return is_change(a) && is_change(b); }, join_changes);
  const auto day = [&](const Action& a) { return std::max(s.today(), local_day(s.zone, a.by)); };
  join_where(actions, [&](const Action& a, const Action& b) { return is_test(a) && is_test(b) && day(a) == day(b); }, join_tests);
}

bool still_stands(const Action& put_aside) {
  if (put_aside.tone >= Tone::act) return true;
  const bool done = put_aside.answer && put_aside.answer->answer == records::AdviceAnswer::Answer::done;
  return !done && put_aside.tone >= Tone::watch && put_aside.aim == Aim::animals;
}

void drop_false_calm(const Situation& s, std::vector<Action>& actions, const std::vector<Action>& put_aside) {
  const bool busy = std::ranges::any_of(actions, [&](const Action& a) { return a.tone >= Tone::act || (a.tone != Tone::good && !a.beside_calm && !is_far(s, a)); });
  if (busy) std::erase_if(actions, [](const Action& a) { return a.tone == Tone::good; });
  if (std::ranges::none_of(put_aside, still_stands)) return;
  for (Action& a : actions) {
    if (a.tone != Tone::good || a.rule != "weekly_test") continue;
    a.tone = Tone::watch;
    a.concern = {"What you put aside still stands."};
    a.what = {"Test again on {0}.", {local_day(s.zone, a.by)}};
  }
}

}  // namespace redd::advice
