// The brood grows towards what the tank can carry: said weeks ahead, while a choice is left. A filter too weak is filter_load's to say.

#include <algorithm>

#include "advice/assess_filter.h"
#include "advice/rule.h"
#include "planning/loading.h"

namespace redd::advice::rules {
namespace {

using planning::LoadLimit;

std::string_view word_of(LoadLimit limit) {
  switch (limit) {
    case LoadLimit::oxygen: return "oxygen";
    case LoadLimit::ammonia: return "ammonia";
    case LoadLimit::space: break;
  }
  return "room";
}

/// Farther ahead there is nothing to do yet, and today's filter says little of weeks in which it will have grown. Assumed: six weeks.
constexpr std::chrono::days looked_ahead{42};

bool filter_load_speaks(const Situation& s) {
  if (!s.filter) return false;
  const Tone tone = capacity_tone(*s.filter);
  return tone == Tone::watch || tone == Tone::act;
}

/// Eggs in the tank can't be sent back, so they are spoken of when the limit comes near. While fewer can still be ordered it is said early, but not for weeks
/// in which the fry may long be gone: inside the permit's days, else soon after they swim up.
bool in_time(const Situation& s, const planning::LoadReached& reached) {
  const auto& view = *s.looks.loading;
  if (view.state == planning::LoadingView::State::in_tank) return reached.day - s.today() <= looked_ahead;
  if (view.release_from || view.release_until) return true;
  const auto fry = std::ranges::find(view.days, biology::LifeStage::fry, &planning::LoadRow::stage);
  constexpr std::chrono::days soon{14};
  return fry != view.days.end() && reached.day <= *fry->day + soon;
}

/// Whether this limit is a reason to plan for fewer. Not oxygen by an air pump nobody described: the rule of oxygen asks for a test instead. Not
/// ammonia where filter_load speaks of it, or too far ahead.
bool worth_saying(const Situation& s, const planning::LoadReached& reached) {
  if (!in_time(s, reached)) return false;
  switch (reached.limit) {
    case LoadLimit::oxygen: return s.looks.loading->air_basis != planning::AirBasis::assumed;
    case LoadLimit::ammonia: return !filter_load_speaks(s) && inference::has_animals(s.belief.brood.animals);
    case LoadLimit::space: break;
  }
  return true;
}

const planning::LoadReached* first_worth_saying(const Situation& s) {
  const planning::LoadReached* first = nullptr;
  for (const auto& reached : s.looks.loading->reached_by)
    if (reached && !reached->options.empty() && worth_saying(s, *reached) && (!first || reached->day < first->day)) first = &*reached;
  return first;
}

std::string_view source_of(LoadLimit limit) {
  switch (limit) {
    case LoadLimit::oxygen: return "oxygen balance: Wieser 1985 (breathing), Benson & Krause 1984 (saturation)";
    case LoadLimit::ammonia: return "ammonia: Meade 1985 (0.0125 mg/L as NH3), Emerson et al. 1975";
    case LoadLimit::space: break;
  }
  return "room in a recirculated tank: common practice, no source";
}

}  // namespace

std::vector<Action> crowding(const Situation& s) {
  const planning::LoadingView* view = s.looks.loading;
  const planning::LoadReached* found = view ? first_worth_saying(s) : nullptr;
  if (!found) return {};
  const planning::LoadReached& reached = *found;
  constexpr std::chrono::days notice{14}, ask_within{3};
  const bool over = reached.day <= s.today() && view->state == planning::LoadingView::State::in_tank;
  // Fewer eggs can be asked for until they are packed. Assumed: two weeks before they come.
  const bool to_come = view->state != planning::LoadingView::State::in_tank && s.season.egg_day;
  const bool assumed = inference::egg_day_assumed(s.season, s.belief.brood).has_value();
  // A day that nobody named presses nobody: the number is said in the call that asks for the day.
  const Date due = assumed ? s.today() + ask_within : std::max(to_come ? std::min(reached.day, *s.season.egg_day) - notice : reached.day - notice, s.today());
  const Date day = due > s.today() ? open_day_from(s, due) : next_school_day(s);
  Action a;
  a.rule = "crowding";
  a.beside_calm = true;
  a.tone = Tone::watch;
  a.aim = Aim::deadline;
  a.deeds = {Deed::ask_for_help};
  const bool count_assumed = view->animals_assumed && !over;
  a.concern = count_assumed ? Sentence{"Nobody has said how many eggs come."} : over ? Sentence{"There are more animals than the tank probably carries."} : Sentence{"The brood will outgrow the tank."};
  a.what = reached.options.front().what;
  const int fit = planning::round_animals(reached.carried_then), too_many = std::max(1, reached.expected - fit);
  if (count_assumed) a.how_much = {"By {0}, on {1}. Write the number into the set-up once it is known.", {Word{std::string(word_of(reached.limit))}, reached.worst_day}};
  else a.how_much = {"By {0} the tank probably carries about {1} of the {2} expected on {3}: {4} too many by then.",
                {Word{std::string(word_of(reached.limit))}, Number{fit}, Number{reached.expected}, reached.worst_day, Number{too_many}}};
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.effort_minutes = 20;
  a.benefit = Sentence{"Keeps the tank inside its limit of {0} from {1} on.", {Word{std::string(word_of(reached.limit))}, reached.day}};
  std::vector<records::RecordId> ids;
  if (s.belief.brood.receipt) ids.push_back(*s.belief.brood.receipt);
  a.because.push_back({over ? Sentence{"The limit of {0} is probably passed already.", {Word{std::string(word_of(reached.limit))}}}
                       : count_assumed ? Sentence{"Nobody said how many eggs: {0} are taken.", {Number{reached.expected}}}
                            : Sentence{"{0} animals are expected; the limit of {1} is probably passed from {2} on.", {Number{reached.expected}, Word{std::string(word_of(reached.limit))}, reached.day}}, ids});
  if (reached.limit == LoadLimit::oxygen && view->air_basis == planning::AirBasis::read) a.because.push_back({{"What the air brings in was learnt from the last oxygen reading."}, view->oxygen_records});
  for (std::size_t i = 1; i < reached.options.size(); ++i) {
    a.because.push_back({joined("Or:", reached.options[i].what), {}});
  }
  a.would_change_if.push_back({{"Weighed fish lighter than foretold, a count of fewer, or an oxygen reading near full in the morning."}, {}});
  a.cautions.push_back({"No fish leaves the tank without the permit's word: ask its agency."});
  a.sources = {std::string(source_of(reached.limit)), "growth: Iwama & Tautz 1981"};
  return {a};
}

}  // namespace redd::advice::rules
