#include "advice/ranking.h"

#include <tuple>

#include "advice/rule.h"

namespace redd::advice {
namespace {

/// Alarm, act, watch (what is not known among it), good, and last what is only to be planned weeks ahead.
int urgency_class(const Situation& s, const Action& a) {
  switch (a.tone) {
    case Tone::alarm: return 0;
    case Tone::act: return 1;
    case Tone::watch: return is_far(s, a) ? 4 : 2;
    case Tone::unknown: return 2;
    case Tone::good: break;
  }
  return 3;
}

/// 0 until tomorrow or the next school day, 1 within a week, 2 later. What is acted on is acted on now.
int horizon(const Situation& s, const Action& a) {
  if (a.tone >= Tone::act) return 0;
  const Date day = local_day(s.zone, a.by);
  const Date near = std::max(s.today() + std::chrono::days(1), s.school.next_open_day(s.today()).value_or(s.today()));
  return day <= near ? 0 : day <= s.today() + std::chrono::days(7) ? 1 : 2;
}

/// Share of the brood a minute of this work protects. Assumed, for rules that name no stake: half at an alarm, a tenth where one should act, a
/// fiftieth where one should watch.
double averted_per_minute(const Action& a) {
  const double by_tone = a.tone == Tone::alarm ? 0.5 : a.tone == Tone::act ? 0.1 : a.tone == Tone::good ? 0.0 : 0.02;
  return (a.stake > 0.0 ? a.stake : by_tone) / std::max(1, a.effort_minutes);
}

}  // namespace

bool is_far(const Situation& s, const Action& a) { return a.tone == Tone::watch && local_day(s.zone, a.by) > s.today() + std::chrono::days(14); }

void rank(const Situation& s, std::vector<Action>& actions) {
  const auto place = [&](const Action& a) {
    const Instant from = std::max(s.now, a.from.value_or(s.now));
    return std::tuple(urgency_class(s, a), horizon(s, a), a.aim, a.by, from, -averted_per_minute(a));
  };
  std::ranges::stable_sort(actions, [&](const Action& a, const Action& b) { return place(a) < place(b); });
}

}  // namespace redd::advice
