#include "advice/headline.h"

#include <algorithm>

#include "advice/merging.h"

namespace redd::advice {
namespace {

int unknown_values(const Situation& s) {
  return static_cast<int>(std::ranges::count_if(s.water, [](const auto& judged) { return judged.second.tone == Tone::unknown && judged.first != WaterKey::oxygen; }));
}

/// What was answered stands before a calm sentence.
Headline of_what_stands(const Action& standing) {
  return {Tone::watch, {"What you put aside still stands."}, standing.concern.empty() ? standing.what : standing.concern};
}

}  // namespace

Headline headline_of(const Situation& s, const std::vector<Action>& actions, const std::vector<Action>& put_aside) {
  const Tone asked = actions.empty() ? Tone::unknown : actions.front().tone;
  const auto standing = std::ranges::find_if(put_aside, still_stands);
  if (asked <= Tone::watch && standing != put_aside.end() && (asked < Tone::watch || actions.front().rule == "weekly_test")) return of_what_stands(*standing);
  const int unknown = unknown_values(s);
  const bool released = s.belief.brood.animals == inference::Animals::released;
  if (asked == Tone::unknown || (asked == Tone::good && unknown > 0 && !released)) {
    Headline h{Tone::unknown, {"Not enough is known to say that all is well."}, {}};
    if (unknown > 0) h.detail = {"{0} of the weekly values are unknown or too old.", {Number{unknown}}};
    else if (!put_aside.empty()) h = {Tone::unknown, {"Nothing else is asked for now."}, {"What was asked is answered; it comes back when it is due or when something new is logged."}};
    return h;
  }
  return {asked, actions.front().concern, actions.front().what};
}

}  // namespace redd::advice
